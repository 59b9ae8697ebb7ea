import { closest, distance } from 'fastest-levenshtein';
import { type Fault, quoted, shown } from './errors.js';
import { FIRST_YEAR, type InstantFlaw, LAST_YEAR } from './time.js';

type Said = Pick<Fault, 'code' | 'expected' | 'got'>;

const oneOf = (words: readonly string[]) => words.join(', ');

const NAMES_TOLD = 5;
const firstFew = (names: readonly string[], most = NAMES_TOLD) =>
  `${oneOf(names.slice(0, most))}${names.length > most ? ` and ${names.length - most} more` : ''}`;

const PLANS_TOLD = 8;

/** `"jibb" (did you mean "jib"?)` where one of the known words is near. */
function withHint(got: string, known: readonly string[]): string {
  const part = known.find((word) => word.split('-').includes(got));
  const near = part ?? (known.length > 0 ? closest(got, [...known]) : undefined);
  const isNear =
    part !== undefined ||
    (near !== undefined && distance(got.toLowerCase(), near.toLowerCase()) <= Math.max(1, Math.floor(near.length / 3)));
  return isNear && near !== undefined && near !== got ? `${quoted(got)} (did you mean ${quoted(near)}?)` : quoted(got);
}

/** A number with a comma is told for what it is: spreadsheets write them so in half the world. */
const numberGot = (got: string) => `${quoted(got)}${/^\s*[+-]?\d+,\d+\s*$/.test(got) ? ' (a decimal comma?)' : ''}`;

/**
 * What is said of every fault and warning: one entry a sentence, so that the wording is found, changed and tested in
 * one place. Each gives `code`, `expected` and `got`; the caller adds the place.
 */
