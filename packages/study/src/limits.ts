/** A limit with two steps and where it comes from. */
export interface Limit {
  /** On the good side of this: pass. */
  readonly pass: number;
  /** On the bad side of this: fail. Between the two: caution. */
  readonly fail: number;
  readonly basis: string;
}

export const RUN_UP_s: Limit = {
  pass: 3,
  fail: 5,
  basis: "common practice, no source: start winding out within about 3 s, switch off what is not up in 5 s",
};

/** Of the motor's rated voltage, percent. */
export const MOTOR_VOLTAGE_percent: Limit = {
  pass: 90,
  fail: 80,
  basis:
    "IEEE Std 141 Table 3-11: at least 80 % at the terminals to accelerate (from memory); 90 % running, NEMA MG 1 12.44",
};

/** Of nominal; and the times the envelope allows below its steps. */
export const RECEPTACLE_percent: Limit = {
  pass: 90,
  fail: 70,
  basis: "ITI (CBEMA) curve, 2000 revision: 90 % steady, 80 % up to 10 s, 70 % up to 0.5 s, 0 % up to 20 ms",
};

/** Low side of the ITI curve: below `percent` for no longer than `longest_s`. */
export const RECEPTACLE_TIMES: readonly { readonly percent: number; readonly longest_s: number }[] = [
  { percent: 90, longest_s: 10 },
  { percent: 80, longest_s: 0.5 },
  { percent: 70, longest_s: 0.02 },
];

/** Coil voltage of rated, percent: a contactor must close at 85 % and may release at 75 %. */
export const COIL_percent: Limit = {
  pass: 85,
  fail: 75,
  basis:
    "IEC 60947-4-1 9.2.1.2: closes at 85 % of rated coil voltage, may release from 75 % down (from memory)",
};

/** Closings of a contactor within one second, on motors that do not come up between them. */
export const CLOSINGS_a_second: Limit = {
  pass: 1,
  fail: 3,
  basis:
    "common practice, no source: contacts that close on start current again within a second soften, and weld in seconds of chatter",
};

/** Factor by which the whole current could grow before the fuse melts. */
export const FUSE_MARGIN: Limit = {
  pass: 1.25,
  fail: 1,
  basis: "common practice, no source: keep a quarter of the current in hand",
};

/** Dip of a generator's terminal voltage in a start, percent of nominal. */
export const GENERATOR_DIP_percent: Limit = {
  pass: 25,
  fail: 30,
  basis:
    "common practice, no source: 30 % in motor starts; ISO 8528-5 class G1: 25 % at a sudden load (from memory)",
};

/** A generator's voltage counts as back at this part of nominal: ISO 8528-5 class G1, 5 % (from memory). */
export const RECOVERED_percent = 95;

/** How long a generator's voltage takes to be back. */
export const GENERATOR_RECOVERY_s: Limit = {
  pass: 3,
  fail: 10,
  basis: "common practice, no source: 2 to 3 s; ISO 8528-5 class G1: 10 s (from memory)",
};

/** Highest current of an inverter, percent of its limit: beyond that its voltage falls. */
export const INVERTER_percent: Limit = {
  pass: 100,
  fail: 100,
  basis: "an inverter's voltage falls at its current limit, and it shuts down after its surge time",
};

/** Steps in which a delay relay's dial is set (common practice, no source). */
export const DIAL_STEP_s = 0.5;
/** Setting error of a relay whose file does not state one (common practice, no source). */
export const RELAY_TOLERANCE = 0.1;
