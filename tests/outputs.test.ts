import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { parseXml, XmlElement, XmlText } from '@rgrove/parse-xml';
import { Ajv2020 } from 'ajv/dist/2020.js';
import ajvFormats from 'ajv-formats';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Boat,
  CAUTION,
  describeFault,
  type Forecast,
  type PassageOptions,
  type PlanToPrint,
  planJson,
  planMarkdown,
  planPassage,
  type Route,
  readBoat,
  readRoute,
  sailingBetween,
  totalsOf,
  totalsText,
  trackGeojson,
  trackGpx,
  type Waypoint,
} from '../src/index.js';
import { readPlan } from '../src/node/node.js';
import { faultsOf } from './support/faults.js';
import { BOAT as SMALL_BOAT } from './support/small.js';
import {
  BOAT,
  everyHours,
  type FieldAt,
  forecastOf,
  LATS,
  LONS,
  POLARS,
  steadyWind,
  T0,
  WEST,
} from './support/synthetic.js';
import { schemaTexts } from './tools/schemas.mjs';

const DEPARTURE = '2027-03-01T00:00:00Z';
const HOUR = 3600;

const waypoint = (name: string, latDeg: number, lonDeg: number, toNext?: Waypoint['toNext']): Waypoint => ({
  name,
  latDeg,
  lonDeg,
  ...(toNext === undefined ? {} : { toNext }),
});
const routeOf = (...waypoints: readonly Waypoint[]): Route => ({ waypoints });

/** A forecast on both sides of the date line, 165 E to 165 W. */
const pacific = (at: FieldAt, hours = 120): Forecast =>
  forecastOf(
    Array.from({ length: hours / 3 + 1 }, (_, i) => T0 + i * 3 * HOUR),
    [-24, -20, -16, -12, -8],
    [165, 169, 173, 177, 181, 185, 189, 193],
    at,
  );

/** Wind that changes with the hours since departure, and a current. */
const byHour =
  (
    windAt: (hour: number) => readonly [twsKn: number, fromDeg: number],
    current: readonly [number, number] = [0, 0],
  ): FieldAt =>
  (lat, lon, time) => {
    const [twsKn, fromDeg] = windAt((time - T0) / HOUR);
    return { ...steadyWind(twsKn, fromDeg)(lat, lon, time), currentEastKn: current[0], currentNorthKn: current[1] };
  };

interface Case {
  readonly route: Route;
  readonly forecast: Forecast;
  readonly boat?: Boat;
  readonly options?: Partial<PassageOptions>;
}

const EAST_TRADES = pacific(steadyWind(16, 100));
const WEST_WIND = pacific(steadyWind(18, 280));
const hourly = Array.from({ length: 49 }, (_, i) => T0 + i * HOUR);

/** Head wind of 70 kn, under which she heaves to, for some of the hours. */
const blowing = (from: number, to: number, current: readonly [number, number]) =>
  forecastOf(
    hourly,
    LATS,
    LONS,
    byHour((hour) => (hour >= from && hour <= to ? [70, 270] : [14, 0]), current),
  );

const CASES: Readonly<Record<string, Case>> = {
  'a plain one': { route: WEST, forecast: forecastOf(everyHours(6, 10), LATS, LONS, steadyWind(15, 80)) },
  'across the date line westwards': {
    route: routeOf(waypoint('A', -16, -175), waypoint('B', -18, 172)),
    forecast: EAST_TRADES,
  },
  'across the date line eastwards': {
    route: routeOf(waypoint('A', -16, 175), waypoint('B', -18, -172)),
    forecast: WEST_WIND,
  },
  'to and fro across the date line': {
    route: routeOf(
      waypoint('A', -16, 179.2),
      waypoint('B', -17, -179.3),
      waypoint('C', -17.5, 179.5),
      waypoint('D', -18, -179),
    ),
    forecast: pacific(steadyWind(14, 180)),
  },
  'from the date line westwards': {
    route: routeOf(waypoint('A', -16, 180), waypoint('B', -17, 178)),
    forecast: EAST_TRADES,
  },
  'from the date line eastwards': {
    route: routeOf(waypoint('A', -16, -180), waypoint('B', -17, -178)),
    forecast: WEST_WIND,
  },
  'to the date line from the west': {
    route: routeOf(waypoint('A', -16, 178.5), waypoint('B', -17, 180)),
    forecast: WEST_WIND,
  },
  'to the date line from the east': {
    route: routeOf(waypoint('A', -16, -178.5), waypoint('B', -17, -180)),
    forecast: EAST_TRADES,
  },
  'along the date line': {
    route: routeOf(waypoint('A', -20, 180), waypoint('B', -18, -180), waypoint('C', -16.5, 180)),
    forecast: EAST_TRADES,
  },
  'a waypoint on the date line': {
    route: routeOf(waypoint('A', -16, 179), waypoint('B', -16.5, -180), waypoint('C', -16, -179)),
    forecast: pacific(steadyWind(14, 180)),
  },
  'a waypoint a hand west of the date line': {
    route: routeOf(waypoint('A', -16, 179), waypoint('B', -16.5, 179.999998), waypoint('C', -16, -179)),
    forecast: pacific(steadyWind(14, 180)),
  },
  'great circles': {
    route: routeOf(waypoint('A', -12, 168, 'great-circle'), waypoint('B', -22, -169)),
    forecast: pacific(steadyWind(20, 330), 240),
  },
  'corners close together': {
    route: routeOf(
      waypoint('A', 16, -45),
      waypoint('B', 16.01, -45.02),
      waypoint('C', 16, -45.04),
      waypoint('D', 16.01, -45.05),
      waypoint('E', 15.5, -45.5),
    ),
    forecast: forecastOf(everyHours(6, 10), LATS, LONS, steadyWind(15, 80)),
  },
  'a round trip': {
    route: routeOf(waypoint('A', 16, -45), waypoint('B', 16, -46), waypoint('A again', 16, -45)),
    forecast: forecastOf(everyHours(6, 10), LATS, LONS, steadyWind(15, 0)),
  },
  'the forecast too short': {
    route: routeOf(waypoint('A', -16, -175), waypoint('B', -18, 172)),
    forecast: pacific(steadyWind(16, 100), 48),
  },
  'no wind further on': {
    route: WEST,
    forecast: forecastOf(everyHours(6, 10), LATS, LONS, (lat, lon, time) =>
      lon <= -50 ? { windEastKn: Number.NaN, windNorthKn: Number.NaN } : steadyWind(15, 80)(lat, lon, time),
    ),
  },
  'hove to all the way, set back': {
    route: routeOf(waypoint('A', 16, -46), waypoint('B', 16, -48)),
    forecast: blowing(0, 48, [1, 0]),
  },
  'hove to for some hours': {
    route: routeOf(waypoint('A', 16, -46), waypoint('B', 16, -48)),
    forecast: blowing(5, 9, [0.2, 0]),
  },
  // Sailed past C by a little, then driven back behind B.
  'hove to and driven back round two corners': {
    route: routeOf(
      waypoint('A', 16, -45),
      waypoint('B', 16.246, -45.57),
      waypoint('C', 16.25, -45.58),
      waypoint('D', 16, -47),
    ),
    forecast: blowing(8, 14, [2, 0]),
  },
  'hove to across the date line': {
    route: routeOf(waypoint('A', -16, 179.98), waypoint('B', -16, -179)),
    forecast: pacific(
      byHour((hour) => (hour < 12 ? [70, 280] : [14, 280])),
      96,
    ),
  },
  leeway: {
    route: WEST,
    forecast: forecastOf(everyHours(6, 10), LATS, LONS, steadyWind(15, 340)),
    boat: {
      ...BOAT,
      leeway: [
        [30, 6],
        [120, 0],
      ],
    },
  },
  'strong wind and a gap': {
    route: WEST,
    forecast: forecastOf(
      everyHours(3, 6).filter((time) => time <= T0 + 12 * HOUR || time >= T0 + 24 * HOUR),
      LATS,
      LONS,
      byHour((hour) => (hour > 12 && hour < 40 ? [37, 90] : [15, 80])),
    ),
  },
  'asked for otherwise': {
    route: WEST,
    forecast: forecastOf(everyHours(6, 10), LATS, LONS, steadyWind(15, 80)),
    options: { windFactor: 1.25, windShiftHours: -6, planSet: 'reef1+jib', without: ['vented', 'poled-jib'] },
  },
};