export const says = {
  // Files and tables
  unreadable: (why: string): Said => ({ code: 'unreadable', expected: 'a file that can be read', got: why }),
  notOnPage: (): Said => says.unreadable('not on this page: put it here too'),
  goneFromPage: (): Said => says.unreadable('changed or gone since it was put here: put it here again'),
  pageNotBuilt: (): Said => ({
    code: 'page-not-built',
    expected: 'the page as "npm run build" makes it in a checkout (an installed package brings it)',
    got: 'none there: build it, or install the package anew',
  }),
  notText: (got: string): Said => ({ code: 'not-text', expected: 'a text in UTF-8', got }),
  tooLarge: (limitMiB: number): Said => ({
    code: 'too-large',
    expected: `a file of at most ${limitMiB} MiB`,
    got: 'a larger one',
  }),
  noRows: (hasHeader: boolean): Said => ({
    code: 'no-rows',
    expected: 'a header line and at least one row',
    got: hasHeader ? 'only a header line' : 'none',
  }),
  quoteOpen: (): Said => ({ code: 'quote-open', expected: 'every quote to be closed', got: 'an open quote' }),
  quoteJunk: (): Said => ({
    code: 'quote-junk',
    expected: 'the end of the cell after a closing quote',
    got: 'more text',
  }),
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
    got: numberGot(got),
  }),
  instantUnzoned: (got: string): Said => ({
    code: 'instant-unzoned',
    expected: 'a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z',
    got: quoted(got),
  }),
  timeUnzoned: (column: string, got: string): Said => ({
    code: 'instant-unzoned',
    expected: `a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z (or --column time=${column}:UTC where it is UTC)`,
    got: quoted(got),
  }),
  instantMalformed: (got: string): Said => ({
    code: 'instant',
    expected: 'a time in ISO 8601, like 2018-10-06T20:00Z',
    got: quoted(got),
  }),
  instantYear: (got: string): Said => ({
    code: 'instant',
    expected: `a time in the years ${FIRST_YEAR} to ${LAST_YEAR}`,
    got: quoted(got),
  }),

  // Route
  latitude: (got: string): Said => ({
    code: 'latitude',
    expected: "a latitude from 90S to 90N, like 16.88 or 16°52.8'N",
    got: numberGot(got),
  }),
  longitude: (got: string): Said => ({
    code: 'longitude',
    expected: "a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W",
    got: numberGot(got),
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
  tooManyWaypoints: (limit: number, got: string): Said => ({
    code: 'too-many-waypoints',
    expected: `at most ${limit} waypoints`,
    got,
  }),
  nameTooLong: (limit: number, got: string): Said => ({
    code: 'name-too-long',
    expected: `a name of at most ${limit} characters`,
    got: quoted(got),
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
  routeTooLong: (limit: number): Said => ({
    code: 'route-too-long',
    expected: `a route of at most ${limit} Nm`,
    got: 'a longer one',
  }),
  oneLine: (what: string, names: readonly (string | undefined)[]): Said => ({
    code: 'one-line',
    expected: `a single ${what}`,
    got: `${names.length}: ${firstFew(names.map((name) => (name === undefined ? 'unnamed' : quoted(name))))}`,
  }),
  xml: (got: string): Said => ({ code: 'xml', expected: 'a well-formed XML text', got }),
  doctype: (): Said => ({ code: 'doctype', expected: 'XML without a <!DOCTYPE', got: 'one with it' }),
  gpxRoot: (got: string): Said => ({ code: 'gpx-root', expected: 'gpx as the outermost element', got: quoted(got) }),
  noRoute: (loose: number): Said => ({
    code: 'no-route',
    expected: 'a route (rte with rtept) or a track (trk with trkpt)',
    got: loose === 0 ? 'neither' : `only ${loose} wpt, which stand in no order`,
  }),
  degrees: (min: number, max: number, got: string): Said => ({
    code: 'degrees',
    expected: `decimal degrees from ${min} to ${max}, like 16.88`,
    got: quoted(got),
  }),
  geojson: (got: string): Said => ({ code: 'geojson', expected: 'an object of GeoJSON', got }),
  listOf: (what: string, got: string): Said => ({ code: 'list', expected: `a list of ${what}`, got }),
  lonLat: (got: string): Said => ({
    code: 'lon-lat',
    expected: '[longitude from -180 to 360, latitude from -90 to 90]',
    got,
  }),
  partsApart: (): Said => ({
    code: 'parts-apart',
    expected: 'each part of the line to begin where the one before ends',
    got: 'one that begins elsewhere',
  }),
  noLand: (): Said => ({ code: 'no-land', expected: 'at least one polygon of land', got: 'none' }),
  shortRing: (least: number, got: number): Said => ({
    code: 'short-ring',
    expected: `a ring of at least ${least} positions`,
    got: `${got}`,
  }),
  onLand: (firstLeg: number, lastLeg: number, from: string, to: string, place: string, lengthNm: number): Said => ({
    code: 'on-land',
    expected: 'water along the route',
    got: `land on ${firstLeg === lastLeg ? `leg ${firstLeg}` : `legs ${firstLeg} to ${lastLeg}`} (${quoted(from)} to ${quoted(to)}) from ${place} for ${lengthNm} Nm`,
  }),
  arrived: (name: string, withinNm: number): Said => ({
    code: 'arrived',
    expected: 'a position with some of the route still ahead',
    got: `one within ${withinNm} Nm of the destination ${quoted(name)}`,
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
  unitOfChoice: (quantity: string, name: string): Said => ({
    code: 'unit-needed',
    expected: `the unit of the column that is chosen, like --column ${quantity}=${name}:kn`,
    got: 'none',
  }),
  unitUnknown: (units: readonly string[], got: string): Said => ({
    code: 'unit-unknown',
    expected: `a unit of ${oneOf(units)}`,
    got: withHint(got, units),
  }),
  unitTwice: (unit: string, other: string): Said => ({
    code: 'unit-twice',
    expected: `one unit (${unit} by its name)`,
    got: `${quoted(other)} as well`,
  }),
  windHeight: (got: string): Said => ({
    code: 'wind-height',
    expected: 'wind at 10 m',
    got: `wind at ${got}: it is taken as if at 10 m`,
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
  directionContradicts: (time: string, latDeg: number, lonDeg: number, offDeg: number): Said => ({
    code: 'direction-contradicts',
    expected: 'a direction that fits the components beside it (wind from, current to)',
    got: `one ${offDeg}° off for ${time} at ${latDeg}, ${lonDeg}`,
  }),
  filesDisagree: (
    other: string,
    points: number,
    time: string,
    latDeg: number,
    lonDeg: number,
    got: number,
    otherGot: number,
  ): Said => ({
    code: 'files-disagree',
    expected: `the values of ${quoted(other)} where both files have them, or a run time in both`,
    got: `others at ${points === 1 ? '1 point and time' : `${points} points and times`}, first ${got.toFixed(2)} against ${otherGot.toFixed(2)} for ${time} at ${latDeg}, ${lonDeg}`,
  }),
  oneLevel: (first: string, got: string): Said => ({
    code: 'one-level',
    expected: `rows of one height or depth (${quoted(first)})`,
    got: quoted(got),
  }),
  chooseMember: (members: readonly string[]): Said => ({
    code: 'choose-member',
    expected: 'one member of the ensemble to be chosen',
    got: `${members.length}: ${quoted(oneOf(members))}`,
  }),
  chosenColumn: (role: string, known: readonly string[]): Said => ({
    code: 'chosen-column',
    expected: `this column for ${role} in the head of a forecast or climatology file`,
    got: `only ${quoted(oneOf(known))}`,
  }),
  quantityColumns: (got: readonly string[]): Said => ({
    code: 'quantity-columns',
    expected:
      'wind, gust, current or waves under a known name (docs/file-formats.md lists them; --column names another)',
    got: quoted(oneOf(got)),
  }),
  zeroRun: (points: number, time: string, latDeg: number, lonDeg: number): Said => ({
    code: 'zero-run',
    expected: 'wind that is exactly 0 at single points at most',
    got: `${points} neighbouring points and times with both components exactly 0, first for ${time} at ${latDeg}, ${lonDeg}: rather a fill value or land than a calm`,
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
  lastLineOpen: (): Said => ({
    code: 'last-line-open',
    expected: 'a line end behind the last row',
    got: 'none: if the file was cut there, the last value of the row may be another than it was',
  }),
  columnUnused: (): Said => ({
    code: 'column-unused',
    expected: 'a column of a known quantity',
    got: 'another one: it is not used',
  }),
  columnsUnused: (more: number): Said => ({
    code: 'column-unused',
    expected: 'columns of known quantities',
    got: `${more} more others: they are not used`,
  }),
  noWindRows: (): Said => ({
    code: 'no-wind',
    expected: 'wind in at least one row of the waters of the route',
    got: 'none',
  }),

  // Climatology
  meanVectorColumns: (got: readonly string[]): Said => ({
    code: 'mean-vector-columns',
    expected: 'the mean wind towards east and north, as u10 and v10 or u and v',
    got: quoted(oneOf(got)),
  }),
  meanSpeedColumn: (got: readonly string[]): Said => ({
    code: 'mean-speed-column',
    expected: 'the mean speed of the wind, as wind_speed or wspd: the mean vector alone is too weak',
    got: quoted(oneOf(got)),
  }),
  monthColumn: (got: readonly string[]): Said => ({
    code: 'missing-column',
    expected: 'this column in the header, or a time of which the month is taken',
    got: `only ${quoted(oneOf(got))}`,
  }),
  month: (got: string): Said => ({ code: 'month', expected: 'a whole month from 1 to 12', got: quoted(got) }),
  monthOfDate: (got: string): Said => ({
    code: 'month',
    expected: 'a date like 2001-01-16, of which the month is taken',
    got: quoted(got),
  }),
  allMonths: (missing: readonly string[]): Said => ({
    code: 'all-months',
    expected: 'all twelve months',
    got: `none of ${oneOf(missing)}`,
  }),
  meanInPart: (cells: number, place: string): Said => ({
    code: 'mean-in-part',
    expected: 'mean vector and mean speed of a cell and month, or neither',
    got: `${cells} with one of them only, first ${place}: they are taken as absent`,
  }),
  speedUnderVector: (cells: number, of: number, place: string, vectorKn: number, speedKn: number): Said => ({
    code: 'speed-under-vector',
    expected: 'a mean speed no lower than the length of the mean vector',
    got: `a lower one in ${cells} of ${of} cells and months, first ${speedKn.toFixed(2)} under ${vectorKn.toFixed(2)} kn ${place}: few observations, rather; the vector's is taken, and they have no spread`,
  }),
  byClimatology: (hours: number, unsteadyHours: number, under: number): Said => ({
    code: 'by-climatology',
    expected: 'a forecast for every hour',
    got: `none in ${hours} h: the mean wind of the month instead, with a steadiness under ${under} in ${unsteadyHours} h, where it says little of a day. Gales, squalls and calms are not in a mean`,
  }),
  bySyntheticWeather: (hours: number, seed: number): Said => ({
    code: 'synthetic-weather',
    expected: 'a forecast for every hour',
    got: `none in ${hours} h: synthetic weather instead (seed ${seed}), one drawing of what monthly means imply, by shares that are placeholders. Squalls and lulls are not in it`,
  }),
  notRecord: (reader: string, got: unknown): Said => ({
    code: 'not-record',
    expected: `a record as ${reader} gives it`,
    got: shown(got),
  }),
  fileSource: (got: unknown): Said => ({
    code: 'file-source',
    expected: 'a file as { name, open: () => [text] }',
    got: shown(got),
  }),
  noWeather: (): Said => ({
    code: 'no-weather',
    expected: 'a forecast, a climatology, or both',
    got: 'neither',
  }),

  // Boat and polars
  json: (got: string): Said => ({ code: 'json', expected: 'a JSON text', got }),
  unknownKey: (name: string, known: readonly string[]): Said => ({
    code: 'unknown-key',
    expected: `one of ${oneOf(known)}`,
    got: withHint(name, known),
  }),
  rulesApart: (): Said => ({
    code: 'rules-apart',
    expected:
      "a program's own rules beside the options: planPassage(inputs, options, { rules }) or passagesFrom, and none in a study, which crosses threads",
    got: 'rules among the options',
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
  freeId: (got: string): Said => ({
    code: 'reserved-id',
    expected: 'an id that stands for nothing else ("motor" is the engine, "bare-poles" no sails, "hove-to" to lie to)',
    got: quoted(got),
  }),
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
  atTheCloth: (cloth: string): Said => ({
    code: 'at-the-cloth',
    expected: `this at the sail that is the cloth (${quoted(cloth)})`,
    got: 'it at another setting of it',
  }),
  eitherOf: (one: string, other: string): Said => ({
    code: 'either-of',
    expected: `${one} or ${other}`,
    got: 'both',
  }),
  risingAngles: (): Said => ({ code: 'rising-angles', expected: 'angle limits that rise', got: 'one that does not' }),
  risingTimes: (got: string): Said => ({
    code: 'rising-times',
    expected: 'times of day that rise',
    got: `${quoted(got)} after one as late or later`,
  }),
  teamsOfCrew: (crew: number, got: number): Said => ({
    code: 'teams-of-crew',
    expected: `no more watches than people in the crew (${crew})`,
    got: `${got}`,
  }),
  reserveAboard: (fuelLitres: number, got: number): Said => ({
    code: 'reserve-aboard',
    expected: `no more litres in reserve than fuel aboard (${fuelLitres})`,
    got: `${got}`,
  }),
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
  planAsked: (ids: readonly string[], got: string): Said => ({
    code: 'unknown-sail-plan',
    expected: `the id of a sail plan of the boat, one of ${firstFew(ids, PLANS_TOLD)}`,
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
  onePerPlan: (plan: string, first: string, got: string): Said => ({
    code: 'one-per-plan',
    expected: `one value for all rows of ${quoted(plan)} (${first})`,
    got,
  }),
  planOfWideTable: (): Said => ({
    code: 'plan-of-wide-table',
    expected:
      'to know the sail plan of this table: a boat of one plan, or "polars" in the boat file as { "plan": "file" }',
    got: 'several plans or none',
  }),
  axisTwice: (axis: string, value: number): Said => ({
    code: 'polar-twice',
    expected: `each ${axis} once`,
    got: `${value} again`,
  }),
  gentleSlope: (most: number): Said => ({
    code: 'gentle-slope',
    expected: `leeway that changes by at most ${most}° for each degree of AWA`,
    got: 'more',
  }),
  beyondHorizon: (horizonHours: number, got: number): Said => ({
    code: 'beyond-horizon',
    expected: `at most the ${horizonHours} h of the horizon`,
    got: `${got}`,
  }),
  noEffect: (needed: string, got: string): Said => ({
    code: 'no-effect',
    expected: needed,
    got: `${got}: the setting has no effect`,
  }),
  handsShort: (crew: number, changes: number, first: string): Said => ({
    code: 'hands-short',
    expected: `changes for no more hands than the ${crew} aboard`,
    got: `${changes} for more, the first at ${first}`,
  }),
  fuelReserve: (most: number, reserve: number, used: number, charging: number): Said => ({
    code: 'fuel-reserve',
    expected: `at most ${most.toFixed(0)} l burnt, which leaves the reserve of ${reserve.toFixed(0)} l`,
    got: `${used.toFixed(0)} l, ${charging.toFixed(0)} of them for the batteries`,
  }),
  noPlanLeft: (): Said => ({
    code: 'no-plan-left',
    expected: 'at least one sail plan without these sails',
    got: 'none',
  }),
  besideDefault: (side: 'less' | 'more', key: string, value: number, kind: string, got: string): Said => ({
    code: 'beside-default',
    expected: `${side} than ${key} (${value}, the default of ${kind}), or both to be given`,
    got,
  }),
  notComplete: (): Said => ({
    code: 'not-complete',
    expected: 'a complete boat, as readBoat and completeBoat give her',
    got: 'nothing here',
  }),
  tooManyPlans: (most: number, got: number): Said => ({
    code: 'too-many-plans',
    expected: `a list of sail plans, where more than ${most} follow from the sails`,
    got: `none, and ${got} follow`,
  }),
  longPlanId: (most: number, got: number): Said => ({
    code: 'long-plan-id',
    expected: `shorter ids of sails, or a list of sail plans: their ids would have more than ${most} characters`,
    got: `${got}`,
  }),
  needLacking: (kind: string, needs: readonly string[]): Said => ({
    code: 'need-lacking',
    expected: `the boat to have ${needs.join(' or ')} for ${kind}`,
    got: 'none in the boat file',
  }),
  overRule: (what: string, most: number, got: number, unit: string): Said => ({
    code: 'over-rule',
    expected: `${what} to be at most ${most} ${unit}`,
    got: `${got} ${unit}`,
  }),
  measuresAsCode: (kind: string, ratio: number): Said => ({
    code: 'measures-as-code',
    expected: `a half width of 75 % of the foot and more for ${kind}`,
    got: `${Math.round(ratio * 100)} %: it measures as a headsail, like a code-zero`,
  }),
  noCommonAngle: (plan: string): Said => ({
    code: 'no-common-angle',
    expected: 'sails in a plan that may be carried at one angle',
    got: `none in common in ${quoted(plan)}: it is never set`,
  }),
  onePolar: (plans: readonly string[]): Said => ({
    code: 'one-polar',
    expected: 'one polar for the whole boat',
    got: `${plans.length}: ${firstFew(plans)}`,
  }),
  polarsAndBoatPolar: (): Said => ({
    code: 'polars-and-boat-polar',
    expected: 'polars of the sail plans, or one of the whole boat to be split',
    got: 'both',
  }),
  neededToEstimate: (): Said => ({
    code: 'needed-to-estimate',
    expected: 'a value: where there are no polars, speeds are estimated from it',
    got: 'nothing',
  }),
  neededBesidePolars: (lacking: readonly string[], plans: readonly string[]): Said => ({
    code: 'needed-to-estimate',
    expected: `${oneOf(lacking)}, from which the speeds of ${firstFew(plans)} are estimated; or the further sail in the boat file, with its sail plans and a polar of each`,
    got: 'neither',
  }),
  areaToEstimate: (): Said => ({
    code: 'area-to-estimate',
    expected:
      'an area, or measures and a rig from which it follows: where there are no polars, speeds are estimated from it',
    got: 'none',
  }),
  knownSpeedTooFast: (plan: string): Said => ({
    code: 'known-speed-too-fast',
    expected: `a speed at which the sails of ${quoted(plan)} still drive the boat`,
    got: 'a higher one',
  }),
  boatPolarToGive: (): Said => ({
    code: 'boat-polar-to-give',
    expected: 'the polar the boat file names here to be read and given as the option boatPolar',
    got: 'none',
  }),
  resistanceOff: ([from, to]: readonly [number, number], got: number): Said => ({
    code: 'resistance-off',
    expected: `speeds that a hull of this waterline and displacement makes: ${from} to ${to} times the usual resistance`,
    got: `${got < 0.01 ? 'under 0.01' : got.toFixed(2)} times it: look for a slip in speeds, areas, displacement or waterline`,
  }),
  boatPolarTooFast: (): Said => ({
    code: 'boat-polar-too-fast',
    expected: 'speeds at which the sails aboard still drive the boat',
    got: 'none',
  }),
  noPolars: (plans: readonly string[]): Said => ({
    code: 'no-polar',
    expected: 'a polar for every sail plan that follows from the sails',
    got: `none for ${plans.length} of them, which are never set: ${firstFew(plans)}`,
  }),
  noPolar: (): Said => ({
    code: 'no-polar',
    expected: 'a polar for every sail plan',
    got: 'none: this plan is never set',
  }),

  // Passage
  departureOutside: (from: string, to: string, shiftHours: number, got: string): Said => ({
    code: 'departure-outside',
    expected: `a departure from ${from} and before ${to}, the times of the forecast${shiftHours === 0 ? '' : ` moved by ${shiftHours} h`}`,
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
  unpaired: (departure: string): Said => ({
    code: 'unpaired',
    expected: 'a passage that the other study has too: of the same route, weather and start',
    got: `one from ${departure}`,
  }),
  sailedTwice: (more: number): Said => ({
    code: 'sailed-twice',
    expected: 'every passage once: of one boat, route, weather and start',
    got: `${more} again`,
  }),
  otherCurrency: (own: string, other: string): Said => ({
    code: 'other-currency',
    expected: `prices in ${own}, as the other boat's are: nothing is converted`,
    got: other,
  }),
  unlikeBoats: (): Said => ({
    code: 'unlike-boats',
    expected: 'the same as of the other boat, so that only their wardrobes are compared',
    got: 'another',
  }),
  noForestaySail: (): Said => ({
    code: 'no-forestay-sail',
    expected: 'a headsail on the forestay, which a poled-out headsail is a setting of',
    got: 'none',
  }),
  beyondCrew: (sail: string, hands: number, crew: number): Said => ({
    code: 'beyond-crew',
    expected: `${hands} hands for ${sail}, which it takes to set it or to take it down`,
    got: `a crew of ${crew}: it is never set`,
  }),
  rivalLeftOut: (kind: string, why: string): Said => ({
    code: 'rival-left-out',
    expected: `${kind} to compare with`,
    got: `that it cannot be tried: ${why}`,
  }),
  noneFinished: (paired: number): Said => ({
    code: 'none-finished',
    expected: 'a passage that both boats finish',
    got: `none of ${paired}`,
  }),
  sailUnused: (): Said => ({
    code: 'sail-unused',
    expected: 'a sail plan that sets every sail',
    got: 'none: this sail is never used',
  }),
  bridged: (maxHours: number, gaps: number, gapHours: number, from: string, to: string): Said => ({
    code: 'gap-bridged',
    expected: `times without gaps (up to ${maxHours} h are bridged)`,
    got: `${gaps === 1 ? 'a gap' : `${gaps} gaps, the longest`} of ${gapHours} h, from ${from} to ${to}: wind in between is drawn straight from one end to the other`,
  }),
  strongWind: (overKn: number, name: string, hours: number, first: string, most: string): Said => ({
    code: 'strong-wind',
    expected: `mean wind of no more than ${overKn} kn (${name})`,
    got: `${hours} h above it, first ${first}; most ${most}`,
  }),
  galeNear: (galeKn: number, withinNm: number, hours: number, nearest: string, strongest: string): Said => ({
    code: 'gale-near',
    expected: `no mean wind of ${galeKn} kn (gale) within ${withinNm} Nm of the boat`,
    got: `some in ${hours} h, nearest ${nearest}; strongest ${strongest}`,
  }),
  arrivalDark: (arrival: string, toLose: string, toGain: string): Said => ({
    code: 'arrival-dark',
    expected: 'arrival by daylight',
    got: `arrival in the dark at ${arrival}: ${toLose}, ${toGain}`,
  }),
  offTrack: (offTrackNm: number, passed: number): Said => ({
    code: 'off-track',
    expected: 'a position on the route',
    got: `one ${offTrackNm.toFixed(1)} Nm off it; waypoints left behind: ${passed}`,
  }),
  position: (got: string): Said => ({
    code: 'position',
    expected: "a position like 16.88,-24.98 or 16°52.8'N,024°58.8'W",
    got: quoted(got),
  }),
  otherStudy: (key: string, partial: string): Said => ({
    code: 'other-study',
    expected: `the files and options with which the study in this folder was begun, or another folder (without ${key} and ${partial} it is forgotten)`,
    got: 'other files or options, and a study that is not finished',
  }),
  studyInUse: (lockFile: string, pid: number): Said => ({
    code: 'study-in-use',
    expected: `a folder in which no other study is at work (${lockFile} tells of one; remove it if there is none)`,
    got: `process ${pid} at work`,
  }),
  metricOption: (metrics: readonly string[], got: string): Said => ({
    code: 'metric-option',
    expected: `what=number, like changes=0.5, what being one of ${oneOf(metrics)}`,
    got: quoted(got),
  }),
  startsOrder: (from: string, to: string): Said => ({
    code: 'starts-order',
    expected: `the last start not before the first, ${from}`,
    got: to,
  }),
  tooManyPassages: (most: number, got: number): Said => ({
    code: 'too-many-passages',
    expected: `at most ${most} passages`,
    got: `${got}`,
  }),
  waveOption: (got: string): Said => ({
    code: 'wave-option',
    expected: 'sail=metres, like vented=2.5',
    got: quoted(got),
  }),
  columnOption: (roles: readonly string[], got: string): Said => ({
    code: 'column-option',
    expected: `one of ${oneOf(roles)}, and the column that holds it: current_u=water_u:m/s`,
    got: quoted(got),
  }),
  newerFormat: (known: number, got: number): Said => ({
    code: 'newer-format',
    expected: `a format version up to ${known}`,
    got: `${got}: written by a newer windwardrobe`,
  }),
  otherKind: (wanted: string, got: string): Said => ({
    code: 'other-kind',
    expected: `a ${wanted}`,
    got: `what looks like a ${got}`,
  }),
  kindOfFile: (): Said => ({
    code: 'kind-of-file',
    expected: 'a route, forecast, climatology, boat, polars or plan',
    got: 'something else',
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
  if (flaw === 'unzoned') return says.instantUnzoned(text);
  const year = Number(/^\s*([+-]?\d{4,6})-\d\d-\d\d/.exec(text)?.[1] ?? FIRST_YEAR);
  return year < FIRST_YEAR || year > LAST_YEAR ? says.instantYear(text) : says.instantMalformed(text);
}
