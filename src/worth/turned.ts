import { kindOf } from '../catalogue/catalogue.js';
import { LEAST_BAND } from '../estimate/estimate.js';
import { checkTypes } from '../given.js';
import { ASSUMPTIONS, type Assumption, type PolarSet } from '../polar/polar.js';
import type { StudyBoat } from '../study/study.js';
import { addedIn } from './added.js';
import { plansSetting } from './compare.js';
import { STUDY_BOAT } from './studyBoat.js';

/** What the answer is turned by and must be sailed anew for. */
export type SailedInput = 'speed-band' | Assumption | 'gust-margin' | 'night';

/** The two boats with one input at an end, to be sailed on the same passages. */
export interface Turned {
  readonly input: SailedInput;
  readonly end: 'low' | 'high';
  /** What is assumed instead, in words. */
  readonly text: string;
  /** A null is as she was. */
  readonly a: StudyBoat | null;
  readonly b: StudyBoat;
}

/** How inputs are moved. */
export interface TurnOptions {
  /** How far the speeds under B's new sails may be off, percent; absent: 7 where they are estimated, as estimates miss (docs/accuracy.md), else none. */
  readonly speedBandPercent?: number;
}

/** A placeholder: a cautious skipper adds so much to every gust. */
const GUST_MARGIN = 0.15;

/**
 * Both boats with each uncertain input at its ends.
 * @throws InputError where a boat or an option is none
 * @example
 * const [a, b] = [sample.without, sample.withVented];
 * turnedBoats(a, b, { speedBandPercent: 5 })[0]
 * // { input: 'speed-band', end: 'low', text: 'slower by 5 % under vented', … }
 */
export function turnedBoats(a: StudyBoat, b: StudyBoat, options: TurnOptions = {}): readonly Turned[] {
  for (const [file, one] of Object.entries({ a, b })) checkTypes(one, STUDY_BOAT, file);
  checkTypes(options, { speedBandPercent: 'number?' });
  const { speedBandPercent } = options;
  const added = addedIn(a.boat, b.boat);
  const plans = plansSetting(b.boat, added);
  // Where B has less than A, it is the speeds under what is gone that may be off.
  const gone = added.length > 0 ? [] : addedIn(b.boat, a.boat);
  const gonePlans = plansSetting(a.boat, gone);
  const isEstimate = areEstimated(b.polars, plans) || areEstimated(a.polars, gonePlans);
  const band = speedBandPercent ?? (isEstimate ? Math.round(100 * LEAST_BAND) : 0);
  const named = ({ name }: StudyBoat, what: string) => `${name} (${what})`;
  const speeds =
    band === 0 || plans.length + gonePlans.length === 0
      ? []
      : (['low', 'high'] as const).map((end): Turned => {
          const text = `${end === 'low' ? 'slower' : 'faster'} by ${band} % under ${[...added, ...gone].join(', ')}`;
          const moved = (one: StudyBoat, ids: readonly string[]): StudyBoat => ({
            name: named(one, text),
            boat: one.boat,
            polars: timesIn(one.polars, ids, 1 + (end === 'low' ? -band : band) / 100),
          });
          return {
            input: 'speed-band',
            end,
            text,
            a: gone.length === 0 ? null : moved(a, gonePlans),
            b: moved(b, plans),
          };
        });
  return [...speeds, ...assumedTurns(a, b), ...marginTurns(a, b), ...nightTurns(b, added)];
}

/** Whether speeds of some plans are estimates. */
export const areEstimated = ({ status, variants = [] }: PolarSet, plans: readonly string[]): boolean =>
  plans.length > 0 &&
  (status === 'estimated' || variants.some((variant) => plans.some((id) => Object.hasOwn(variant.plans, id))));

function timesIn(polars: PolarSet, plans: readonly string[], factor: number): PolarSet {
  const own = plans.flatMap((id) => (Object.hasOwn(polars.plans, id) ? [[id, polars.plans[id]!] as const] : []));
  const moved = own.map(([id, polar]) => [id, { ...polar, stwKn: polar.stwKn.map((kn) => kn * factor) }] as const);
  return { ...polars, plans: { ...polars.plans, ...Object.fromEntries(moved) } };
}

/** Every assumption of an estimate at its ends, in both boats alike. */
function assumedTurns(a: StudyBoat, b: StudyBoat): readonly Turned[] {
  const under = ({ name, boat, polars }: StudyBoat, i: number): StudyBoat | null => {
    const variant = polars.variants?.[i];
    if (variant === undefined || Object.keys(variant.plans).length === 0) return null;
    return {
      name: `${name} (${variant.instead})`,
      boat,
      polars: { ...polars, plans: { ...polars.plans, ...variant.plans } },
    };
  };
  const variants = b.polars.variants ?? [];
  return ASSUMPTIONS.flatMap((input) => {
    const own = variants.flatMap((variant, i) => (variant.assumption === input ? [{ variant, i }] : []));
    return own.flatMap(({ variant, i }, n): Turned[] => {
      const [ofA, ofB] = [under(a, i), under(b, i)];
      if (ofA === null && ofB === null) return [];
      const asWas = { name: `${b.name} (${variant.instead})`, boat: b.boat, polars: b.polars };
      return [
        { input, end: own.length > 1 && n === 0 ? 'low' : 'high', text: variant.instead, a: ofA, b: ofB ?? asWas },
      ];
    });
  });
}

function marginTurns(a: StudyBoat, b: StudyBoat): readonly Turned[] {
  return ([-GUST_MARGIN, GUST_MARGIN] as const).flatMap((by): Turned[] => {
    const marginOf = ({ boat }: StudyBoat) => Math.min(3, Math.max(1, (boat.house?.gustMargin ?? 1) + by));
    const isMoved = (one: StudyBoat) => marginOf(one) !== (one.boat.house?.gustMargin ?? 1);
    if (!isMoved(a) && !isMoved(b)) return [];
    const text = `gusts times ${Number(marginOf(b).toFixed(2))}`;
    const moved = (one: StudyBoat): StudyBoat => ({
      name: `${one.name} (${text})`,
      boat: { ...one.boat, house: { ...one.boat.house, gustMargin: marginOf(one) } },
      polars: one.polars,
    });
    return [{ input: 'gust-margin', end: by < 0 ? 'low' : 'high', text, a: moved(a), b: moved(b) }];
  });
}

/** Places of sails that some crews set by daylight only (common practice, no source). */
const AWAY: readonly string[] = ['flying', 'winged', 'twins'];

function nightTurns(b: StudyBoat, added: readonly string[]): readonly Turned[] {
  const own = b.boat.sails.filter(({ id, kind }) => added.includes(id) && AWAY.includes(kindOf(kind).place));
  const ids = own.map(({ id }) => id);
  if (own.length === 0) return [];
  const byDay = own.every(({ daylightOnly }) => daylightOnly === true);
  const text = byDay ? 'set by night too' : 'set by daylight only';
  const sails = b.boat.sails.map((sail) => (ids.includes(sail.id) ? { ...sail, daylightOnly: !byDay } : sail));
  return [
    {
      input: 'night',
      end: byDay ? 'high' : 'low',
      text,
      a: null,
      b: { ...b, name: `${b.name} (${text})`, boat: { ...b.boat, sails } },
    },
  ];
}
