import type { PassageRecord, WindHours } from '../study/study.js';
import { addedIn } from './added.js';
import { type Compared, plansSetting, type WorthStudy } from './compare.js';
import { windsUnder } from './flown.js';
import { isValued } from './money.js';
import { areEstimated } from './turned.js';
import type { Turn, TurnEnd } from './turns.js';

/** Speeds that would settle what an estimate cannot tell: an hour under each plan in such wind. */
export interface ToMeasure extends WindHours {
  readonly plan: string;
  /** What A was under in the same wind, where she was more than B. */
  readonly rival: string | null;
}

/**
 * The answer. `not-in-money`: nothing says what hours or the sail are worth, and in hours, nights, quiet or wear B has something for it,
 * more than the number of passages may do.
 */
export interface Verdict {
  readonly answer: 'pays' | 'does-not-pay' | 'cannot-tell' | 'not-in-money' | 'no-difference';
  /** By what it goes: the net over the owner's years, or the hours of a passage. */
  readonly by: 'net' | 'hours';
  /** Whether the speeds under the new sails are estimates. */
  readonly estimated: boolean;
  /** Inputs of speed that turn the answer, by which it cannot be told. */
  readonly turnedBy: readonly Turn['input'][];
  /** Where it cannot be told: what measurement would settle it, the most hours first. */
  readonly toMeasure: readonly ToMeasure[];
}

const BY_SPEED: readonly Turn['input'][] = [
  'speed-band',
  'coefficient-edition',
  'set-without-main',
  'shadow',
  'wave-exponent',
];
const MEASURED_MOST = 3;
/** Less is rounding. */
const NOTHING = 1e-9;

/** What the owner should hear. */
export function verdictOf(of: Compared, a: WorthStudy, b: WorthStudy, turns: readonly Turn[]): Verdict {
  const { comparison, pairs } = of;
  const { money, differences } = comparison;
  const added = plansSetting(b.boat, addedIn(a.boat, b.boat));
  const gone = plansSetting(a.boat, addedIn(b.boat, a.boat));
  const estimated = areEstimated(b.polars, added) || areEstimated(a.polars, gone);
  const by = isValued(money.prices) && money.net !== null ? 'net' : 'hours';
  const gain = ({ hours, net }: Omit<TurnEnd, 'text'>) => (by === 'net' ? (net ?? 0) : 0 - hours);
  const whole = gain({ hours: differences.hours!.mid, net: money.net?.mid ?? null });
  const turnedBy = turns
    .filter(({ input }) => BY_SPEED.includes(input))
    .filter(({ usual, low, high }) => {
      // What an input moves on the sample is what it moves on all passages.
      const gains = [whole, ...[low, high].flatMap((end) => (end === null ? [] : whole + gain(end) - gain(usual)))];
      return Math.min(...gains) < -NOTHING && Math.max(...gains) > NOTHING;
    })
    .map(({ input }) => input);
  const told = { by, estimated, turnedBy } as const;
  if (turnedBy.length > 0) return { ...told, answer: 'cannot-tell', toMeasure: toMeasure(pairs.a, pairs.b, added) };
  const changes = Object.values(differences).some((one) => one !== null && one.more + one.fewer > 0);
  if (!changes && (money.cost ?? 0) === 0) return { ...told, answer: 'no-difference', toMeasure: [] };
  if (by === 'net' || (money.net !== null && money.net.mid >= 0))
    return { ...told, answer: money.net!.mid >= 0 ? 'pays' : 'does-not-pay', toMeasure: [] };
  const isBetter =
    money.parts.wear > NOTHING ||
    GOOD_IF_LESS.some((metric) => {
      const one = differences[metric];
      return one !== null && (one.high ?? one.mid) < -NOTHING;
    });
  return { ...told, answer: isBetter ? 'not-in-money' : 'does-not-pay', toMeasure: [] };
}

/** What less of is something for it, in hours, nights and quiet. */
const GOOD_IF_LESS = [
  'hours',
  'changes',
  'night-changes',
  'waking-changes',
  'hand-hours',
  'gybes',
  'motor-hours',
  'fuel-litres',
  'near-limit-hours',
  'knife-edge-hours',
] as const;

function toMeasure(
  a: readonly PassageRecord[],
  b: readonly PassageRecord[],
  plans: readonly string[],
): readonly ToMeasure[] {
  const rivals = [...new Set(a.flatMap(({ sailPlans }) => sailPlans.map(({ id }) => id)))].map((id) => ({
    id,
    more: [windsUnder(a, [id]), windsUnder(b, [id])] as const,
  }));
  const hoursIn = (winds: readonly WindHours[], { twsFromKn, twaFromDeg }: WindHours) =>
    winds.find((one) => one.twsFromKn === twsFromKn && one.twaFromDeg === twaFromDeg)?.hours ?? 0;
  return plans
    .flatMap((plan) => windsUnder(b, [plan]).map((cell) => ({ plan, ...cell })))
    .sort((x, y) => y.hours - x.hours)
    .slice(0, MEASURED_MOST)
    .map((cell) => {
      const displaced = rivals
        .map(({ id, more: [inA, inB] }) => ({ id, hours: hoursIn(inA, cell) - hoursIn(inB, cell) }))
        .filter(({ hours }) => hours > 0)
        .sort((x, y) => y.hours - x.hours);
      return { ...cell, rival: displaced[0]?.id ?? null };
    });
}
