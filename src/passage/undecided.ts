import { type Assumption, type Polar, type PolarSet, polarSpeed } from '../polar/polar.js';
import type { HourUnder } from './hour.js';

/** A comparison of two plans that an estimate cannot decide: under one of its assumptions the rival is the faster. */
export interface Undecided {
  readonly sailPlan: string;
  readonly rival: string;
  readonly hours: number;
  readonly assumptions: readonly Assumption[];
  /** What, assumed instead, makes the rival faster. */
  readonly turnsIf: readonly string[];
}

/** Collects, hour by hour, the comparisons that an estimate cannot decide. */
export interface UndecidedTally {
  note(chosen: HourUnder, tried: readonly HourUnder[], twsKn: number, hours: number): void;
  list(): readonly Undecided[];
}

/**
 * Under each variant of an estimate the speed made good of the chosen plan and of each other that was allowed is taken to change as
 * their speeds at their own angles do.
 */
export function undecidedTally(polars: PolarSet): UndecidedTally {
  const mid = lookUps(polars.plans);
  const variants = (polars.variants ?? []).map((variant) => ({ ...variant, at: lookUps(variant.plans) }));
  const found = new Map<string, { hours: number; by: Map<string, Assumption> }>();
  return {
    note(chosen, tried, twsKn, hours) {
      const rivals = tried.filter(({ run, means }) => run !== undefined && means !== chosen.means);
      for (const rival of rivals) {
        const turns = variants.filter(({ at }) => {
          const under = (hour: HourUnder) => smgUnder(hour, twsKn, mid, at);
          return under(rival) > under(chosen);
        });
        if (turns.length === 0) continue;
        const key = JSON.stringify([chosen.means.id, rival.means.id]);
        const entry = found.get(key) ?? { hours: 0, by: new Map<string, Assumption>() };
        entry.hours += hours;
        for (const { instead, assumption } of turns) entry.by.set(instead, assumption);
        found.set(key, entry);
      }
    },
    list: () =>
      [...found]
        .map(([key, { hours, by }]) => {
          const [sailPlan, rival] = JSON.parse(key) as [string, string];
          return { sailPlan, rival, hours, assumptions: [...new Set(by.values())], turnsIf: [...by.keys()] };
        })
        .sort((a, b) => b.hours - a.hours),
  };
}

type LookUps = ReadonlyMap<string, ReturnType<typeof polarSpeed>>;

const lookUps = (plans: Readonly<Record<string, Polar>>): LookUps =>
  new Map(Object.entries(plans).map(([id, polar]) => [id, polarSpeed(polar)]));

function smgUnder({ means: { id }, sailing }: HourUnder, twsKn: number, mid: LookUps, variant: LookUps): number {
  const { smgKn, twaDeg, leewayDeg = 0 } = sailing!;
  const angleDeg = Math.min(180, Math.abs(twaDeg) + leewayDeg);
  const [usual, moved] = [mid.get(id!)?.(twsKn, angleDeg), variant.get(id!)?.(twsKn, angleDeg)];
  return usual === undefined || moved === undefined || usual === 0 ? smgKn : (smgKn * moved) / usual;
}
