import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import * as core from '../src/index.js';
import {
  boatWith,
  crossoverOf,
  drawnFrom,
  estimatePolars,
  InputError,
  mayDepart,
  passagesFrom,
  planPassage,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
  studySailer,
  summaryOf,
  summingUp,
  turnedBoats,
  wearFor,
  wearOf,
  worthOf,
} from '../src/index.js';
import { landOf, landOnTrack } from '../src/land/land.js';
import { forecastFile, loadBoat, loadInputs, loadStudy, readPlan, readTextFile, runStudy } from '../src/node/node.js';
import * as output from '../src/output/output.js';
import { MONTHLY } from './support/monthly.js';
import { BOAT, FORECAST, POLARS, ROUTE, TIMES } from './support/small.js';

// Every option of every public function, as a program without types may get it wrong.

/** One value of each kind; a text that is none of a few words, and a number that is within most ranges. */
const VALUES = {
  number: 7,
  text: 'vented',
  yes: true,
  list: [],
  object: {},
  function: () => 0,
  nothing: null,
};
type Kind = keyof typeof VALUES;

const source = (text: string) => ({ name: 'file.csv', open: () => [text] });

async function inputsOf() {
  const boat = readBoat(BOAT);
  const polars = readPolars(POLARS, { boat });
  const { forecast } = await readForecast(source(FORECAST));
  const { climatology } = await readClimatology(source(MONTHLY));
  const route = readRoute(ROUTE);
  const land = landOf({ type: 'Polygon', coordinates: [[[0, 0], [1, 0], [1, 1], [0, 0]]] }); // biome-ignore format: one ring
  const side = { name: 'one', boat, polars, records: [] };
  const around = { routes: [{ name: 'route', route }], starts: [TIMES[0]!], options: {} };
  const study = { ...around, boats: [side], weathers: [{ name: 'forecast', weather: { forecast } }] };
  return { boat, polars, forecast, climatology, route, land, side, study };
}
let given: Awaited<ReturnType<typeof inputsOf>>;
beforeAll(async () => {
  given = await inputsOf();
});

/** The options of a function by the name of their type: of what kind each may be, and what takes them. */
interface Taken {
  readonly kinds: Readonly<Record<string, readonly Kind[]>>;
  // What a caller without types may give is anything.
  readonly calls: readonly ((options: never) => unknown)[];
  /** What the functions cannot do without. */
  readonly usual?: Readonly<Record<string, unknown>>;
}

const [NUMBER, TEXT, YES, LIST, OBJECT, FUNCTION] = (
  ['number', 'text', 'yes', 'list', 'object', 'function'] as const
).map((kind) => [kind]) as [['number'], ['text'], ['yes'], ['list'], ['object'], ['function']];
const PRICE = ['number', 'object'] as const;
const READING = { crop: FUNCTION, columns: OBJECT, onColumns: FUNCTION, signal: OBJECT, onProgress: FUNCTION };
const departure = TIMES[0]!;
const paths = { route: 'no-such-file', boat: 'no-such-file', forecast: 'no-such-file' };

