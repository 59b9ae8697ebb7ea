import { readFileSync } from 'node:fs';

// An invented short downwind passage, and the sample's boat without a downwind sail and without reefs.

/** Easterlies of 8 to 16 kn that come and go, gusts as usual. */
const DAYS = 12;
export const WIND = `time,lat,lon,u10,v10\n${Array.from({ length: DAYS * 4 + 1 }, (_, n) =>
  [10, 12]
    .flatMap((lat) =>
      [-64, -62, -60].map((lon) =>
        [
          new Date(Date.UTC(2027, 0, 10) + n * 6 * 3600_000).toISOString(),
          lat,
          lon,
          (-6 - 2 * Math.sin(n / 3)).toFixed(2),
          (0.5 * Math.cos(n / 2)).toFixed(2),
        ].join(','),
      ),
    )
    .join('\n'),
).join('\n')}\n`;
export const ROUTE = 'name,lat,lon,to_next\nStart,11,-60.2,rhumb\nEnd,11.1,-62.4,\n';
const sample = JSON.parse(readFileSync('data-samples/no-downwind.json', 'utf8')) as { sails: { id: string }[] };
/** With few plans, for they are sailed many times. */
export const BOAT = {
  ...sample,
  sails: sample.sails.filter(({ id }) => ['main', 'jib', 'code'].includes(id)).map((sail) => ({ ...sail, reefs: [] })),
};
export const WITH = {
  ...BOAT,
  sails: [...BOAT.sails, { id: 'vented', kind: 'vented-downwind', areaM2: 140, price: 9000 }],
};
