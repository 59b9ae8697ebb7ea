import type { PlanToPrint } from '../../output/output.js';
import { codeOf } from '../drawing/codePlate.js';
import { type Fill, fillsFor } from '../drawing/palette.js';

/** A sail plan of a passage as all charts of its report show it. */
export interface PlanInLog {
  readonly id: string;
  readonly code: string;
  readonly fill: Fill;
  readonly hours: number;
}

/** The plans that were set, those of most hours first; plans that follow each other differ in colour. */
export function plansInLog({ passage, totals }: Pick<PlanToPrint, 'passage' | 'totals'>): readonly PlanInLog[] {
  const used = totals.sailPlans.filter(({ hours }) => hours > 0).sort((a, b) => b.hours - a.hours);
  const follows = new Map<string, number>();
  passage.hours.forEach(({ sailPlan }, i) => {
    const before = passage.hours[i - 1]?.sailPlan ?? null;
    if (before === null || sailPlan === null || before === sailPlan) return;
    const pair = JSON.stringify([before, sailPlan].sort());
    follows.set(pair, (follows.get(pair) ?? 0) + 1);
  });
  const fills = fillsFor(used.length, (a, b) => follows.get(JSON.stringify([used[a]!.id, used[b]!.id].sort())) ?? 0);
  return used.map(({ id, hours }, rank) => ({ id, hours, code: codeOf(rank), fill: fills[rank]! }));
}

/** Rows that follow each other with the same key, as stretches. */
export function stretches<Row, Key>(
  rows: readonly Row[],
  keyOf: (row: Row) => Key,
): { key: Key; from: number; to: number }[] {
  const found: { key: Key; from: number; to: number }[] = [];
  rows.forEach((row, i) => {
    const key = keyOf(row);
    const last = found.at(-1);
    if (last !== undefined && last.key === key) last.to = i + 1;
    else found.push({ key, from: i, to: i + 1 });
  });
  return found;
}
