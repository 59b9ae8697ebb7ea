import { faultList } from '../errors.js';
import type { PassageRecord } from '../study/study.js';
import { says } from '../wording.js';

/** Passages that A and B sailed alike, those that both finished, and how many did not. */
export interface PairedPassages {
  readonly a: readonly PassageRecord[];
  readonly b: readonly PassageRecord[];
  readonly series: readonly number[];
  readonly counts: PassageCounts;
}

/** How many passages a comparison rests on. */
export interface PassageCounts {
  /** Sailed by both. */
  readonly paired: number;
  /** Finished by both: all that is compared. */
  readonly both: number;
  readonly onlyA: number;
  readonly onlyB: number;
  readonly neither: number;
}

/** What makes two passages of different boats the same: route, weather and start. */
const weatherOf = ({ route, weather, member, draw }: PassageRecord) => JSON.stringify([route, weather, member, draw]);
export const keyOf = (record: PassageRecord) => `${weatherOf(record)} ${record.departure}`;

/**
 * Pairs the passages of two boats; in the order of their weathers, then of their starts.
 * @throws InputError where one of them sailed a passage that the other did not, or one twice
 */
export function pairedPassages(a: readonly PassageRecord[], b: readonly PassageRecord[]): PairedPassages {
  const faults = faultList();
  const ofA = new Map(a.map((record) => [keyOf(record), record]));
  const ofB = new Map(b.map((record) => [keyOf(record), record]));
  for (const [file, own, other, all] of [
    ['studyA', ofA, ofB, a],
    ['studyB', ofB, ofA, b],
  ] as const) {
    if (own.size < all.length) faults.add({ file, ...says.sailedTwice(all.length - own.size) });
    for (const [key, { departure }] of own) if (!other.has(key)) faults.add({ file, ...says.unpaired(departure) });
  }
  faults.throwIfAny();
  const pairs = [...ofB.values()]
    .map((record) => ({ a: ofA.get(keyOf(record))!, b: record, weather: weatherOf(record) }))
    .sort((x, y) => order(x.weather, y.weather) || order(x.b.departure, y.b.departure));
  const both = pairs.filter((pair) => pair.a.complete && pair.b.complete);
  let series = -1;
  const count = (isA: boolean, isB: boolean) =>
    pairs.filter((pair) => pair.a.complete === isA && pair.b.complete === isB).length;
  return {
    a: both.map((pair) => pair.a),
    b: both.map((pair) => pair.b),
    series: both.map(({ weather }, i) => {
      if (weather !== both[i - 1]?.weather) series += 1;
      return series;
    }),
    counts: {
      paired: pairs.length,
      both: both.length,
      onlyA: count(true, false),
      onlyB: count(false, true),
      neither: count(false, false),
    },
  };
}

const order = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