const INPUTS: PlanToPrint['inputs'] = (['route', 'boat', 'polars', 'forecast'] as const).map((role) => ({
  role,
  file: `${role}.csv`,
  sha256: 'a'.repeat(64),
}));

function planned({ route, forecast, boat = BOAT, options = {} }: Case): PlanToPrint {
  const passage = planPassage(
    { route, forecast, boat, polars: POLARS },
    { departure: DEPARTURE, choice: 'fastest', ...options },
  );
  return { passage, totals: totalsOf(passage, boat), boat, route, inputs: INPUTS };
}

const plans = Object.entries(CASES).map(([name, one]) => [name, planned(one)] as const);
const planOf = (name: keyof typeof CASES & string) => plans.find(([known]) => known === name)![1];

test('the passages below are what they are called', () => {
  const states = Object.fromEntries(plans.map(([name, { passage }]) => [name, passage.reason]));
  expect(Object.entries(states).filter(([, reason]) => reason !== null)).toEqual([
    ['the forecast too short', 'forecast-ended'],
    ['no wind further on', 'no-wind-data'],
    ['hove to all the way, set back', 'no-plan-allowed'],
  ]);
  const { hours } = planOf('hove to all the way, set back').passage;
  expect(hours.every(({ runNm, manner }) => runNm === 0 && manner === 'hove-to')).toBe(true);
  const back = planOf('hove to and driven back round two corners').passage.hours;
  expect(back.some(({ leg }, i) => i > 0 && leg === 1 && back[i - 1]!.leg === 3)).toBe(true);
  const some = planOf('hove to for some hours').passage.hours.map(({ manner }) => manner === 'hove-to');
  expect(some.filter(Boolean).length).toBeGreaterThan(3);
  expect(some.at(-1)).toBe(false);
  expect(planOf('leeway').passage.hours.some(({ leewayDeg }) => leewayDeg !== null && leewayDeg > 1)).toBe(true);
  const codes = planOf('strong wind and a gap').passage.warnings.map(({ code }) => code);
  expect(codes).toEqual(expect.arrayContaining(['strong-wind', 'gale-near', 'gap-bridged']));
});

/** Degrees apart in longitude, the shorter way. */
const lonApart = (one: number, other: number) => Math.abs(((((one - other) % 360) + 540) % 360) - 180);

/** What printing to five decimals loses. */
const PRINTED_DEG = 0.5e-5 + 1e-9;

interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}
const isNear = (one: Place, other: Place, withinDeg = PRINTED_DEG) =>
  Math.abs(one.latDeg - other.latDeg) <= withinDeg && lonApart(one.lonDeg, other.lonDeg) <= withinDeg;

/** Waypoints with their distances from the start, by the sailings of their legs. */
function milestones({ waypoints }: Route): (Waypoint & { readonly atNm: number })[] {
  let atNm = 0;
  return waypoints.map((here, i) => {
    const before = waypoints[i - 1];
    if (before !== undefined) {
      const great = sailingBetween(before, here, 'great-circle').distanceNm;
      const kind = before.toNext ?? (great > 500 ? 'great-circle' : 'rhumb');
      atNm += sailingBetween(before, here, kind).distanceNm;
    }
    return { ...here, atNm };
  });
}

const epochOf = (time: string) => Date.parse(time) / 1000;

interface Timed extends Place {
  readonly epochSeconds: number;
}

