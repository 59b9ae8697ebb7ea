import type { Boat, Sail } from '../boat/boat.js';

/** What of a sail decides whether it may be set, in words, by the beginning of the path. */
const DECIDES: readonly (readonly [words: string, path: RegExp])[] = [
  ['windows of', /^window\./],
  ['reefs of', /^reefs/],
  ['daylight rule of', /^daylightOnly$/],
  ['poled-out settings', /^kind$/],
];

/** What follows from kinds and rig and decides over the plan, for people; none where the boat file says it all. */
export function filledNote({ sails, sailPlans }: Pick<Boat, 'sails' | 'sailPlans'>): string[] {
  const parts = DECIDES.flatMap(([words, path]) => {
    const named = sails.flatMap((sail) => marked(sail, path));
    return named.length === 0 ? [] : [`${words} ${named.join(', ')}`];
  });
  const plans = sailPlans.filter(({ derived }) => derived === true).length;
  if (plans > 0) parts.push(`${plans === sailPlans.length ? 'all' : plans} sail plans`);
  if (parts.length === 0) return [];
  return [
    `Not in the boat file but filled in by kind and rig (* holds placeholders without a source): ${parts.join('; ')}. "windwardrobe boat show" lists every value and where it comes from.`,
  ];
}

function marked({ id, daylightOnly, derived = {} }: Sail, path: RegExp): string[] {
  // A sail that may be set at any hour is barred by no rule.
  if (path.test('daylightOnly') && daylightOnly !== true) return [];
  const found = Object.entries(derived).filter(([key]) => path.test(key));
  if (found.length === 0) return [];
  return [found.some(([, { status }]) => status === 'placeholder') ? `${id}*` : id];
}
