import { closest, distance } from 'fastest-levenshtein';
import { type Fault, quoted } from './errors.js';
import type { InstantFlaw } from './time.js';

type Said = Pick<Fault, 'code' | 'expected' | 'got'>;

const oneOf = (words: readonly string[]) => words.join(', ');

/** `"jibb" (did you mean "jib"?)` where one of the known words is near. */
function withHint(got: string, known: readonly string[]): string {
  const near = known.length > 0 ? closest(got, [...known]) : undefined;
  const isNear =
    near !== undefined && distance(got.toLowerCase(), near.toLowerCase()) <= Math.max(1, Math.floor(near.length / 3));
  return isNear && near !== got ? `${quoted(got)} (did you mean ${quoted(near)}?)` : quoted(got);
}

/**
 * What is said of every fault and warning: one entry a sentence, so that the wording is found, changed and tested in
 * one place. Each gives `code`, `expected` and `got`; the caller adds the place.
 */
export const says = {
  // Files and tables
  unreadable: (why: string): Said => ({ code: 'unreadable', expected: 'a file that can be read', got: why }),
  noRows: (hasHeader: boolean): Said => ({
    code: 'no-rows',
    expected: 'a header line and at least one row',
    got: hasHeader ? 'only a header line' : 'none',
  }),
  quoteOpen: (): Said => ({ code: 'quote-open', expected: 'every quote to be closed', got: 'an open quote' }),
  lineTooLong: (limit: number): Said => ({
    code: 'line-too-long',
    expected: `lines of at most ${limit} characters`,
    got: 'a longer one',
  }),
  missingColumn: (known: readonly string[]): Said => ({
    code: 'missing-column',
    expected: 'this column in the header',
    got: `only ${quoted(oneOf(known))}`,
  }),
  unknownColumn: (name: string, known: readonly string[]): Said => ({
    code: 'unknown-column',
    expected: `one of ${oneOf(known)}`,
    got: withHint(name, known),
  }),
  repeatedColumn: (): Said => ({ code: 'repeated-column', expected: 'this column once', got: 'it again' }),
  cellCount: (expected: number, got: number): Said => ({
    code: 'cell-count',
    expected: `${expected} cells`,
    got: `${got}`,
  }),
  number: (min: number, max: number, got: string): Said => ({
    code: 'number',
    expected: `a number from ${min} to ${max}`,
    got: quoted(got),
  }),
  instantUnzoned: (got: string): Said => ({
    code: 'instant-unzoned',
    expected: 'a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z',
    got: quoted(got),
  }),
  instantMalformed: (got: string): Said => ({
    code: 'instant',
    expected: 'a time in ISO 8601, like 2018-10-06T20:00Z',
    got: quoted(got),
  }),

  // Route
  latitude: (got: string): Said => ({
    code: 'latitude',
    expected: "a latitude from 90S to 90N, like 16.88 or 16°52.8'N",
    got: quoted(got),
  }),
  longitude: (got: string): Said => ({
    code: 'longitude',
    expected: "a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W",
    got: quoted(got),
  }),
  legKind: (got: string): Said => ({
    code: 'leg-kind',
    expected: 'rhumb, great-circle or nothing',
    got: withHint(got, ['rhumb', 'great-circle']),
  }),
  tooFewWaypoints: (got: number): Said => ({
    code: 'too-few-waypoints',
    expected: 'at least 2 waypoints',
    got: `${got}`,
  }),
  zeroLeg: (name: string): Said => ({
    code: 'zero-leg',
    expected: 'a waypoint away from the one before',
    got: `the same place again at ${quoted(name)}`,
  }),
  nearPole: (limit: number, got: string): Said => ({
    code: 'near-pole',
    expected: `legs within ${limit}° of latitude`,
    got,
  }),
  antipodes: (): Said => ({
    code: 'antipodes',
    expected: 'a great circle between places that are not opposite',
    got: 'opposite places: its course is not defined',
  }),

  // Forecast
  windColumns: (got: readonly string[]): Said => ({
    code: 'wind-columns',
    expected: 'u10 and v10, or wind_speed with its unit and wind_from_direction',
    got: quoted(oneOf(got)),
  }),
  unitNeeded: (column: string): Said => ({
    code: 'unit-needed',
    expected: `the unit in the column's name, like ${column}_kn or ${column}_mps`,
    got: 'none',
  }),
  unitUnknown: (units: readonly string[], got: string): Said => ({
    code: 'unit-unknown',
    expected: `a unit of ${oneOf(units)} in the column's name`,
    got: withHint(got, units),
  }),
  columnPair: (other: string): Said => ({ code: 'column-pair', expected: `${other} beside it`, got: 'it alone' }),
  columnTwice: (other: string): Said => ({
    code: 'column-twice',
    expected: 'one column for each quantity',
    got: `${other} as well`,
  }),
  disagreeing: (time: string, latDeg: number, lonDeg: number): Said => ({
    code: 'rows-disagree',
    expected: 'rows of one point and time to agree',
    got: `another value for ${time} at ${latDeg}, ${lonDeg}`,
  }),
  oneMember: (first: string, got: string): Said => ({
    code: 'one-member',
    expected: `rows of one member (${quoted(first)})`,
    got: quoted(got),
  }),
  notAGrid: (cells: number, rows: number): Said => ({
    code: 'not-a-grid',
    expected: 'points on the lines of a grid',
    got: `${rows} rows spread over ${cells} grid points and times`,
  }),
  tooManyLines: (limit: number): Said => ({
    code: 'not-a-grid',
    expected: `at most ${limit} different times, latitudes and longitudes each`,
    got: 'more',
  }),
  columnUnused: (): Said => ({
    code: 'column-unused',
    expected: 'a column of the plain layout',
    got: 'another one: it is not used',
  }),
  noWindRows: (): Said => ({
    code: 'no-wind',
    expected: 'wind in at least one row of the waters of the route',
    got: 'none',
  }),

  // Boat and polars
  json: (got: string): Said => ({ code: 'json', expected: 'a JSON text', got }),
  unknownKey: (name: string, known: readonly string[]): Said => ({
    code: 'unknown-key',
    expected: `one of ${oneOf(known)}`,
    got: withHint(name, known),
  }),
  repeatedKey: (): Said => ({ code: 'repeated-key', expected: 'this key once', got: 'it again' }),
  missingKey: (): Said => ({ code: 'missing-key', expected: 'a value', got: 'nothing' }),
  wrongValue: (expected: string, got: string): Said => ({ code: 'wrong-value', expected, got }),
  choice: (options: readonly string[], got: string): Said => ({
    code: 'choice',
    expected: `one of ${oneOf(options)}`,
    got: withHint(got, options),
  }),
  newId: (got: string): Said => ({ code: 'id-twice', expected: 'an id of its own', got: `${quoted(got)} again` }),
  sailAboard: (ids: readonly string[], got: string): Said => ({
    code: 'unknown-sail',
    expected: 'the id of a sail aboard',
    got: withHint(got, ids),
  }),
  reefOf: (count: number, got: string): Said => ({
    code: 'unknown-reef',
    expected: count === 0 ? 'a sail without a reef number' : `a reef from 1 to ${count}`,
    got: quoted(got),
  }),
  clothTwice: (cloth: string, got: string): Said => ({
    code: 'cloth-twice',
    expected: `${quoted(cloth)} once in a sail plan`,
    got: `${quoted(got)} as well`,
  }),
  clothChain: (got: string): Said => ({
    code: 'cloth-chain',
    expected: 'a sail that is itself a cloth',
    got: quoted(got),
  }),
  risingAngles: (): Said => ({ code: 'rising-angles', expected: 'angle limits that rise', got: 'one that does not' }),
  onlyFor: (kind: string, got: string): Said => ({
    code: 'only-for-kind',
    expected: `this only for ${kind}`,
    got: quoted(got),
  }),
  smallerReef: (): Said => ({
    code: 'smaller-reef',
    expected: 'less area than the reef before',
    got: 'as much or more',
  }),
  planOfBoat: (ids: readonly string[], got: string): Said => ({
    code: 'unknown-sail-plan',
    expected: 'the id of a sail plan of the boat',
    got: withHint(got, ids),
  }),
  polarPoint: (plan: string, twsKn: number, twaDeg: number): Said => ({
    code: 'polar-point',
    expected: `a row of ${quoted(plan)} for tws_kn ${twsKn} and twa_deg ${twaDeg}`,
    got: 'none',
  }),
  polarTwice: (twsKn: number, twaDeg: number): Said => ({
    code: 'polar-twice',
    expected: `one row for tws_kn ${twsKn} and twa_deg ${twaDeg}`,
    got: 'another',
  }),
  polarTooSmall: (): Said => ({
    code: 'polar-too-small',
    expected: 'at least 2 angles and 1 wind speed',
    got: 'fewer',
  }),
  noPolar: (): Said => ({
    code: 'no-polar',
    expected: 'a polar for every sail plan',
    got: 'none: this plan is never set',
  }),

  // Passage
  departureOutside: (from: string, to: string, got: string): Said => ({
    code: 'departure-outside',
    expected: `a departure from ${from} and before ${to}, the times of the forecast`,
    got,
  }),
  oneTime: (time: string): Said => ({
    code: 'one-time',
    expected: 'a forecast of at least two times',
    got: `only ${time}`,
  }),
  startOutside: (covers: string, got: string): Said => ({
    code: 'start-outside',
    expected: `a start inside the forecast's grid, ${covers}`,
    got,
  }),
  startWindless: (got: string): Said => ({
    code: 'start-windless',
    expected: 'wind in the forecast at the start',
    got,
  }),
  windAbsent: (place: string, time: string, why: string): Said => ({
    code: 'wind-absent',
    expected: 'wind all along the track',
    got: `none at ${place} at ${time}: ${why}`,
  }),
  sailUnused: (): Said => ({
    code: 'sail-unused',
    expected: 'a sail plan that sets every sail',
    got: 'none: this sail is never used',
  }),
  bridged: (maxHours: number, gapHours: number, from: string, to: string): Said => ({
    code: 'gap-bridged',
    expected: `times without gaps (up to ${maxHours} h are bridged)`,
    got: `a gap of ${gapHours} h, from ${from} to ${to}: wind in between is drawn straight from one end to the other`,
  }),
  currentAbsent: (hours: number): Said => ({
    code: 'current-absent',
    expected: 'current for every hour',
    got: `none in ${hours} h: taken as zero`,
  }),
  wavesAbsent: (hours: number): Said => ({
    code: 'waves-absent',
    expected: 'waves for every hour',
    got: `none in ${hours} h: unknown`,
  }),
  gustAbsent: (factor: number, hours: number): Said => ({
    code: 'gust-absent',
    expected: 'gusts for every hour',
    got: `none in ${hours} h: mean wind × ${factor} instead`,
  }),
  polarHeld: (plan: string, hours: number, twsKn: number): Said => ({
    code: 'polar-held',
    expected: `polars up to the wind sailed in`,
    got: `${hours} h under ${quoted(plan)} above its highest wind of ${twsKn} kn: speed held there`,
  }),
} as const;

/** What is said of a text that is no instant. */
export function saidOfInstant(flaw: InstantFlaw, text: string): Said {
  return flaw === 'unzoned' ? says.instantUnzoned(text) : says.instantMalformed(text);
}