/** What must hold of a line sailed with its times, in whatever format. */
function expectLineSailed(points: readonly Timed[], { passage, route }: PlanToPrint): void {
  const { hours } = passage;
  expect(points[0]).toMatchObject({ epochSeconds: epochOf(passage.departure) });
  expect(isNear(points[0]!, route.waypoints[0]!)).toBe(true);
  const last = points.at(-1)!;
  expect(last.epochSeconds).toBe(epochOf(passage.end));
  if (passage.complete) expect(isNear(last, route.waypoints.at(-1)!)).toBe(true);
  points.forEach((point, i) => {
    if (i > 0) expect(point.epochSeconds).toBeGreaterThanOrEqual(points[i - 1]!.epochSeconds);
  });
  // Every hour's start stands there, in order.
  let from = 0;
  for (const hour of hours) {
    const found = points.findIndex(
      (point, i) => i >= from && point.epochSeconds === epochOf(hour.time) && isNear(point, hour),
    );
    expect(found, `the start of ${hour.time}`).toBeGreaterThanOrEqual(0);
    from = found;
  }
  // A waypoint passed within an hour, forwards or back, is a point of the line in that hour.
  const marks = milestones(route);
  let passed = 0;
  for (const hour of hours) {
    const [low, high] = [hour.distanceNm, hour.distanceNm + hour.runNm].sort((a, b) => a - b) as [number, number];
    for (const mark of marks) {
      if (mark.atNm <= low + 1e-6 || mark.atNm >= high - 1e-6) continue;
      passed += 1;
      const start = epochOf(hour.time);
      const [earliest, latest] = [start - 1, start + hour.minutes * 60 + 1];
      const inHour = points.filter(({ epochSeconds }) => epochSeconds >= earliest && epochSeconds <= latest);
      expect(
        inHour.some((point) => isNear(point, mark)),
        `${mark.name} in the hour from ${hour.time}`,
      ).toBe(true);
    }
  }
  if (passage.complete) expect(passed).toBeGreaterThanOrEqual(route.waypoints.length - 2 - hours.length);
}

describe('track.gpx', () => {
  // Elements in their order, from the schema of GPX 1.1 (namespace http://www.topografix.com/GPX/1/1), read in a public copy.
  const LINE = ['name', 'cmt', 'desc', 'src', 'link', 'number', 'type', 'extensions'];
  const POINT = [
    ...['ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link', 'sym', 'type', 'fix', 'sat'],
    ...['hdop', 'vdop', 'pdop', 'ageofdgpsdata', 'dgpsid', 'extensions'],
  ];
  const CHILDREN: Readonly<Record<string, readonly string[]>> = {
    gpx: ['metadata', 'wpt', 'rte', 'trk', 'extensions'],
    metadata: ['name', 'desc', 'author', 'copyright', 'link', 'time', 'keywords', 'bounds', 'extensions'],
    wpt: POINT,
    rte: [...LINE, 'rtept'],
    rtept: POINT,
    trk: [...LINE, 'trkseg'],
    trkseg: ['trkpt', 'extensions'],
    trkpt: POINT,
  };
  const MANY = ['wpt', 'rte', 'trk', 'link', 'rtept', 'trkpt', 'trkseg'];
  const ATTRIBUTES: Readonly<Record<string, readonly string[]>> = {
    gpx: ['version', 'creator', 'xmlns'],
    wpt: ['lat', 'lon'],
    rtept: ['lat', 'lon'],
    trkpt: ['lat', 'lon'],
  };

  const elementsOf = (parent: XmlElement) => parent.children.filter((child) => child instanceof XmlElement);

  function expectGpx(element: XmlElement): void {
    const { name, attributes } = element;
    expect(Object.keys(attributes), name).toEqual(ATTRIBUTES[name] ?? []);
    if ('lat' in attributes) {
      const [lat, lon] = [attributes.lat!, attributes.lon!];
      for (const text of [lat, lon]) expect(text).toMatch(/^-?\d{1,3}\.\d{5}$/);
      expect(`${lat} ${lon}`).not.toMatch(/-0\.0+(?!\d)/);
      expect(Math.abs(Number(lat))).toBeLessThanOrEqual(90);
      // The schema's longitudeType: minInclusive −180, maxExclusive 180.
      expect(Number(lon)).toBeGreaterThanOrEqual(-180);
      expect(Number(lon)).toBeLessThan(180);
    }
    const order = CHILDREN[name];
    if (order === undefined) {
      expect(
        element.children.every((child) => child instanceof XmlText),
        name,
      ).toBe(true);
      // xsd:dateTime in UTC.
      if (name === 'time') expect(element.text).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/);
      return;
    }
    const children = elementsOf(element);
    const places = children.map((child) => order.indexOf(child.name));
    expect(
      children.filter((_, i) => places[i]! < 0).map((child) => child.name),
      `what ${name} may not hold`,
    ).toEqual([]);
    expect(places, name).toEqual([...places].sort((a, b) => a - b));
    const once = children.map((child) => child.name).filter((child) => !MANY.includes(child));
    expect(new Set(once).size, name).toBe(once.length);
    expect(
      element.children.every((child) => child instanceof XmlElement || (child as XmlText).text.trim() === ''),
      name,
    ).toBe(true);
    children.forEach(expectGpx);
  }

  const gpxOf = (plan: PlanToPrint) => parseXml(trackGpx(plan)).root!;
  const all = (root: XmlElement, name: string): XmlElement[] =>
    elementsOf(root).flatMap((child) => (child.name === name ? [child] : all(child, name)));
  const placeOf = ({ attributes }: XmlElement) => ({
    latDeg: Number(attributes.lat),
    lonDeg: Number(attributes.lon),
  });
  const textIn = (element: XmlElement, name: string) => elementsOf(element).find((child) => child.name === name)!.text;
  const timed = (element: XmlElement): Timed => ({
    ...placeOf(element),
    epochSeconds: epochOf(textIn(element, 'time')),
  });

  test.each(plans)('is GPX 1.1: %s', (_, plan) => {
    const text = trackGpx(plan);
    expect(text.startsWith('<?xml version="1.0" encoding="UTF-8"?>\n<gpx ')).toBe(true);
    expect(text.endsWith('</gpx>\n')).toBe(true);
    const root = gpxOf(plan);
    expect(root.attributes).toEqual({
      version: '1.1',
      creator: 'windwardrobe',
      xmlns: 'http://www.topografix.com/GPX/1/1',
    });
    expectGpx(root);
    // GPX has no rule for the date line: one route and one track, not cut.
    for (const name of ['metadata', 'rte', 'trk', 'trkseg']) expect(all(root, name).length, name).toBe(1);
  });

  test.each(plans)('gives the drawn route back: %s', (_, plan) => {
    const { waypoints } = readRoute(trackGpx(plan), 'track.gpx');
    expect(waypoints.map(({ name }) => name)).toEqual(plan.route.waypoints.map(({ name }) => name));
    waypoints.forEach((here, i) => {
      expect(isNear(here, plan.route.waypoints[i]!), here.name).toBe(true);
    });
  });

  test.each(plans)('has the line sailed with its times: %s', (_, plan) => {
    const root = gpxOf(plan);
    const points = all(root, 'trkpt').map(timed);
    expectLineSailed(points, plan);
    // As points without their times they follow the track, within what five decimals lose.
    for (let i = 1; i < points.length; i += 1) {
      if (i > 1 && i < points.length - 1)
        expect(isNear(points[i]!, points[i - 1]!) && points[i]!.epochSeconds === points[i - 1]!.epochSeconds).toBe(
          false,
        );
    }
  });

  test.each(plans)('marks the start and each sail change: %s', (_, plan) => {
    const { hours } = plan.passage;
    const marked = hours.filter((hour, i) => i === 0 || hour.sailChange);
    const points = all(gpxOf(plan), 'wpt');
    expect(points.map((point) => [textIn(point, 'time'), textIn(point, 'name')])).toEqual(
      marked.map(({ time, sailPlan }) => [time, sailPlan ?? 'hove to']),
    );
    points.forEach((point, i) => {
      expect(isNear(placeOf(point), marked[i]!)).toBe(true);
      const { twsKn, awsKn, awaDeg } = marked[i]!;
      const angle = awaDeg === null ? '' : `, AWA ${Math.abs(awaDeg).toFixed(0)}°`;
      expect(textIn(point, 'desc')).toBe(`TWS ${twsKn.toFixed(0)} kn, AWS ${awsKn.toFixed(0)} kn${angle}`);
    });
  });

  test('says what it is, and that it is incomplete', () => {
    const about = (name: string) => {
      const [metadata] = all(gpxOf(planOf(name)), 'metadata');
      return [textIn(metadata!, 'name'), textIn(metadata!, 'desc')];
    };
    expect(about('a plain one')).toEqual(['Test boat: A to B', CAUTION]);
    const { distanceToGoNm } = planOf('the forecast too short').passage;
    expect(about('the forecast too short')[1]).toBe(
      `PLAN INCOMPLETE, ${distanceToGoNm.toFixed(0)} Nm to go. ${CAUTION}`,
    );
  });

  const plain = planOf('a plain one');
  const named = (name: string): PlanToPrint => ({
    ...plain,
    boat: { ...plain.boat, name },
    route: { waypoints: plain.route.waypoints.map((one) => ({ ...one, name })) },
  });

  test('names keep their marks', () => {
    const name = `Tom & Jerry's <Rock> "N" ]]> &amp; é ⛵ 港`;
    expect(readRoute(trackGpx(named(name))).waypoints.map((one) => one.name)).toEqual([name, name]);
    const text = trackGpx(named(name));
    expect(text).toContain('Tom &amp; Jerry&apos;s &lt;Rock&gt; &quot;N&quot; ]]&gt; &amp;amp; é ⛵ 港');
  });

  // XML 1.0 section 2.2: Char excludes most controls, U+FFFE, U+FFFF and half a surrogate pair.
  test.each([
    ['controls', 'a\u0000b\u0001c\u001fd\u007fe\u0085f'],
    ['line ends and tabs', 'a\nb\r\nc\td'],
    ['marks of writing direction', 'a\u202eb\u2066c'],
    ['what is no character', 'a\ufffeb\uffffc'],
    ['half a pair', 'a\ud800b'],
    ['the other half', 'a\udc00b'],
    ['a line separator', 'a\u2028b\u2029c'],
  ])('no name breaks it: %s', (_, name) => {
    const text = trackGpx(named(name));
    expect(Buffer.from(text, 'utf8').toString('utf8')).toBe(text);
    expect(() => parseXml(text)).not.toThrow();
    expect(readRoute(text).waypoints.map((one) => one.name)).toEqual(Array(2).fill(name.replace(/[^a-f]+/g, ' ')));
  });

  test('no name at all breaks it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), (name) => {
        const root = parseXml(trackGpx(named(name))).root!;
        expectGpx(root);
        expect(readRoute(trackGpx(named(name))).waypoints.length).toBe(2);
      }),
      { numRuns: 100 },
    );
  });
});

