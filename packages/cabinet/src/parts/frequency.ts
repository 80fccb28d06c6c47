import type { Impedance, Machine } from "@startgap/circuit";

/**
 * The same machine fed at another frequency: a reactance of wire grows with it, one of a capacitor falls.
 *
 * Limitation: resistances, core loss and friction are left as they are.
 *
 * @param frequency_Hz above 0
 */
export function atFrequency(machine: Machine, frequency_Hz: number): Machine {
  const k = frequency_Hz / machine.frequency_Hz;
  if (k === 1) return machine;
  const coil = <Z extends Impedance>(z: Z): Z => ({ ...z, x_ohm: z.x_ohm * k });
  const capacitor = (z: Impedance | null): Impedance | null =>
    z === null ? null : { ...z, x_ohm: z.x_ohm / k };
  return {
    ...machine,
    frequency_Hz,
    main: coil(machine.main),
    rotor: coil(machine.rotor),
    rotorAtStandstill: coil(machine.rotorAtStandstill),
    magnetising_ohm: machine.magnetising_ohm * k,
    auxiliary: machine.auxiliary === null ? null : coil(machine.auxiliary),
    startCapacitor: capacitor(machine.startCapacitor),
    runCapacitor: capacitor(machine.runCapacitor),
  };
}