const TAKEN: Readonly<Record<string, Taken>> = {
  PassageOptions: {
    kinds: {
      departure: TEXT,
      choice: [],
      crew: NUMBER,
      labels: NUMBER,
      decisionMinutes: NUMBER,
      horizonHours: NUMBER,
      replanHours: NUMBER,
      arriveDaylight: YES,
      stepMinutes: NUMBER,
      maxGapHours: NUMBER,
      house: OBJECT,
      windFactor: NUMBER,
      windShiftHours: NUMBER,
      planSet: [],
      without: LIST,
    },
    usual: { departure },
    calls: [
      (options) => planPassage(given, options),
      ({ departure, ...options }: { departure: string }) =>
        passagesFrom(given, options)({ forecast: given.forecast }, departure),
    ],
  },
  PassageRules: { kinds: { rules: LIST }, calls: [(own) => planPassage(given, { departure }, own)] },
  BriefOptions: { kinds: { firmness: YES }, calls: [(brief) => passagesFrom(given, {}, brief)] },
  CrossoverOptions: {
    kinds: {
      twsKn: [],
      twaDeg: [],
      gustFactor: [],
      skipperFactor: [],
      night: YES,
      without: LIST,
      holePercent: NUMBER,
    },
    calls: [(options) => crossoverOf(given.boat, given.polars, options)],
  },
  EstimateOptions: {
    kinds: { file: TEXT, boatPolar: [], hullOf: OBJECT, bands: YES, twsKn: LIST, twaDeg: LIST },
    calls: [(options) => estimatePolars(given.boat, options)],
  },
  SummaryOptions: {
    kinds: { weights: OBJECT, limits: LIST },
    calls: [summingUp, (options) => summaryOf([], options)],
  },
  WearOptions: {
    kinds: { ozoneDu: [] },
    calls: [(options) => wearFor(given.boat, options), (options) => wearOf({} as never, given.boat, options)],
  },
  DrawOptions: {
    kinds: { seed: NUMBER, fromEpochSeconds: NUMBER, shares: [], eFoldHours: NUMBER },
    usual: { seed: 1, fromEpochSeconds: 0 },
    calls: [(options) => drawnFrom(given.climatology, options)],
  },
  OwnerPrices: {
    kinds: {
      price: PRICE,
      hourValue: PRICE,
      nightChangeValue: PRICE,
      litrePrice: PRICE,
      tearsPer100Hours: PRICE,
      tearCost: PRICE,
      resale: [],
      years: NUMBER,
      milesPerYear: PRICE,
    },
    calls: [
      (prices) => {
        const records = [record()];
        return worthOf({ ...given.side, records }, { ...given.side, records }, prices);
      },
    ],
  },
  WorthOptions: {
    kinds: { rivals: LIST, turned: LIST },
    calls: [(options) => worthOf(given.side, given.side, {}, options)],
  },
  TurnOptions: {
    kinds: { speedBandPercent: NUMBER },
    calls: [(options) => turnedBoats(given.side, given.side, options)],
  },
  SailWanted: {
    kinds: { kind: [], areaM2: NUMBER, price: NUMBER, id: TEXT, lifeHours: NUMBER },
    usual: { kind: 'vented-downwind' },
    calls: [(wanted) => boatWith(given.boat, given.polars, wanted)],
  },
  ReadBoatOptions: { kinds: { file: TEXT }, calls: [(options) => readBoat(BOAT, options)] },
  ReadPolarsOptions: {
    kinds: { file: TEXT, boat: [], sailPlan: TEXT },
    calls: [(options) => readPolars(POLARS, options)],
  },
  ReadForecastOptions: {
    kinds: { ...READING, needsWind: YES, member: TEXT },
    calls: [(options) => readForecast(source(FORECAST), options)],
  },
  ReadClimatologyOptions: { kinds: READING, calls: [(options) => readClimatology(source(MONTHLY), options)] },
  LandOptions: {
    kinds: { waypointMarginNm: NUMBER, file: TEXT },
    calls: [(options) => landOnTrack(given.route, given.land, options)],
  },
  LoadOptions: {
    kinds: { signal: OBJECT, onProgress: FUNCTION, from: OBJECT, faults: LIST },
    calls: [(options) => loadInputs(paths, options)],
  },
  LoadStudyOptions: {
    kinds: { members: LIST, draws: OBJECT },
    calls: [(options) => loadStudy({ routes: [], boats: [], forecasts: [] }, options)],
  },
  ReadTextFileOptions: {
    kinds: { name: TEXT, largestMiB: NUMBER },
    calls: [(options) => readTextFile('no-such-file', options)],
  },
  RunStudyOptions: {
    kinds: { threads: NUMBER, from: NUMBER, signal: OBJECT },
    calls: [(options) => runStudy(given.study, options).next()],
  },
};

/** The one passage of the small study. */
const record = () => studySailer(given.study)(0);

/** The names of the members of an interface of the reference. */
function membersOf(name: string): readonly string[] {
  const body = new RegExp(`^export interface ${name}(?: extends [^\\n]*)? \\{\\n(.*?)^\\}`, 'ms').exec(API)?.[1];
  return [...(body ?? '').matchAll(/^ {4}readonly (\w+)\??:/gm)].map((match) => match[1]!);
}
const API = readFileSync('docs/api.txt', 'utf8');

const TOLD_ELSEWHERE = [
  // Results, in which every option is filled in.
  'SettledOptions',
  'SettledCrossoverOptions',
  // Texts of a page that is drawn.
  'ReportOptions',
  'StudyReportOptions',
];