describe('track.geojson', () => {
  type Lon = number;
  type LonLat = readonly [Lon, number];
  type Geometry =
    | { readonly type: 'Point'; readonly coordinates: LonLat }
    | { readonly type: 'LineString'; readonly coordinates: readonly LonLat[] }
    | { readonly type: 'MultiLineString'; readonly coordinates: readonly (readonly LonLat[])[] };
  interface Feature {
    readonly type: 'Feature';
    readonly geometry: Geometry;
    readonly properties: Readonly<Record<string, unknown>>;
  }

  const featuresOf = (plan: PlanToPrint) => (JSON.parse(trackGeojson(plan)) as { features: Feature[] }).features;
  const ofKind = (plan: PlanToPrint, what: string) =>
    featuresOf(plan).filter(({ properties }) => properties.what === what);
  const partsOf = ({ geometry }: Feature): readonly (readonly LonLat[])[] => {
    if (geometry.type === 'Point') return [[geometry.coordinates]];
    return geometry.type === 'LineString' ? [geometry.coordinates] : geometry.coordinates;
  };
  const place = ([lonDeg, latDeg]: LonLat): Place => ({ latDeg, lonDeg });
  const isEdge = (lonDeg: number | undefined) => Math.abs(lonDeg ?? 0) === 180;

  function expectRfc7946(plan: PlanToPrint): void {
    const text = trackGeojson(plan);
    const corners = plan.route.waypoints
      .filter(({ lonDeg }) => lonApart(lonDeg, 180) < 1e-5)
      .map(({ latDeg }) => latDeg);
    const json = JSON.parse(text) as Record<string, unknown>;
    expect(Object.keys(json)).toEqual(['type', 'features']);
    expect(json.type).toBe('FeatureCollection');
    // Section 4: the coordinate reference system of an older version is no more.
    expect(text).not.toContain('"crs"');
    for (const feature of json.features as Feature[]) {
      // Section 3.2: exactly these members, of which properties is an object or null.
      expect(Object.keys(feature).sort()).toEqual(['geometry', 'properties', 'type']);
      expect(feature.type).toBe('Feature');
      expect(['waypoint', 'hour', 'start', 'sail-change', 'end']).toContain(feature.properties.what);
      expect(Object.keys(feature.geometry).sort()).toEqual(['coordinates', 'type']);
      const parts = partsOf(feature);
      for (const [lonDeg, latDeg, ...more] of parts.flat()) {
        expect(more).toEqual([]);
        expect(Math.abs(lonDeg)).toBeLessThanOrEqual(180);
        expect(Math.abs(latDeg)).toBeLessThanOrEqual(90);
        expect(Object.is(lonDeg, -0) || Object.is(latDeg, -0)).toBe(false);
      }
      if (feature.geometry.type === 'Point') continue;
      for (const part of parts) {
        // Section 3.1.4: two positions or more.
        expect(part.length).toBeGreaterThanOrEqual(2);
        // Section 3.1.9: no part crosses; as steps here are short, none is long in longitude either.
        part.forEach(([lonDeg], i) => {
          if (i > 0) expect(Math.abs(lonDeg - part[i - 1]![0])).toBeLessThan(5);
        });
      }
      // The parts touch on exactly 180 and −180, at the latitude that is linear in longitude between the points around.
      parts.forEach((part, i) => {
        const before = parts[i - 1];
        if (before === undefined) return;
        const [end, begin] = [before.at(-1)!, part[0]!];
        expect(isEdge(end[0]) && begin[0] === -end[0]).toBe(true);
        expect(begin[1]).toBe(end[1]);
        const [one, other] = [before.at(-2)!, part[1]!];
        const turn = 360 * Math.sign(end[0]);
        const share = (end[0] - one[0]) / (other[0] + turn - one[0]);
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
        // A waypoint on the date line is a corner: the line is not straight there.
        if (corners.includes(end[1])) return;
        expect(Math.abs(end[1] - (one[1] + share * (other[1] - one[1])))).toBeLessThan(1e-9);
      });
      expect(feature.geometry.type === 'MultiLineString').toBe(parts.length > 1);
    }
  }

  test.each(plans)('is GeoJSON: %s', (_, plan) => {
    expectRfc7946(plan);
  });

  test.each(plans)('has what the log has: %s', (_, plan) => {
    const { passage, route } = plan;
    const what = featuresOf(plan).map(({ properties }) => properties.what);
    const changes = passage.hours.filter((hour, i) => i > 0 && hour.sailChange);
    expect(what).toEqual([
      ...route.waypoints.map(() => 'waypoint'),
      ...passage.hours.map(() => 'hour'),
      'start',
      ...changes.map(() => 'sail-change'),
      'end',
    ]);
    ofKind(plan, 'waypoint').forEach(({ geometry, properties }, i) => {
      const mark = route.waypoints[i]!;
      expect(properties).toEqual({ what: 'waypoint', name: mark.name });
      expect(geometry.type).toBe('Point');
      expect(isNear(place(geometry.coordinates as LonLat), mark)).toBe(true);
    });
    const round = (value: number | null) => (value === null ? null : Math.round(value * 1000) / 1000);
    const expectHour = ({ properties }: Feature, hour: (typeof passage.hours)[number], kind: string) => {
      const close = (actual: unknown, value: number | null) => {
        if (value === null) expect(actual).toBeNull();
        else expect(actual).toBeCloseTo(round(value)!, 2.5);
      };
      const { what: _what, ...rest } = properties;
      expect(_what).toBe(kind);
      expect(rest).toMatchObject({
        time: hour.time,
        sail_plan: hour.sailPlan,
        sail_change: hour.sailChange,
        manner: hour.manner,
        daylight: hour.daylight,
        runner_up: hour.runnerUp,
      });
      close(rest.tws_kn, hour.twsKn);
      close(rest.twd_deg, hour.twdDeg);
      close(rest.gust_kn, hour.gustKn);
      close(rest.twa_deg, hour.twaDeg);
      close(rest.aws_kn, hour.awsKn);
      close(rest.awa_deg, hour.awaDeg);
      close(rest.smg_kn, hour.smgKn);
      close(rest.run_nm, hour.runNm);
      close(rest.margin_kn, hour.marginKn);
      close(rest.wave_height_m, hour.waveHeightM);
    };
    ofKind(plan, 'hour').forEach((feature, i) => {
      expectHour(feature, passage.hours[i]!, 'hour');
    });
    const [start, ...others] = [...ofKind(plan, 'start'), ...ofKind(plan, 'sail-change')];
    expectHour(start!, passage.hours[0]!, 'start');
    others.forEach((feature, i) => {
      expectHour(feature, changes[i]!, 'sail-change');
      expect(isNear(place(feature.geometry.coordinates as LonLat), changes[i]!)).toBe(true);
    });
    const [end] = ofKind(plan, 'end');
    expect(end!.properties).toEqual({
      what: 'end',
      time: passage.end,
      complete: passage.complete,
      reason: passage.reason,
    });
    if (passage.complete)
      expect(isNear(place(end!.geometry.coordinates as LonLat), route.waypoints.at(-1)!)).toBe(true);
  });

  test.each(plans)('draws each hour from where it begins to where the next one does: %s', (_, plan) => {
    const { hours } = plan.passage;
    const lines = ofKind(plan, 'hour').map(partsOf);
    const marks = milestones(plan.route);
    lines.forEach((parts, i) => {
      const points = parts.flat().map(place);
      expect(isNear(points[0]!, hours[i]!)).toBe(true);
      const next = hours[i + 1];
      if (next !== undefined) expect(isNear(points.at(-1)!, next)).toBe(true);
      const { distanceNm, runNm } = hours[i]!;
      const [low, high] = [Math.min(distanceNm, distanceNm + runNm), Math.max(distanceNm, distanceNm + runNm)];
      for (const mark of marks) {
        if (mark.atNm > low + 1e-6 && mark.atNm < high - 1e-6)
          expect(
            points.some((point) => isNear(point, mark)),
            mark.name,
          ).toBe(true);
      }
    });
  });

  test.each([
    ['across the date line westwards', 1],
    ['across the date line eastwards', 1],
    ['to and fro across the date line', 3],
    ['from the date line westwards', 0],
    ['from the date line eastwards', 0],
    ['to the date line from the west', 0],
    ['to the date line from the east', 0],
    ['along the date line', 0],
    ['hove to across the date line', 1],
  ])('%s it is cut %i times', (name, cuts) => {
    const cut = ofKind(planOf(name), 'hour').filter(({ geometry }) => geometry.type === 'MultiLineString');
    expect(cut.length).toBe(cuts);
  });

  test('on a route cut by a waypoint on the date line each hour stays on its side', () => {
    const plan = planOf('a waypoint on the date line');
    for (const feature of ofKind(plan, 'hour')) expect(partsOf(feature).flat().length).toBeGreaterThanOrEqual(2);
    expectRfc7946(plan);
  });

  test('an hour without way is a line of one place twice', () => {
    const plan = planOf('hove to all the way, set back');
    for (const { geometry } of ofKind(plan, 'hour')) {
      expect(geometry).toEqual({
        type: 'LineString',
        coordinates: [
          [-46, 16],
          [-46, 16],
        ],
      });
    }
  });

  test('any route in the waters of the date line gives valid files', () => {
    const at = fc.tuple(fc.integer({ min: -2300, max: -900 }), fc.integer({ min: 16600, max: 19200 }));
    fc.assert(
      fc.property(
        fc.uniqueArray(at, { minLength: 2, maxLength: 6, selector: String }),
        fc.integer({ min: 0, max: 359 }),
        (all, from) => {
          const route = routeOf(
            ...all.map(([lat, lon], i) => waypoint(`${i}`, lat / 100, lon / 100 >= 180 ? lon / 100 - 360 : lon / 100)),
          );
          const plan = planned({
            route,
            forecast: pacific(
              byHour((hour) => [15, from + hour], [0.5, -0.5]),
              48,
            ),
          });
          expectRfc7946(plan);
          const points = parseXml(trackGpx(plan)).root!;
          const track = points.children.filter((child) => child instanceof XmlElement && child.name === 'trk');
          expect(track.length).toBe(1);
          const back = readRoute(trackGpx(plan)).waypoints;
          expect(back.every((here, i) => isNear(here, route.waypoints[i]!))).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });
});

const schemaOf = (name: string) =>
  JSON.parse(readFileSync(`docs/schemas/${name}.schema.json`, 'utf8')) as Record<string, unknown>;
const ajv = new Ajv2020({ allErrors: true, strict: true });
ajvFormats.default(ajv);
const isPlan = ajv.compile(schemaOf('plan'));
const isBoat = ajv.compile(schemaOf('boat'));

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Every place of a JSON value, as keys from its root. */
function placesIn(value: Json, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  const entries = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([key, inner]) => placesIn(inner, [...path, key]))];
}

/** A copy with another value at a place; undefined takes the key or item away. */
function withAt(value: Json, path: readonly (string | number)[], put: Json | undefined): Json {
  const copy = structuredClone(value);
  const [last, ...up] = [...path].reverse();
  if (last === undefined) return put ?? null;
  let at = copy as Record<string | number, Json>;
  for (const key of up.reverse()) at = at[key] as Record<string | number, Json>;
  if (put !== undefined) at[last] = put;
  else if (Array.isArray(at)) at.splice(last as number, 1);
  else delete at[last];
  return copy;
}

const PUT: readonly (Json | undefined)[] = [
  ...[undefined, null, true, '', 'x', 'main', -1, 0, 1, 1.5, 45, 1e9, [], {}, [[1]], [[1, 2]], [[1, 2, 3]], { x: 1 }],
  ...['2027-03-01', '2027-03-01T00:00:00Z', '2027-13-01T00:00:00Z', ['main'], [1, 2]],
];

describe('schemas', () => {
  test('what is published is what the tool makes of the readers', () => {
    const texts = schemaTexts();
    expect(readdirSync('docs/schemas').sort()).toEqual(Object.keys(texts).sort());
    for (const [name, text] of Object.entries(texts)) expect(readFileSync(`docs/schemas/${name}`, 'utf8')).toBe(text);
  });

  test.each(['boat', 'plan'])('%s is draft 2020-12, with a title', (name) => {
    expect(schemaOf(name)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', type: 'object' });
    expect(schemaOf(name).title).toMatch(/windwardrobe/);
  });

  test.each(['boat', 'plan'])('%s is found by the name of the package', (name) => {
    const script = `console.log(import.meta.resolve('windwardrobe/schemas/${name}.schema.json'))`;
    const found = execFileSync('node', ['--input-type=module', '-e', script], { encoding: 'utf8' }).trim();
    expect(readFileSync(new URL(found), 'utf8')).toBe(readFileSync(`docs/schemas/${name}.schema.json`, 'utf8'));
  });
});

describe('plan.json', () => {
  test.each(plans)('is what its schema says, and is read back: %s', (_, plan) => {
    const text = planJson(plan);
    const json = JSON.parse(text) as Json;
    expect(isPlan(json), JSON.stringify(isPlan.errors)).toBe(true);
    const read = readPlan(text);
    expect(read).toEqual(json);
    expect(read).toMatchObject({
      formatVersion: 1,
      complete: plan.passage.complete,
      reason: plan.passage.reason,
      departure: plan.passage.departure,
      end: plan.passage.end,
      boat: plan.boat.name,
      warnings: plan.passage.warnings,
      inputs: plan.inputs,
      totals: { arrival: plan.totals.arrival, sailChanges: plan.totals.sailChanges },
    });
    expect(read.hours.length).toBe(plan.passage.hours.length);
    read.hours.forEach((hour, i) => {
      for (const [key, value] of Object.entries(plan.passage.hours[i]!)) {
        const written = hour[key as keyof typeof hour];
        if (typeof value === 'number') expect(written).toBeCloseTo(value, 5.5);
        else expect(written).toEqual(value);
      }
    });
    // A byte order mark, which editors leave, does not matter.
    expect(readPlan(`\ufeff${text}`)).toEqual(json);
  });

  const json = JSON.parse(planJson(planOf('the forecast too short'))) as { [key: string]: Json };
  const reading = (value: unknown) => faultsOf(() => readPlan(JSON.stringify(value)));

  test('of a newer format nothing else is said', () => {
    expect(reading({ ...json, formatVersion: 2, hours: 'elsewhere', more: 1 })).toEqual([
      'plan.json, formatVersion: expected a format version up to 1, got 2: written by a newer windwardrobe',
    ]);
    expect(reading({ formatVersion: 1.5 })).toEqual([
      'plan.json, formatVersion: expected a format version up to 1, got 1.5: written by a newer windwardrobe',
    ]);
  });

  test.each<[string, unknown, string]>([
    [
      'an older version',
      { ...json, formatVersion: 0 },
      'plan.json, formatVersion: expected the format version 1, got 0',
    ],
    [
      'a version in words',
      { ...json, formatVersion: '2' },
      'plan.json, formatVersion: expected the format version 1, got "2"',
    ],
    [
      'a missing key',
      withAt(json, ['totals', 'hours'], undefined),
      'plan.json, totals.hours: expected a value, got nothing',
    ],
    [
      'an unknown key',
      withAt(json, ['hours', 0, 'twskn'], 1),
      /^plan\.json, hours\[0\]\.twskn: expected one of time, latDeg, .*, got "twskn" \(did you mean "twsKn"\?\)$/ as unknown as string,
    ],
    [
      'a text for a number',
      withAt(json, ['hours', 1, 'twsKn'], '12'),
      'plan.json, hours[1].twsKn: expected a number, got "12"',
    ],
    [
      'a time that is none',
      withAt(json, ['end'], 'tomorrow'),
      'plan.json, end: expected a time in UTC, got "tomorrow"',
    ],
    [
      'another reason',
      withAt(json, ['reason'], 'forecast-end'),
      'plan.json, reason: expected one of forecast-ended, no-wind-data, no-plan-allowed, too-slow, got "forecast-end" (did you mean "forecast-ended"?)',
    ],
    [
      'a house rule that is none among the placeholders',
      withAt(json, ['options', 'placeholders'], ['tackMinute']),
      'plan.json, options.placeholders[0]: expected one of gustFactor, gustMargin, tackMinutes, gybeMinutes, tackEveryHours, gybeEveryHours, skipperFactor, pricePerChangeMinutes, wakeMinutes, leastHoursBetweenChanges, changesInDark, nightReefAboveKn, waveMaxM, gybesByDay, squalls, squallFactor, squallChance, squallThreshold, motorBelowKn, motorPriceMinutes, got "tackMinute" (did you mean "tackMinutes"?)',
    ],
    ['a list', [], /^plan\.json: expected an object with formatVersion, .*, got a list of 0$/ as unknown as string],
    ['nothing', null, /^plan\.json: expected an object with formatVersion, .*, got null$/ as unknown as string],
  ])('that is broken: %s', (_, value, message) => {
    const told = reading(value);
    expect(told.length).toBe(1);
    expect(told[0]).toEqual(typeof message === 'string' ? message : expect.stringMatching(message));
    expect(isPlan(value)).toBe(false);
  });

  test('that is no JSON', () => {
    expect(faultsOf(() => readPlan('', 'mine.json'))).toEqual(['mine.json: expected a JSON text, got nothing']);
    expect(faultsOf(() => readPlan('{"formatVersion": 1,', 'mine.json'))).toEqual([
      'mine.json, line 1: expected a JSON text, got its end too early',
    ]);
    expect(faultsOf(() => readPlan('{"formatVersion": 1, "formatVersion": 1}', 'mine.json'))).toEqual([
      'mine.json, line 1, formatVersion: expected this key once, got it again',
    ]);
  });

  test('the schema and the reader agree about any plan with a value put in place of another', () => {
    // Two rows and a warning are enough of it.
    const short = {
      ...json,
      hours: (json.hours as Json[]).slice(0, 2),
      warnings: (json.warnings as Json[]).slice(0, 1),
    };
    const places = placesIn(short).filter((path) => path.length > 0);
    let bad = 0;
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.constantFrom(...PUT), (path, put) => {
        const changed = withAt(short, path, put);
        const isGood = reading(changed).length === 0;
        if (!isGood) bad += 1;
        expect(isPlan(changed), `${path.join('.')} = ${JSON.stringify(put)}`).toBe(isGood);
      }),
      { numRuns: 1500, seed: 7 },
    );
    expect(bad).toBeGreaterThan(500);
  });
});

