import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  type Boat,
  boatWith,
  estimatePolars,
  hoursCsv,
  type PolarSet,
  planPassage,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  type SailWanted,
} from '../src/index.js';
import { boatFiles } from '../src/page/boatFile.js';
import type { Rules } from '../src/page/messages.js';

const sample = (name: string) => readFileSync(`data-samples/${name}`, 'utf8');
/** A few days of the sample's passage, before the wind. */
const route = readRoute('name,lat,lon\nHere,25.5,-18.5\nThere,21.5,-23.5\n');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [sample('forecast.csv')] });
const RIG = '"rig": { "iM": 17.5, "jM": 5.2, "pM": 16.6, "eM": 6.2, "spritM": 1.4 },';
/** The boat of the sample with the measures from which further speeds are estimated. */
const RIGGED = sample('boat.json').replace('  "polars":', `  ${RIG}\n  "polars":`);
const PLAIN = sample('no-downwind.json');

/** Boat and speeds as a command reads them: from her file, and the polars it names among some. */
function read(
  files: Readonly<Record<string, string>>,
  file: string,
): { readonly boat: Boat; readonly polars: PolarSet } {
  const boat = readBoat(files[file]!, { file });
  const polars =
    typeof boat.polars === 'string' ? readPolars(files[boat.polars]!, { boat, file: boat.polars }) : undefined;
  return { boat, polars: polars ?? estimatePolars(boat, { file }) };
}

const hoursWith = (known: { readonly boat: Boat; readonly polars: PolarSet }, more: Partial<Rules> = {}) => {
  const { boat, polars } = known;
  return hoursCsv(
    planPassage({ route, forecast, boat, polars }, { departure: '2027-01-13T12:00Z', labels: 1, ...more }),
  );
};

describe('the boat file that is taken away', () => {
  test('is the one that was put there where nothing was changed, to the last character', () => {
    const boat = readBoat(PLAIN);
    expect(boatFiles({ boat, text: PLAIN, file: 'my.json', rules: { house: {} }, prefix: 'b-' })).toEqual({
      'b-my.json': PLAIN,
    });
  });

  test.each<readonly [string, string, SailWanted | undefined, Pick<Rules, 'crew' | 'house'>]>([
    ['a sail without polars', PLAIN, { kind: 'vented-downwind', areaM2: 140 }, { house: {} }],
    ['a pole, which brings one', PLAIN, { kind: 'poled-out-headsail' }, { house: {} }],
    [
      'rules, where the file has none',
      PLAIN,
      undefined,
      { crew: 2, house: { changesInDark: 'none', pricePerChangeMinutes: 60 } },
    ],
    [
      'a sail beside polars, and a rule taken back',
      RIGGED,
      { kind: 'symmetric-cruising', areaM2: 150 },
      { crew: 3, house: { gybesByDay: false, nightReefAboveKn: 18 } },
    ],
  ])('plans the same when it is read again: %s', (_, text, add, rules) => {
    const before = read({ 'boat.json': text, 'polars.csv': sample('polars.csv') }, 'boat.json');
    const whole = add === undefined ? undefined : boatWith(before.boat, before.polars, add);
    const files = boatFiles({
      boat: before.boat,
      text,
      file: 'boat.json',
      rules,
      prefix: '',
      ...(whole === undefined ? {} : { whole }),
    });
    const after = read({ 'polars.csv': sample('polars.csv'), ...files }, 'boat.json');
    const planned = hoursWith(whole ?? before, rules);
    expect(planned).not.toBe(hoursWith(before));
    // A difference of whole logs is no reading: the first row that is another.
    const [found, wanted] = [hoursWith(after).split('\n'), planned.split('\n')];
    expect(found.find((row, i) => row !== wanted[i])).toBeUndefined();
    expect(found.length).toBe(wanted.length);
    const idsOf = ({ boat }: { readonly boat: Boat }) => boat.sails.map(({ id }) => id).sort();
    expect(idsOf(after)).toEqual(idsOf(whole ?? before));
    // What a person wrote stays as it was written.
    const line = text.split('\n').find((one) => one.includes('"name"'))!;
    expect(files['boat.json']!.split('\n')).toContain(line);
  });

  test('names the polars that go with it, and leaves those that were there alone', () => {
    const { boat, polars } = read({ 'boat.json': RIGGED, 'polars.csv': sample('polars.csv') }, 'boat.json');
    const whole = boatWith(boat, polars, { kind: 'symmetric-cruising' });
    const files = boatFiles({
      boat,
      text: RIGGED,
      file: 'boat.json',
      whole,
      rules: { house: {} },
      prefix: 'wardrobe-b-',
    });
    expect(Object.keys(files)).toEqual(['wardrobe-b-boat.json', `wardrobe-b-polars-with-${whole.sail}.csv`]);
    expect(readBoat(files['wardrobe-b-boat.json']!).polars).toBe(`wardrobe-b-polars-with-${whole.sail}.csv`);
  });
});
