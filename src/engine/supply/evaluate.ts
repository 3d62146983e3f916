/** From a supply to its readings: settle what is open, then read every condition. */
export { evaluate } from './evaluate/evaluate.ts'
export {
  at,
  type ConditionReadings,
  type Evaluation,
  greatest,
  least,
  modeInWords,
  type Running,
} from './evaluation.ts'
export { resolve } from './resolve/resolve.ts'
