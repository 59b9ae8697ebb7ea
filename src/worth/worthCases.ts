import { checkTypes } from '../given.js';
import type { Case, Study } from '../study/study.js';
import type { Turned } from './turned.js';

/** A study of boats that are compared, and of turned ones on a sample of the same passages. */
export interface WorthCases {
  readonly boats: Study['boats'];
  readonly cases: readonly Case[];
}

const PARTS = { routes: 'object[]', weathers: 'object[]', starts: 'string[]' } as const;
const OTHERS = { compared: 'object[]', turned: 'object[]', sample: 'number' } as const;

/**
 * The passages: all of every boat, and a sample of them of every turned one, spread over weathers and starts alike.
 * @throws InputError where one of these is none
 * @example
 * const [a, b] = [sample.without, sample.withVented];
 * worthCases(sample.study, [a, b], turnedBoats(a, b), 1).cases.length // 23
 */
export function worthCases(
  study: Pick<Study, 'routes' | 'weathers' | 'starts'>,
  compared: Study['boats'],
  turned: readonly Turned[],
  sample: number,
): WorthCases {
  checkTypes(study, PARTS, 'study');
  checkTypes({ compared, turned, sample }, OTHERS);
  const { routes, weathers, starts } = study;
  const again = turned.flatMap(({ a, b }) => (a === null ? [b] : [a, b]));
  const sampled = sampleOf(routes.length * weathers.length, starts.length, sample);
  const cases: Case[] = [];
  for (let route = 0; route < routes.length; route += 1)
    for (let boat = 0; boat < compared.length + again.length; boat += 1)
      for (let weather = 0; weather < weathers.length; weather += 1)
        for (let start = 0; start < starts.length; start += 1) {
          const n = (route * weathers.length + weather) * starts.length + start;
          if (boat < compared.length || sampled.has(n)) cases.push({ route, boat, weather, start });
        }
  return { boats: [...compared, ...again], cases };
}

/** Steps of this share of a round fall on no few places again and again. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** So many of rows times columns: the rows evenly, the columns by the golden section, each place once. */
function sampleOf(rows: number, columns: number, sample: number): ReadonlySet<number> {
  const count = Math.min(sample, rows * columns);
  const taken = new Set<number>();
  for (let n = 0; n < count; n += 1) {
    const row = Math.floor(((n + 0.5) * rows) / count);
    const column = Math.floor((((n + 0.5) * GOLDEN) % 1) * columns);
    let place = row * columns + column;
    while (taken.has(place)) place = (place + 1) % (rows * columns);
    taken.add(place);
  }
  return taken;
}
