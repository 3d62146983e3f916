export { type Assessment, assess } from './assess.ts'
export type { Limit } from './limit.ts'
export { limitIds, limits } from './limits.ts'
