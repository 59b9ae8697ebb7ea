import type { Case, Study } from '../study/study.js';
import type { Turned } from './turned.js';

/** A study of boats that are compared, and of turned ones on a sample of the same passages. */
export interface WorthCases {
  readonly boats: Study['boats'];
  readonly cases: readonly Case[];
}

/** The passages: all of every boat, and a sample of them, spread evenly, of every turned one. */
export function worthCases(
  { routes, weathers, starts }: Pick<Study, 'routes' | 'weathers' | 'starts'>,
  compared: Study['boats'],
  turned: readonly Turned[],
  sample: number,
): WorthCases {
  const again = turned.flatMap(({ a, b }) => (a === null ? [b] : [a, b]));
  const inAll = weathers.length * starts.length * routes.length;
  const taken = Math.min(sample, inAll);
  const sampled = new Set(Array.from({ length: taken }, (_, n) => Math.floor(((n + 0.5) * inAll) / taken)));
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
