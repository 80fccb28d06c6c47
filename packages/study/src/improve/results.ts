/** How a cabinet does: the figures that changes are compared by. */
export interface CabinetStanding {
  /** Findings that fail, and cautions, without those of the case "together". */
  readonly fails: number;
  readonly cautions: number;
  /** Lowest voltage of any motor while connected, percent of its rated one, and of any receptacle, of nominal. */
  readonly lowestMotor_percent: number | null;
  readonly lowestPoint_percent: number | null;
  /** True when nothing fails with all started at once; null where there is nothing to hold back. */
  readonly together: boolean | null;
  /** Shortest delay from which on nothing fails; null when none is, or there is nothing to hold back. */
  readonly shortest_s: number | null;
}

/** One change and how the cabinet does with it. */
export interface Improvement extends CabinetStanding {
  readonly part: string;
  readonly to: string;
  readonly from: string;
  /** True when fewer findings trouble with it and no voltage pays for that, or as few and the lowest is a percent higher. */
  readonly helps: boolean;
  /** Why it could not be told; then the figures are those of the cabinet as it is. */
  readonly failed: string | null;
}

/** Every single change that was tried, the most helpful first. */
export interface ImproveReport {
  readonly startgap: "improve 1";
  readonly title: string;
  readonly asItIs: CabinetStanding;
  readonly changes: readonly Improvement[];
}
