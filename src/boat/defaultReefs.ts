import { type Figure, type KindOfSail, reefLadder } from '../catalogue/catalogue.js';
import type { Window } from '../sail/sail.js';
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

/** The reefs of a sail: those given, with the limits they lack; else those of the kind. */
export function reefsOf(
  given: SailGiven,
  measures: Measures,
  full: Window,
  entry: KindOfSail,
  { hull }: Pick<BoatFile, 'hull'>,
  marks: Marks,
) {
  const usual = usualReefs(entry, measures);
  if (given.reefs === undefined && usual.length === 0) return undefined;
  const kind = usualWindow(entry, measures, hull.type);
  const isMono = entry.place === 'mast' && hull.type === 'monohull';
  const factors = {
    aws: factorOf(full.awsMaxKn, kind.awsMaxKn.value),
    tws: factorOf(full.twsMaxKn, kind.twsMaxKn?.value),
  };
  const limitsAt = (r: number): UsualLimits | undefined => {
    const { awsMaxKn, twsMaxKn } =
      entry.place === 'mast' ? ladderLimits(entry, r + 1) : (usual[r] ?? usual.at(-1) ?? {});
    if (awsMaxKn === undefined) return undefined;
    const beside = (limit: Figure, factor: number | undefined) => {
      if (factor !== undefined && Math.abs(factor - 1) > 1e-9) return scaled(limit, factor, 'that of the full sail');
      return isMono ? asMonohull(limit) : limit;
    };
    return {
      awsMaxKn: beside(awsMaxKn, factors.aws),
      ...(twsMaxKn === undefined ? {} : { twsMaxKn: beside(twsMaxKn, factors.tws) }),
    };
  };
  const own: readonly Partial<Reef>[] = given.reefs ?? usual.map(() => ({}));
  return own.map((reef, r): Reef => {
    const limits = limitsAt(r);
    const derivedReef = given.reefs === undefined ? usual[r]! : undefined;
    const close = derivedReef?.awaMinDeg;
    const defaults = {
      ...(derivedReef === undefined ? {} : { areaShare: derivedReef.areaShare }),
      // An owner whose full sail points lower than the default has no reef that points higher.
      ...(close === undefined || close.value <= full.awaMinDeg || close.value >= full.awaMaxDeg
        ? {}
        : { awaMinDeg: close }),
      ...(limits === undefined ? {} : inProportion(reef, limits)),
    };
    return filled(reef, defaults as unknown as Defaults, `reefs[${r}]`, marks) as unknown as Reef;
  });
}

/** The default reefs of a kind; a genoa is furled to 110 % first, if it is larger. */
function usualReefs({ kind, reefs = [] }: KindOfSail, { overlapPercent }: Measures): NonNullable<KindOfSail['reefs']> {
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
function ladderLimits({ reefs = [] }: KindOfSail, reef: number): { awsMaxKn?: Figure; twsMaxKn?: Figure } {
  const known = reefs[reef - 1];
  if (known !== undefined)
    return { awsMaxKn: known.awsMaxKn, ...(known.twsMaxKn === undefined ? {} : { twsMaxKn: known.twsMaxKn }) };
  const limit: Figure = {
    value: reefLadder(reef)[reef]!.gustMaxKn,
    status: 'derived',
    basis: 'the reef ladder, carried on',
  };
  return { awsMaxKn: limit, twsMaxKn: limit };
}