describe('an option of the wrong type', () => {
  test('no option is left out here', () => {
    const named = [...API.matchAll(/^export interface (\w+Options)\b/gm)].map((match) => match[1]!);
    expect(named.filter((name) => !(name in TAKEN) && !TOLD_ELSEWHERE.includes(name))).toEqual([]);
    for (const [name, { kinds }] of Object.entries(TAKEN))
      expect([name, ...Object.keys(kinds).sort()]).toEqual([name, ...[...membersOf(name)].sort()]);
  });

  const rows = Object.entries(TAKEN).flatMap(([name, { kinds, ...taken }]) =>
    Object.entries(kinds).map(([option, own]) => [name, option, { own, ...taken }] as const),
  );
  test.each(rows)('%s: %s', async (_, option, { own, calls, usual }) => {
    for (const [kind, value] of Object.entries(VALUES)) {
      if (own.includes(kind as Kind)) continue;
      for (const call of calls) {
        const faults = await faultsOf(() => call({ ...usual, [option]: value } as never));
        // A file or a departure may be told by its own name, without a path.
        const told = faults.filter(({ file, path = file }) => path === option || path.startsWith(`${option}.`));
        expect(told.length, `${option}: ${kind} gave ${JSON.stringify(faults)}`).toBeGreaterThan(0);
      }
    }
  });

  test.each(Object.entries(TAKEN))('%s as a whole', async (_, { calls }) => {
    for (const value of [null, 'text', 7])
      for (const call of calls.slice(0, 1)) {
        const faults = await faultsOf(() => call(value as never));
        expect(faults.map(({ path, got }) => [path, got])).toEqual([[undefined, JSON.stringify(value)]]);
      }
  });

  test('items of lists, and parts of parts', async () => {
    const { boat, polars, side, climatology } = given;
    const told = async (action: () => unknown) => (await faultsOf(action)).map(({ path }) => path);
    expect(await told(() => planPassage(given, { departure, without: [5] as never }))).toEqual(['without[0]']);
    expect(await told(() => crossoverOf(boat, polars, { without: ['main', null] as never }))).toEqual(['without[1]']);
    expect(await told(() => estimatePolars(boat, { boatPolar: { twsKn: '10' } as never }))).toEqual([
      'boatPolar.twsKn',
      'boatPolar.twaDeg',
      'boatPolar.stwKn',
    ]);
    expect(await told(() => summingUp({ weights: { hours: '1' } as never }))).toEqual(['weights']);
    expect(
      await told(() =>
        summingUp({
          limits: [
            ['hours', '1'],
            ['speed', 0],
          ] as never,
        }),
      ),
    ).toEqual(['limits', 'limits']);
    expect(await told(() => summingUp({ limits: ['hours'] as never }))).toEqual(['limits[0]']);
    expect(await told(() => worthOf(side, side, {}, { rivals: [{ name: 'other' }] as never }))).toEqual([
      'boat',
      'polars',
      'records',
    ]);
    const shares = { passage: '0.2', weather: 0.5, observation: 0.3 } as never;
    expect(await told(() => drawnFrom(climatology, { seed: 1, fromEpochSeconds: 0, shares }))).toEqual(['shares']);
    expect(await told(() => readForecast(source(FORECAST), { columns: { lat: 'latitude' } as never }))).toEqual([
      'columns.lat',
    ]);
    expect(await told(() => mayDepart(given.route, given, { windFactor: '2' as never }))).toEqual(['windFactor']);
    expect(await told(() => loadInputs({ ...paths, forecast: 5 as never }))).toEqual(['forecast']);
    expect(await told(() => loadInputs({ route: 5 } as never))).toEqual(['route', 'boat']);
  });
});

/** These take numbers, a place, or faults: what the types forbid is not looked for. And a sum begins with nothing given. */
const NO_RECORD = [
  ...['apparentWind', 'beaufortOf', 'daylightAt', 'describeFault', 'describeFaults', 'InputError', 'keptMeanSpeedKn'],
  ...['moonAt', 'moonTimesAt', 'parsePosition', 'placeFrom', 'riceMeanKn', 'sailingBetween', 'spreadKn'],
  ...['stabilityWindKn', 'summingUp', 'sunHeightDeg', 'sunTimesAt', 'twilightAt', 'uvIndexAt', 'zoneClock'],
  ...['zoneHoursAt', 'zoneLabel'],
];
const LOADERS = { forecastFile, loadBoat, loadInputs, loadStudy, readPlan, readTextFile };

describe('a record that was forgotten, or something else in its place', () => {
  const functions = Object.entries({ ...core, landOf, landOnTrack, ...LOADERS }).filter(
    ([name, value]) =>
      typeof value === 'function' && !NO_RECORD.includes(name) && !(name in output && name !== 'readPlan'),
  ) as [string, (...given: readonly unknown[]) => unknown][];
  test('most of the functions are asked', () => {
    expect(functions.length).toBeGreaterThan(45);
  });
  const long = 'time,lat,lon\n'.repeat(100_000);
  test.each(functions)('%s', async (name, called) => {
    const isOfPath = name in LOADERS && name !== 'readPlan';
    const all = [[], [null, null, null], [{}, {}, {}], ...(isOfPath ? [] : [[long]])];
    for (const args of all) {
      const error: unknown = await Promise.resolve()
        .then(() => called(...args))
        .catch((thrown) => thrown);
      expect(error, `${String(args).slice(0, 20)}`).toBeInstanceOf(InputError);
      expect((error as InputError).message.length).toBeLessThan(5000);
    }
  });
});

/** The faults of what is thrown; none where nothing is. Any other error is the test's failure. */
async function faultsOf(action: () => unknown) {
  try {
    await action();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.faults;
    throw error;
  }
}