describe('boat.schema.json', () => {
  const good = JSON.parse(SMALL_BOAT) as Json;

  test.each([
    ['the sample', JSON.parse(readFileSync('data-samples/boat.json', 'utf8')) as Json],
    ['the small one', good],
    [
      'one with leeway',
      withAt(
        good,
        ['leeway'],
        [
          [30, 6],
          [120, 0],
        ],
      ),
    ],
    ['one with a polar for each plan', withAt(good, ['polars'], { main: 'a.csv', 'reef1+jib': 'b.csv' })],
    [
      'one that refers her polars',
      { ...(good as object), polarWindHeightM: 12, polarTwaReference: 'heading', polarStatus: 'designed' } as Json,
    ],
  ])('takes what is read: %s', (_, boat) => {
    expect(faultsOf(() => readBoat(JSON.stringify(boat)))).toEqual([]);
    expect(isBoat(boat), JSON.stringify(isBoat.errors)).toBe(true);
  });

  test.each<[string, readonly (string | number)[], Json | undefined]>([
    ['no name', ['name'], undefined],
    ['an empty name', ['name'], ''],
    ['a name too long', ['name'], 'x'.repeat(201)],
    ['a currency in small letters', ['currency'], 'eur'],
    ['nobody aboard', ['crew'], 0],
    ['half a hand', ['crew'], 2.5],
    ['no hull', ['hull'], undefined],
    ['three hulls', ['hull', 'type'], 'trimaran'],
    ['a hull in feet', ['hull', 'waterlineFt'], 43],
    ['no hull', ['hull'], undefined],
    ['no kind', ['sails', 1, 'kind'], undefined],
    ['an empty list of sail plans', ['sailPlans'], []],
    ['a sail set by magic', ['sails', 1, 'setBy'], 'magic'],
    ['a furl by nobody', ['sails', 1, 'operations'], { furl: { day: { hands: 0 } } }],
    ['a rig of feet', ['rig'], { iFt: 50 }],
    ['polars by number', ['polars'], 5],
    ['a list of polars', ['polars'], ['polars.csv']],
    ['polars without a path', ['polars'], { main: '' }],
    ['leeway without points', ['leeway'], []],
    ['half a point of leeway', ['leeway'], [[30]]],
    ['too much of a point of leeway', ['leeway'], [[30, 6, 1]]],
    ['leeway beyond sense', ['leeway'], [[30, 21]]],
    ['wind at the mast of a giant', ['polarWindHeightM'], 61],
    ['another status', ['polarStatus'], 'guessed'],
    ['no sails', ['sails'], []],
    ['an id in capitals', ['sails', 0, 'id'], 'Main'],
    ['an id that begins with a mark', ['sails', 0, 'id'], '-main'],
    ['another kind', ['sails', 0, 'kind'], 'kite'],
    ['an area in words', ['sails', 0, 'areaM2'], '78'],
    ['no area to speak of', ['sails', 0, 'areaM2'], 0.4],
    ['daylight in words', ['sails', 0, 'daylightOnly'], 'yes'],
    ['an angle below 0', ['sails', 1, 'window', 'awaMinDeg'], -1],
    ['an angle beyond 180', ['sails', 1, 'window', 'awaMaxDeg'], 181],
    ['a limit of nothing', ['sails', 0, 'window', 'awsMaxKn'], 0],
    ['a limit without points', ['sails', 0, 'window', 'awsMaxKn'], []],
    ['half a point of a limit', ['sails', 0, 'window', 'awsMaxKn'], [[60]]],
    ['ten reefs', ['sails', 0, 'reefs'], Array.from({ length: 10 }, (_, i) => ({ areaShare: 0.9 - i / 20 }))],
    ['a reef that takes nothing away', ['sails', 0, 'reefs', 0, 'areaShare'], 1],
    ['a plan of a number', ['sailPlans', 0, 'sails'], [1]],
    ['gusts of five', ['house', 'gustFactor'], 5],
    ['another rule', ['house', 'tackMinuts'], 3],
    ['null', [], null],
    ['a list', [], []],
  ])('refuses what the reader refuses: %s', (_, path, put) => {
    const boat = withAt(good, path, put);
    expect(faultsOf(() => readBoat(JSON.stringify(boat))).length).toBeGreaterThan(0);
    expect(isBoat(boat)).toBe(false);
  });

  test('never refuses a boat that the reader takes', () => {
    const places = placesIn(good).filter((path) => path.length > 0);
    let taken = 0;
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.constantFrom(...PUT), (path, put) => {
        const boat = withAt(good, path, put);
        if (faultsOf(() => readBoat(JSON.stringify(boat))).length > 0) return;
        taken += 1;
        expect(isBoat(boat), `${path.join('.')} = ${JSON.stringify(put)}`).toBe(true);
      }),
      { numRuns: 1500, seed: 7 },
    );
    expect(taken).toBeGreaterThan(50);
  });
});

