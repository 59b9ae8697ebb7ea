import { changeReasons, type PlanToPrint } from '../../output/output.js';

/** A sail change as charts and the table beside them show it. */
export interface ChangeShown {
  readonly time: string;
  readonly to: string | null;
  /** What is done and why. */
  readonly told: string;
  /** Row of the log it is made in. */
  readonly row: number;
}

/** The sail changes of a passage, with their reasons where they were planned; where each hour has its fastest plan, there are none. */
export function changesShown({ passage }: Pick<PlanToPrint, 'passage'>): readonly ChangeShown[] {
  const { changes, hours, options } = passage;
  if (changes === undefined)
    return hours.flatMap(({ time, sailPlan, sailChange }, row) => {
      if (!sailChange) return [];
      const from = row === 0 ? options.planSet : hours[row - 1]!.sailPlan;
      const told = `${from ?? 'hove to'} to ${sailPlan ?? 'hove to'}, the fastest of this hour; the change costs no time here.`;
      return [{ time, to: sailPlan, told, row }];
    });
  const reasons = changeReasons(passage);
  const rows = new Map(hours.map(({ time }, row) => [time, row]));
  return changes.map(({ time, to }, i) => ({ time, to, told: reasons[i] ?? '', row: rows.get(time) ?? -1 }));
}
