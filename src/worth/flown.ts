import { mean } from 'simple-statistics';
import type { PassageRecord, WindHours } from '../study/study.js';
import { type Percentiles, percentilesOf } from '../totals/totals.js';
import { hoistsOf } from './money.js';
import type { PairedPassages } from './pairs.js';

/** How much a new sail, or a new setting of one, really flew in B. */
export interface Flown {
  readonly id: string;
  /** Hours of a passage, and how they are spread over passages. */
  readonly hours: Percentiles & { readonly mean: number };
  /** Of all hours under way. */
  readonly shareOfHours: number;
  /** Of all passages: those that set it at all. */
  readonly shareOfPassages: number;
  /** Means: days on which it was set, hours by night, and how often it was set. Of a setting null: they are counted at its sail. */
  readonly days: number | null;
  readonly nightHours: number | null;
  readonly hoists: number | null;
  /** Hours of a passage by true wind and angle, means, most first. */
  readonly winds: readonly WindHours[];
}

/** How much a sail flew, by the plans that set it. */
export function flownIn({ b }: PairedPassages, id: string, plans: readonly string[]): Flown {
  const hours = b.map((record) => underIn(record, plans).reduce((sum, one) => sum + one.hours, 0));
  const own = b.flatMap(({ sails }) => sails.find((sail) => sail.id === id) ?? []);
  const meanOf = (value: (sail: (typeof own)[number]) => number) => (own.length === 0 ? null : mean(own.map(value)));
  return {
    id,
    hours: { mean: mean(hours), ...percentilesOf(hours)! },
    shareOfHours: mean(hours) / mean(b.map((record) => record.hours)),
    shareOfPassages: hours.filter((one) => one > 0).length / hours.length,
    days: meanOf(({ days }) => days),
    nightHours: meanOf(({ nightHours }) => nightHours),
    hoists: meanOf(hoistsOf),
    winds: windsUnder(b, plans),
  };
}

const underIn = ({ sailPlans }: PassageRecord, plans: readonly string[]) =>
  sailPlans.filter((plan) => plans.includes(plan.id));

/** Hours of a passage under some plans by true wind and angle, means, most first. */
export function windsUnder(records: readonly PassageRecord[], plans: readonly string[]): readonly WindHours[] {
  const cells = new Map<string, { twsFromKn: number; twaFromDeg: number; hours: number }>();
  for (const record of records)
    for (const { winds } of underIn(record, plans))
      for (const { twsFromKn, twaFromDeg, hours } of winds) {
        const key = `${twsFromKn} ${twaFromDeg}`;
        const cell = cells.get(key) ?? { twsFromKn, twaFromDeg, hours: 0 };
        cell.hours += hours / records.length;
        cells.set(key, cell);
      }
  return [...cells.values()].sort((a, b) => b.hours - a.hours);
}