describe('what people read', () => {
  const firstLine = (text: string) => text.split('\n')[0];

  test.each(plans)('opens with the caution, and with what is missing: %s', (_, plan) => {
    const { complete, reason, end, distanceToGoNm } = plan.passage;
    const why = {
      'forecast-ended': 'the forecast ends before the passage does',
      'no-wind-data': 'no wind is known where the boat is then',
      'too-slow': 'she takes longer than 2 kn and ten days would',
      'no-plan-allowed': 'no sail plan was ever allowed and the boat could go nowhere',
    };
    const first = complete
      ? CAUTION
      : `PLAN INCOMPLETE: ${why[reason!]}, at ${end} with ${distanceToGoNm.toFixed(0)} Nm to go. ${CAUTION}`;
    expect(firstLine(planMarkdown(plan))).toBe(`**${first}**`);
    expect(firstLine(totalsText(plan))).toBe(first);
    const printed = totalsText(plan).split('\n');
    for (const warning of plan.passage.warnings) expect(printed).toContain(`  ${describeFault(warning)}`);
  });

  const otherwise = ['Wind ', 'Weather ', 'Set at departure', 'Without '];

  test('tells what was asked for otherwise', () => {
    const plan = planOf('asked for otherwise');
    const told = totalsText(plan).split('\n');
    expect(told).toContain("Wind              the forecast's × 1.25");
    expect(told).toContain('Weather           6 h earlier than forecast');
    expect(told).toContain('Set at departure  reef1+jib');
    expect(told).toContain('Without           vented, poled-jib');
    const markdown = planMarkdown(plan).split('\n');
    expect(markdown).toContain("| Wind | the forecast's × 1.25 |");
    expect(markdown).toContain('| Weather | 6 h earlier than forecast |');
    expect(markdown).toContain('| Set at departure | reef1+jib |');
    expect(markdown).toContain('| Without | vented, poled-jib |');
    const late = planned({
      ...CASES['a plain one']!,
      options: { windShiftHours: 1.5, departure: '2027-03-01T02:00Z' },
    });
    expect(totalsText(late)).toContain('Weather           1.5 h later than forecast');
  });

  test('and nothing of it where nothing was', () => {
    const told = totalsText(planOf('a plain one')).split('\n');
    expect(told.filter((line) => otherwise.some((label) => line.startsWith(label)))).toEqual([]);
  });

  test('the plan set at departure that is taken down is the first sail change', () => {
    const plan = planOf('asked for otherwise');
    const [first] = plan.passage.hours;
    expect(first).toMatchObject({ sailChange: true, sailPlan: 'main+jib' });
    const rows = planMarkdown(plan)
      .split('\n')
      .filter((line) => line.startsWith(`| ${first!.time} |`));
    expect(rows.length).toBe(1);
    expect(rows[0]).toMatch(/\| reef1\+jib \| main\+jib \|/);
    const opening = (of: typeof plan) => /^## Sail changes\n\n(.*)/m.exec(planMarkdown(of))![1];
    expect(opening(plan)).toMatch(
      /^Set before departure: reef1\+jib; at departure it is changed to main\+jib, which is the first row\. Times are UTC/,
    );
    // As it is told, what stays and what is taken down; and nothing is known to be set without it.
    const setBefore = (planSet: string | null) =>
      opening({ ...plan, passage: { ...plan.passage, options: { ...plan.passage.options, planSet } } });
    expect(setBefore('main+jib')).toMatch(/^Set before departure, and she sets out under it: main\+jib\. /);
    expect(setBefore(null)).toMatch(/^At departure: main\+jib\. /);
    const [, ...later] = plan.passage.hours;
    const hove = { ...plan, passage: { ...plan.passage, hours: [{ ...first!, sailPlan: null }, ...later] } };
    expect(opening(hove)).toMatch(
      /^Set before departure: reef1\+jib; at departure it is taken down, which is the first row\. /,
    );
    // The same sails with another reef: a reef, and among the sail changes.
    expect(plan.totals.sailChanges).toBe(plan.passage.hours.filter(({ sailChange }) => sailChange).length);
    expect(plan.totals.reefChanges).toBeGreaterThanOrEqual(1);
  });
});
