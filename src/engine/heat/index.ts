export * from './assembly.ts'
export * from './enclosure.ts'
export * from './junction.ts'
export type {
  HeatInput,
  ThermalFailure,
  ThermalFixed,
  ThermalLink,
  ThermalNetwork,
  ThermalNode,
} from './network.ts'
export * from './response.ts'
export { steadyTemperatures, type Temperatures } from './steady.ts'
export * from './transformer-surface.ts'
