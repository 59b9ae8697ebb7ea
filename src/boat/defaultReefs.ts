import { type Figure, type KindOfSail, reefLadder } from '../catalogue/catalogue.js';
import { isLimit, type Window } from '../sail/sail.js';
import type { BoatFile, Reef, SailGiven } from './boat.js';
import {
  asMonohull,
  factorOf,
  inProportion,
  type Measures,
  scaled,
  type UsualLimits,
  usualWindow,
} from './defaultWindow.js';
import { type Defaults, filled, type Marks } from './fill.js';

/** The reefs of a sail: those given, with what they lack; else those of the kind. */
export function reefsOf(
  given: SailGiven,
  measures: Measures,
  full: Window,
  entry: KindOfSail,
  { hull }: Pick<BoatFile, 'hull'>,
  marks: Marks,
): readonly Reef[] | undefined {
  const usual = usualReefs(entry, measures, given.setBy);
  const own: readonly Partial<Reef>[] = given.reefs ?? usual.map(() => ({}));
  if (given.reefs === undefined && own.length === 0) return undefined;
  const limitsAt = limitsBeside(full, usualWindow(entry, measures, hull.type), entry, usual, hull.type);
  let share = 1;
  return own.map((reef, r) => {
    const close = usual[r]?.awaMinDeg;
    const defaults = {
      areaShare: usual[r]?.areaShare ?? deeperThan(share),
      // An owner whose full sail points lower than the default has no reef that points higher.
      ...(close === undefined || close.value <= full.awaMinDeg || close.value >= full.awaMaxDeg
        ? {}
        : { awaMinDeg: close }),
      ...inProportion(reef, limitsAt(r)),
    };
    const whole = filled(reef, defaults as unknown as Defaults, `reefs[${r}]`, marks) as unknown as Reef;
    share = whole.areaShare;
    return whole;
  });
}

/** A reef beyond those of the kind: three quarters of the one before. */
const deeperThan = (share: number): Figure => ({
  value: Math.max(0.05, Math.round(share * 75) / 100),
  status: 'placeholder',
  basis: '0.75 of the reef before',
});

/** The default limits of each reef, beside what the owner allows the full sail. */
function limitsBeside(
  full: Window,
  usualFull: ReturnType<typeof usualWindow>,
  entry: KindOfSail,
  usual: NonNullable<KindOfSail['reefs']>,
  hull: BoatFile['hull']['type'],
): (r: number) => UsualLimits {
  const beside = (limit: Figure | undefined, whole: Window['awsMaxKn'], usualWhole: Window['awsMaxKn']) => {
    // A sail is not to be less able with a reef than without.
    if (!isLimit(whole))
      return limit === undefined ? undefined : { value: null, status: 'derived', basis: 'the full sail has none' };
    if (limit === undefined) return { value: whole, status: 'derived', basis: 'that of the full sail' };
    const factor = factorOf(whole, usualWhole);
    if (factor !== undefined && Math.abs(factor - 1) > 1e-9) return scaled(limit, factor, 'that of the full sail');
    return entry.place === 'mast' && hull === 'monohull' ? asMonohull(limit) : limit;
  };
  return (r) => {
    const { awsMaxKn, twsMaxKn } =
      entry.place === 'mast' ? ladderLimits(entry, r + 1) : (usual[r] ?? usual.at(-1) ?? {});
    return {
      awsMaxKn: beside(awsMaxKn, full.awsMaxKn, usualFull.awsMaxKn.value),
      twsMaxKn: beside(twsMaxKn, full.twsMaxKn, usualFull.twsMaxKn?.value),
    } as UsualLimits;
  };
}

/** The default reefs of a kind: none of a headsail that is not on a furler; a genoa is furled to 110 % first, if it is larger. */
function usualReefs(
  { kind, place, reefs = [] }: KindOfSail,
  { overlapPercent }: Measures,
  setBy: SailGiven['setBy'],
): NonNullable<KindOfSail['reefs']> {
  if (place !== 'mast' && setBy !== undefined && setBy !== 'furler') return [];
  if (kind !== 'overlapping-genoa') return reefs;
  const [first, ...deeper] = reefs;
  const share = 110 / overlapPercent!;
  if (share > 0.95) return deeper;
  return [
    {
      ...first!,
      areaShare: {
        ...first!.areaShare,
        value: Math.round(share * 100) / 100,
        basis: `furled from ${overlapPercent} to 110 %, which keeps its shape`,
      },
    },
    ...deeper,
  ];
}

/** Limits of a main with so many reefs: the ladder goes on beyond those of the catalogue. */
function ladderLimits({ kind, reefs = [] }: KindOfSail, reef: number): { awsMaxKn?: Figure; twsMaxKn?: Figure } {
  const known = reefs[reef - 1];
  if (known !== undefined)
    return { awsMaxKn: known.awsMaxKn, ...(known.twsMaxKn === undefined ? {} : { twsMaxKn: known.twsMaxKn }) };
  const limit: Figure = {
    value: reefLadder(reef)[reef]!.gustMaxKn,
    status: kind === 'wing-sail' ? 'placeholder' : 'derived',
    basis: kind === 'wing-sail' ? "a main's reef ladder" : 'the reef ladder, carried on',
  };
  return { awsMaxKn: limit, twsMaxKn: limit };
}
