export type { AutotransformerParameters } from "./autotransformer.ts";
export type { CableParameters } from "./cable.ts";
export type { Coil, CoilBurden, ContactorMode, ContactorParameters } from "./contactor.ts";
export { type ClosedBy, namesIn } from "./contacts.ts";
export type { ControlParameters } from "./controls.ts";
export type { Impedance, Leg, Place } from "./conventions.ts";
export type { CurrentSense, DelayRelayMode, DelayRelayParameters } from "./delayRelay.ts";
export { type FuseParameters, meltFraction } from "./fuse.ts";
export type { GeneratorMode, GeneratorSource } from "./generator.ts";
export type { Mode } from "./guardTable.ts";
export { type Compressor, type Delivery, type HeadMode, isLoaded, type Unloader } from "./head.ts";
export { kirchhoffResidual, type PowerBalance, powerBalance, unphysicalCooling } from "./invariants.ts";
export type { InverterMode, InverterSource } from "./inverter.ts";
export type { Layout } from "./layout.ts";
export type { LoadParameters } from "./load.ts";
export type { LockOutMode, LockOutTimerParameters } from "./lockOutTimer.ts";
export type { Auxiliary, Machine, StartSwitch } from "./machine.ts";
export {
  atFrequency,
  auxiliaryBranch,
  blankMachineAt,
  type MachineAt,
  machineAdmittance,
  synchronousSpeed_radps,
} from "./machineAdmittance.ts";
export {
  type CurrentStep,
  type MeltResponse,
  type MeltTerms,
  meltAfter,
  meltingCurrent_A,
  meltingTime_s,
  meltResponse,
  meltSettled,
} from "./melt.ts";
export type { MotorMode, MotorParameters } from "./motor.ts";
export type { Circuit, PartParameters } from "./parts.ts";
export type { PilotSwitchParameters } from "./pilotSwitch.ts";
export { type CircuitPlant, plantOf } from "./plant.ts";
export type { PressureSwitchMode, PressureSwitchParameters } from "./pressureSwitch.ts";
export type { DemandStep, ReceiverMode, ReceiverParameters } from "./receiver.ts";
export { type MotorPoint, steadyState } from "./revolving.ts";
export { asStated, type Script, type VoltageStep } from "./script.ts";
export type { SupplyParameters } from "./supply.ts";
export { type LoadTorque, loadTorque_Nm } from "./torque.ts";
export type { Excitation, TransformerParameters } from "./transformer.ts";
export { currentInto, magnitude, type Walk } from "./walk.ts";
export { type Core, type CoreShape, coreOf, USUAL_CORE } from "./wave/core.ts";
export { waveBalance } from "./wave/waveBalance.ts";
export { type WavePlant, type WaveStart, wavePlantOf } from "./wave/wavePlant.ts";
export type { WaveWalk } from "./wave/waveWalk.ts";
