export { type Assessment, assess, assessWhole, limitsOfLoop, withLoopLimits } from './assess.ts'
export { type Limit, rankOf, roomInWords, weakestFirst } from './limit.ts'
export { limitIds, limits, unmetClasses } from './limits.ts'
