import { mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { run } from '../src/cli/cli.js';
import { crewWarnings, rivalsOf, unlikeWarnings } from '../src/cli/worthSides.js';
import {
  boatWith,
  describeFault,
  drawnFrom,
  estimatePolars,
  type Fault,
  InputError,
  type PassageInputs,
  type PassageOptions,
  type PassageRecord,
  planPassage,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
  routeFrom,
  startsOf,
  totalsOf,
  wardrobeWarnings,
  worthOf,
} from '../src/index.js';
import { landOf, landOnTrack } from '../src/land/land.js';
import { loadInputs as pageInputs } from '../src/load/load.js';
import { LARGEST_FILES_MIB, loadBoat, loadInputs, readPlan, readTextFile } from '../src/node/node.js';
import { serveFolder } from '../src/node/servePage.js';
import { droppedFiles } from '../src/page/dropped.js';
import { says } from '../src/wording.js';
import { MONTHLY } from './support/monthly.js';
import { always, BOAT, changed, FORECAST, forecastCsv, POLARS, ROUTE, TIMES, WIND } from './support/small.js';

type Sentence = keyof typeof says;

const keyOf = ({ code, expected, got }: Pick<Fault, 'code' | 'expected' | 'got'>) => [code, expected, got].join('\n');

/** Which entry of the wording made a fault, and which entries the messages asserted here came from. */
const madeBy = new Map<string, Sentence>();
const seen = new Set<Sentence>();
// Several entries share a code, so each is wrapped to note what it said.
for (const sentence of Object.keys(says) as Sentence[]) {
  const said = says[sentence] as (...args: readonly never[]) => Pick<Fault, 'code' | 'expected' | 'got'>;
  Object.assign(says, {
    [sentence]: (...args: readonly never[]) => {
      const result = said(...args);
      madeBy.set(keyOf(result), sentence);
      return result;
    },
  });
}

/** The faults as they are printed, one a line. */
function messagesOf(faults: readonly Fault[]): string[] {
  for (const fault of faults) {
    const sentence = madeBy.get(keyOf(fault));
    if (sentence !== undefined) seen.add(sentence);
  }
  return faults.map(describeFault);
}

/** What reading something bad says; none where it is taken for good. */
async function faultsOf(action: () => unknown): Promise<string[]> {
  try {
    await action();
    return [];
  } catch (error) {
    if (error instanceof InputError) return messagesOf(error.faults);
    throw error;
  }
}

type Case = readonly [what: string, text: string, messages: readonly string[]];

const forecastOf = (text: string) => ({ name: 'forecast.csv', open: () => [text] });
const route = (...rows: readonly string[]) => `${['name,lat,lon,to_next', ...rows].join('\n')}\n`;
/** A forecast of one row under time, lat, lon, u10 and v10. */
const rowOf = (...cells: readonly string[]) => `time,lat,lon,u10,v10\n${cells.join(',')}\n`;
const rowAt = (time: string) => rowOf(time, '10', '-60', '-8', '1');

test('the small inputs are good', async () => {
  const boat = readBoat(BOAT);
  const { forecast, warnings } = await readForecast(forecastOf(FORECAST));
  const passage = planPassage(
    { route: readRoute(ROUTE), forecast, boat, polars: readPolars(POLARS, { boat }) },
    { departure: TIMES[0]! },
  );
  expect(passage).toMatchObject({ complete: true, warnings: [] });
  expect(warnings).toEqual([]);
});

describe('route', () => {
  const LATITUDE = `route.csv, line 2, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got`;
  test.each([
    ['91', '"91"'],
    ['-90.5', '"-90.5"'],
    ['abc', '"abc"'],
    ['', '""'],
    ["16°60.0'N", `"16°60.0'N"`],
    [`16°52'60"S`, `"16°52'60\\"S"`],
    ["16°52.8'E", `"16°52.8'E"`],
    ["16°52.8'", `"16°52.8'"`],
    ['16 52.8', '"16 52.8"'],
    ["N16°52.8'N", `"N16°52.8'N"`],
    ["16.5°30'N", `"16.5°30'N"`],
    ["-16°52.8'S", `"-16°52.8'S"`],
    ['−16.88', '"−16.88"'],
    ['1e1', '"1e1"'],
    ['"16,88"', '"16,88" (a decimal comma?)'],
    // The degree sign of a file that is not UTF-8.
    ["16\ufffd52.8'N", `"16\ufffd52.8'N"`],
  ])('latitude %s', async (cell, got) => {
    const text = route(`Start,${cell},-60.5,`, 'End,11,-61.5,');
    expect(await faultsOf(() => readRoute(text))).toEqual([`${LATITUDE} ${got}`]);
  });

  const LONGITUDE = `route.csv, line 3, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got`;
  test.each([
    ['361', '"361"'],
    ['-180.5', '"-180.5"'],
    ['181W', '"181W"'],
    ['20N', '"20N"'],
    ["59°60.0'W", `"59°60.0'W"`],
    ["-59°30'W", `"-59°30'W"`],
    ['west', '"west"'],
  ])('longitude %s', async (cell, got) => {
    const text = route('Start,11.5,-60.5,', `End,11,${cell},`);
    expect(await faultsOf(() => readRoute(text))).toEqual([`${LONGITUDE} ${got}`]);
  });

  const cases: readonly Case[] = [
    ['an empty file', '', ['route.csv: expected a header line and at least one row, got none']],
    ['blank lines only', '\n\n \n', ['route.csv: expected a header line and at least one row, got none']],
    ['a header only', route(), ['route.csv: expected a header line and at least one row, got only a header line']],
    [
      'a missing and an unknown column',
      changed(ROUTE, 'name,lat,', 'name,latt,'),
      [
        'route.csv, line 1, column lat: expected this column in the header, got only "name, latt, lon, to_next"',
        'route.csv, line 1: expected one of name, lat, lon, to_next, got "latt" (did you mean "lat"?)',
      ],
    ],
    [
      'an unknown column far from any other',
      'name,lat,lon,remarks\nStart,11.5,-60.5,\nEnd,11,-61.5,\n',
      ['route.csv, line 1: expected one of name, lat, lon, to_next, got "remarks"'],
    ],
    [
      'a repeated column',
      'name,lat,lon,lat\nStart,11.5,-60.5,11.5\nEnd,11,-61.5,11\n',
      ['route.csv, line 1, column lat: expected this column once, got it again'],
    ],
    [
      'ragged rows',
      route('Start,11.5,-60.5,', 'Middle,11.2,-61', 'End,11,-61.5,,', 'End,11,-61.5,'),
      ['route.csv, line 3: expected 4 cells, got 3', 'route.csv, line 4: expected 4 cells, got 5'],
    ],
    [
      'an unknown kind of leg',
      changed(ROUTE, 'rhumb', 'rumb'),
      [
        'route.csv, line 2, column to_next: expected rhumb, great-circle or nothing, got "rumb" (did you mean "rhumb"?)',
      ],
    ],
    ['one waypoint', route('Start,11.5,-60.5,'), ['route.csv, line 2: expected at least 2 waypoints, got 1']],
    [
      'one waypoint beside a ragged row is not called too few',
      route('Start,11.5,-60.5,', 'End,11'),
      ['route.csv, line 3: expected 4 cells, got 2'],
    ],
    [
      'a leg of no length',
      route('Start,11.5,-60.5,', "Again,11°30.0'N,60°30.0'W,", 'End,11,-61.5,'),
      ['route.csv, line 3: expected a waypoint away from the one before, got the same place again at "Again"'],
    ],
    [
      'a leg of no length across the date line',
      route('Start,0,180,', 'Again,0,-180,'),
      ['route.csv, line 3: expected a waypoint away from the one before, got the same place again at "Again"'],
    ],
    [
      'there and back with a bad waypoint between is no leg of no length',
      route('Start,11.5,-60.5,', 'Middle,11.2x,-61,', 'Start,11.5,-60.5,'),
      [`route.csv, line 3, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "11.2x"`],
    ],
    [
      'a waypoint near a pole',
      route('Start,80,0,', 'End,89.5,0,'),
      ['route.csv, line 3, column lat: expected legs within 89° of latitude, got 89.5'],
    ],
    [
      'a great circle across a pole',
      route('Start,60,0,great-circle', 'End,60,180,'),
      ['route.csv, line 3: expected legs within 89° of latitude, got a great circle nearer to the pole'],
    ],
    [
      'a great circle between opposite places',
      route('Start,10,20,', 'End,-10,-160,'),
      [
        'route.csv, line 3: expected a great circle between places that are not opposite, got opposite places: its course is not defined',
      ],
    ],
    [
      'a quote never closed',
      route('Start,11.5,-60.5,', '"End,11,-61.5,'),
      ['route.csv, line 3: expected every quote to be closed, got an open quote'],
    ],
    [
      'a quote never closed after a mark of seconds',
      route(`Start,11°30'00"N,60°30'00"W,`, `Middle,11°12'N,60°59'30"W,`, '"End,11,-61.5,'),
      ['route.csv, line 4: expected every quote to be closed, got an open quote'],
    ],
    [
      'a bad cell after a cell of two lines',
      route('"Start,\nfirst",11.5,-60.5,', 'End,11,x,'),
      [
        `route.csv, line 4, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "x"`,
      ],
    ],
    [
      'a bad cell after blank lines',
      route('', 'Start,11.5,-60.5,', '', '', 'End,11,x,'),
      [
        `route.csv, line 6, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "x"`,
      ],
    ],
    [
      'several faults at once, in the order of the lines',
      route('Start,95,-60.5,rumb', 'End,11,400,'),
      [
        `route.csv, line 2, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "95"`,
        'route.csv, line 2, column to_next: expected rhumb, great-circle or nothing, got "rumb" (did you mean "rhumb"?)',
        `route.csv, line 3, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "400"`,
      ],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await faultsOf(() => readRoute(text))).toEqual(messages);
  });

  const gpx = (...lines: readonly string[]) => ['<gpx>', ...lines, '</gpx>'].join('\n');
  const line = (...coordinates: readonly unknown[]) => JSON.stringify({ type: 'LineString', coordinates });
  const LON_LAT = '[longitude from -180 to 360, latitude from -90 to 90]';
  test.each<Case>([
    [
      'GPX that is not well-formed',
      gpx('<rte>', '<rtept lat="1" lon="2"></rte>'),
      ['route.gpx, line 3: expected a well-formed XML text, got a fault at "</rte>"'],
    ],
    [
      'GPX with a document type',
      `<!DOCTYPE gpx>\n${gpx()}`,
      ['route.gpx, line 1: expected XML without a <!DOCTYPE, got one with it'],
    ],
    ['XML that is no GPX', '<kml/>', ['route.gpx, line 1: expected gpx as the outermost element, got "kml"']],
    [
      'GPX without a route',
      gpx('<wpt lat="1" lon="2"/>'),
      [
        'route.gpx, line 1: expected a route (rte with rtept) or a track (trk with trkpt), got only 1 wpt, which stand in no order',
      ],
    ],
    [
      'GPX of several routes',
      gpx(
        '<rte><name>Out</name><rtept lat="1" lon="2"/></rte>',
        '<rte><name>Home</name><rtept lat="1" lon="2"/></rte>',
      ),
      ['route.gpx, line 3: expected a single rte, got 2: "Out", "Home"'],
    ],
    [
      'a bad position in GPX',
      gpx('<rte><rtept lat="16°52.8" lon="400"/>', '<rtept lat="1" lon="2"/></rte>'),
      [
        'route.gpx, line 2, lat: expected decimal degrees from -90 to 90, like 16.88, got "16°52.8"',
        'route.gpx, line 2, lon: expected decimal degrees from -180 to 360, like 16.88, got "400"',
      ],
    ],
    ['JSON that is no GeoJSON', '[1]', ['route.geojson: expected an object of GeoJSON, got [1]']],
    [
      'GeoJSON without its list',
      '{"type":"LineString"}',
      ['route.geojson, coordinates: expected a list of positions, got nothing'],
    ],
    [
      'bad positions in GeoJSON',
      line([1, 2], [400, 2], [1, 'x']),
      [
        `route.geojson, coordinates[1]: expected ${LON_LAT}, got [400, 2]`,
        `route.geojson, coordinates[2]: expected ${LON_LAT}, got [1, "x"]`,
      ],
    ],
    [
      'a line in parts that do not meet',
      '{"type":"MultiLineString","coordinates":[[[1,1],[2,2]],[[3,3],[4,4]]]}',
      [
        'route.geojson, coordinates[1][0]: expected each part of the line to begin where the one before ends, got one that begins elsewhere',
      ],
    ],
    [
      'a route without end',
      line(...Array.from({ length: 30 }, (_, i) => [(i % 2) * 90, 10])),
      ['route.geojson, coordinates[19]: expected a route of at most 100000 Nm, got a longer one'],
    ],
  ])('%s', async (_, text, messages) => {
    expect(await faultsOf(() => readRoute(text))).toEqual(messages);
  });

  test('a position at the destination', async () => {
    expect(await faultsOf(() => routeFrom(readRoute(ROUTE), { latDeg: 11, lonDeg: -61.5 }))).toEqual([
      'position: expected a position with some of the route still ahead, got one within 0.1 Nm of the destination "End"',
    ]);
  });

  test('land on the way, and land that is none', async () => {
    const ring = [
      [-61.26, 11],
      [-60.76, 11],
      [-60.76, 12],
      [-61.26, 12],
      [-61.26, 11],
    ];
    const land = landOf({ type: 'Polygon', coordinates: [ring] });
    expect(messagesOf(landOnTrack(readRoute(ROUTE), land))).toEqual([
      `route: expected water along the route, got land on leg 1 ("Start" to "End") from 11°22.1'N 060°45.9'W for 33 Nm`,
    ]);
    expect(await faultsOf(() => landOf({ type: 'Polygon', coordinates: [ring.slice(0, 3)] }))).toEqual([
      'land, coordinates[0]: expected a ring of at least 4 positions, got 3',
    ]);
    expect(await faultsOf(() => landOf({ type: 'FeatureCollection', features: [] }))).toEqual([
      'land: expected at least one polygon of land, got none',
    ]);
  });

  test('opposite places are fine on a rhumb line', () => {
    expect(readRoute(route('Start,10,20,rhumb', 'End,-10,-160,')).waypoints.length).toBe(2);
  });
});

describe('forecast', () => {
  const UNZONED =
    'forecast.csv, line 2, column time: expected a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z (or --column time=time:UTC where it is UTC), got';
  test.each(['2027-01-10T00:00', '2027-01-10 00:00:00', '2027-01-10'])('time %s without its zone', async (time) => {
    expect(await faultsOf(() => readForecast(forecastOf(rowAt(time))))).toEqual([`${UNZONED} "${time}"`]);
  });

  const MALFORMED = 'forecast.csv, line 2, column time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got';
  test.each([
    '2027-02-30T00:00Z',
    '2027-02-30T00:00',
    '2027-13-01T00:00Z',
    '2027-01-10T25:00Z',
    '2027-01-10T00:00+25:00',
    '10/01/2027 00:00',
    '1799539200',
    'soon',
    '12:00Z',
    '',
  ])('time %s', async (time) => {
    expect(await faultsOf(() => readForecast(forecastOf(rowAt(time))))).toEqual([`${MALFORMED} "${time}"`]);
  });

  const cases: readonly Case[] = [
    ['an empty file', '', ['forecast.csv: expected a header line and at least one row, got none']],
    [
      'a header only',
      'time,lat,lon,u10,v10\n',
      ['forecast.csv: expected a header line and at least one row, got only a header line'],
    ],
    [
      'no time',
      changed(WIND, 'time,', 'valid,'),
      ['forecast.csv, line 1, column time: expected this column in the header, got only "valid, lat, lon, u10, v10"'],
    ],
    [
      'no place',
      changed(WIND, 'lat,lon', 'y,x'),
      [
        'forecast.csv, line 1, column lat: expected this column in the header, got only "time, y, x, u10, v10"',
        'forecast.csv, line 1, column lon: expected this column in the header, got only "time, y, x, u10, v10"',
      ],
    ],
    [
      'no wind',
      forecastCsv('wave_height', always(2)),
      [
        'forecast.csv, line 1: expected u10 and v10, or wind_speed with its unit and wind_from_direction, got "time, lat, lon, wave_height"',
      ],
    ],
    [
      'wind speed without its unit',
      forecastCsv('wind_speed,wind_from_direction', always(16, 90)),
      [
        "forecast.csv, line 1, column wind_speed: expected the unit in the column's name, like wind_speed_kn or wind_speed_mps, got none",
      ],
    ],
    [
      'gust without its unit beside wind speed',
      forecastCsv('wind_speed_kn,wind_from_direction,gust', always(16, 90, 20)),
      ["forecast.csv, line 1, column gust: expected the unit in the column's name, like gust_kn or gust_mps, got none"],
    ],
    [
      'a unit one letter off',
      forecastCsv('u10,v10,gust_knts', always(-8, 1, 20)),
      [
        'forecast.csv, line 1, column gust_knts: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "knts" (did you mean "kts"?)',
      ],
    ],
    [
      'current speed without its unit',
      forecastCsv('u10,v10,current_speed,current_to_direction', always(-8, 1, 0.5, 270)),
      [
        "forecast.csv, line 1, column current_speed: expected the unit in the column's name, like current_speed_kn or current_speed_mps, got none",
      ],
    ],
    [
      'one component of the wind',
      forecastCsv('u10', always(-8)),
      ['forecast.csv, line 1, column u10: expected v10 beside it, got it alone'],
    ],
    [
      'wind speed without its direction',
      forecastCsv('wind_speed_kn', always(16)),
      ['forecast.csv, line 1, column wind_speed_kn: expected wind_from_direction beside it, got it alone'],
    ],
    [
      'one component of the current',
      forecastCsv('u10,v10,current_v', always(-8, 1, 0.1)),
      ['forecast.csv, line 1, column current_v: expected current_u beside it, got it alone'],
    ],
    [
      'a direction to which the wind blows beside its components',
      forecastCsv('u10,v10,wind_from_direction', always(-8, 1, 277), TIMES.slice(0, 1)).replace(
        /(-60,-8,1),277/,
        '$1,97',
      ),
      [2, 4, 5].map(
        (line) =>
          `forecast.csv, line ${line}, column wind_from_direction: expected a direction that fits the components beside it (wind from, current to), got one 180° off for 2027-01-10T00:00:00Z at ${line < 4 ? 10 : 12}, ${line === 5 ? -60 : -62}`,
      ),
    ],
    [
      'a direction from which the current comes beside its components',
      forecastCsv(
        'u10,v10,current_u,current_v,current_to_direction',
        always(-8, 1, 0, 2, 0),
        TIMES.slice(0, 1),
      ).replace('-62,-8,1,0,2,0', '-62,-8,1,0,2,180'),
      [
        'forecast.csv, line 2, column current_to_direction: expected a direction that fits the components beside it (wind from, current to), got one 180° off for 2027-01-10T00:00:00Z at 10, -62',
      ],
    ],
    [
      'nothing that is known',
      forecastCsv('pressure,temperature', always(1013, 26)),
      [
        'forecast.csv, line 1: expected wind, gust, current or waves under a known name (docs/file-formats.md lists them; --column names another), got "time, lat, lon, pressure, temperature"',
      ],
    ],
    [
      'one unit in the name and another in the row of units',
      `time,lat,lon,u10_kn,v10\nUTC,degrees_north,degrees_east,m s-1,m s-1\n${TIMES[0]},10,-60,-8,1\n`,
      ['forecast.csv, line 2, column u10_kn: expected one unit (kn by its name), got "m s-1" as well'],
    ],
    [
      'currents at two depths',
      `time,depth,lat,lon,u10,v10\n${TIMES[0]},0,10,-60,-8,1\n${TIMES[0]},5,10,-60,-8,1\n`,
      ['forecast.csv, line 3, column depth: expected rows of one height or depth ("0"), got "5"'],
    ],
    [
      'gust in two units',
      forecastCsv('u10,v10,gust,gust_kn', always(-8, 1, 10, 20)),
      ['forecast.csv, line 1, column gust_kn: expected one column for each quantity, got gust as well'],
    ],
    [
      'latitude twice',
      forecastCsv('latitude,u10,v10', always(10, -8, 1)),
      ['forecast.csv, line 1, column latitude: expected one column for each quantity, got lat as well'],
    ],
    [
      'the member twice',
      forecastCsv('u10,v10,member,member', always(-8, 1, 0, 1)),
      ['forecast.csv, line 1, column member: expected one column for each quantity, got member as well'],
    ],
    [
      'a decimal comma',
      changed(WIND, `${TIMES[0]},12,-62,-8,1\n`, `${TIMES[0]},12,-62,"-8,5",1\n`),
      ['forecast.csv, line 4, column u10: expected a number from -103 to 103, got "-8,5" (a decimal comma?)'],
    ],
    [
      'a decimal comma that cuts the row',
      changed(WIND, `${TIMES[0]},12,-62,-8,1\n`, `${TIMES[0]},12,-62,-8,5,1\n`),
      ['forecast.csv, line 4: expected 5 cells, got 6'],
    ],
    [
      'a decimal comma between semicolons',
      changed(WIND.replaceAll(',', ';'), `${TIMES[0]};12;-62;-8;1\n`, `${TIMES[0]};12;-62;-8,5;1\n`),
      ['forecast.csv, line 4, column u10: expected a number from -103 to 103, got "-8,5" (a decimal comma?)'],
    ],
    [
      'text for numbers',
      rowOf(TIMES[0]!, 'north', 'west', 'calm', '1kn'),
      [
        'forecast.csv, line 2, column lat: expected a number from -90 to 90, got "north"',
        'forecast.csv, line 2, column lon: expected a number from -180 to 360, got "west"',
        'forecast.csv, line 2, column u10: expected a number from -103 to 103, got "calm"',
        'forecast.csv, line 2, column v10: expected a number from -103 to 103, got "1kn"',
      ],
    ],
    [
      'a place out of range',
      rowOf(TIMES[0]!, '90.5', '-181', '-8', '1'),
      [
        'forecast.csv, line 2, column lat: expected a number from -90 to 90, got "90.5"',
        'forecast.csv, line 2, column lon: expected a number from -180 to 360, got "-181"',
      ],
    ],
    [
      'a place missing',
      rowOf(TIMES[0]!, '', '-60', '-8', '1'),
      ['forecast.csv, line 2, column lat: expected a number from -90 to 90, got ""'],
    ],
    [
      'values out of range, in the units of their columns',
      `time,lat,lon,wind_speed_kmh,wind_from_direction,gust_kn,wave_height_ft,wave_period\n${TIMES[0]},10,-60,371,361,-1,132,Infinity\n`,
      [
        'forecast.csv, line 2, column wind_speed_kmh: expected a number from 0 to 370, got "371"',
        'forecast.csv, line 2, column wind_from_direction: expected a number from 0 to 360, got "361"',
        'forecast.csv, line 2, column gust_kn: expected a number from 0 to 200, got "-1"',
        'forecast.csv, line 2, column wave_height_ft: expected a number from 0 to 131, got "132"',
        'forecast.csv, line 2, column wave_period: expected a number from 0 to 60, got "Infinity"',
      ],
    ],
    [
      'a ragged row',
      changed(WIND, `${TIMES[1]},10,-60,-8,1\n`, `${TIMES[1]},10,-60,-8\n`),
      ['forecast.csv, line 7: expected 5 cells, got 4'],
    ],
    ['a file cut in mid-row', WIND.slice(0, -'0,-8,1\n'.length), ['forecast.csv, line 21: expected 5 cells, got 3']],
    [
      'rows that disagree: one fault a row, in the order of the lines',
      `${WIND}${TIMES[1]},12,-60,-8,2\n${TIMES[0]},10,-60,-9,2\n`,
      [
        'forecast.csv, line 22: expected rows of one point and time to agree, got another value for 2027-01-10T06:00:00Z at 12, -60',
        'forecast.csv, line 23: expected rows of one point and time to agree, got another value for 2027-01-10T00:00:00Z at 10, -60',
      ],
    ],
    [
      'rows that disagree in one value only',
      `${WIND}${TIMES[1]},12,300,-8,2\n`,
      [
        'forecast.csv, line 22: expected rows of one point and time to agree, got another value for 2027-01-10T06:00:00Z at 12, -60',
      ],
    ],
    [
      'text after a closing quote',
      changed(WIND, `${TIMES[1]},10,-60,-8,1\n`, `${TIMES[1]},10,"-60"E,-8,1\n`),
      ['forecast.csv, line 7: expected the end of the cell after a closing quote, got more text'],
    ],
    [
      'a quote never closed',
      changed(WIND, `${TIMES[1]},10,-60,-8,1\n`, `${TIMES[1]},10,"-60,-8,1\n`),
      ['forecast.csv, line 7: expected every quote to be closed, got an open quote'],
    ],
    [
      'no value of wind anywhere',
      forecastCsv('u10,v10', always('', 'NaN')),
      ['forecast.csv: expected wind in at least one row of the waters of the route, got none'],
    ],
    [
      'the header once more in the middle',
      `${WIND}time,lat,lon,u10,v10\n`,
      [
        'forecast.csv, line 22, column time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "time"',
        'forecast.csv, line 22, column lat: expected a number from -90 to 90, got "lat"',
        'forecast.csv, line 22, column lon: expected a number from -180 to 360, got "lon"',
        'forecast.csv, line 22, column u10: expected a number from -103 to 103, got "u10"',
        'forecast.csv, line 22, column v10: expected a number from -103 to 103, got "v10"',
      ],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await faultsOf(() => readForecast(forecastOf(text)))).toEqual(messages);
  });

  test('rows that agree are merged', async () => {
    const twice = `${WIND}${TIMES[1]},12,300,-8.0,1\n`;
    expect((await readForecast(forecastOf(twice))).forecast).toEqual((await readForecast(forecastOf(WIND))).forecast);
  });

  test('files that disagree', async () => {
    const other = changed(WIND, `${TIMES[1]},12,-60,-8,1\n`, `${TIMES[1]},12,-60,-9,1\n`);
    const sources = [forecastOf(WIND), { name: 'other.csv', open: () => [other] }];
    expect(await faultsOf(() => readForecast(sources))).toEqual([
      'other.csv, windEastKn: expected the values of "forecast.csv" where both files have them, or a run time in both, got others at 1 point and time, first -17.49 against -15.55 for 2027-01-10T06:00:00Z at 12, -60',
    ]);
  });

  test('an ensemble of which no member is chosen', async () => {
    const [head, ...rows] = WIND.trim().split('\n');
    const text = [`${head},member`, ...['p01', 'p02'].flatMap((member) => rows.map((row) => `${row},${member}`))].join(
      '\n',
    );
    expect(await faultsOf(() => planned(text))).toEqual([
      'forecast.csv, column member: expected one member of the ensemble to be chosen, got 2: "p01, p02"',
    ]);
  });

  test('a column that is chosen and not there', async () => {
    const columns = { gust: { name: 'fx', unit: 'kn' } };
    expect(await faultsOf(() => readForecast(forecastOf(WIND), { columns }))).toEqual([
      'forecast.csv, column fx: expected this column for gust in the head of a forecast or climatology file, got only "time, lat, lon, u10, v10"',
    ]);
  });

  test('scattered points form no grid', async () => {
    const start = Date.parse(TIMES[0]!);
    const rows = Array.from({ length: 200 }, (_, i) =>
      [new Date(start + i * 600_000).toISOString(), (i / 10).toFixed(1), (i / 8).toFixed(3), -8, 1].join(','),
    );
    const text = ['time,lat,lon,u10,v10', ...rows].join('\n');
    expect(await faultsOf(() => readForecast(forecastOf(text)))).toEqual([
      'forecast.csv: expected points on the lines of a grid, got 200 rows spread over 8000000 grid points and times',
    ]);
  });

  test('more lines than a grid may have', async () => {
    const rows = Array.from({ length: 65_536 }, (_, i) => `${TIMES[0]},${(i / 500 - 65).toFixed(3)},0,-8,1`);
    const text = ['time,lat,lon,u10,v10', ...rows].join('\n');
    expect(await faultsOf(() => readForecast(forecastOf(text)))).toEqual([
      'forecast.csv, line 65537: expected at most 65535 different times, latitudes and longitudes each, got more',
    ]);
  });

  test('a line without end', async () => {
    const open = () => ['time,lat,lon,u10,v10\n', '1'.repeat(600_000), '1'.repeat(600_000)];
    expect(await faultsOf(() => readForecast({ name: 'forecast.csv', open }))).toEqual([
      'forecast.csv, line 2: expected lines of at most 1000000 characters, got a longer one',
    ]);
  });

  test('a quote never closed in a long file', async () => {
    const row = `${TIMES[0]},10,-60,-8,1\n`;
    const open = () => [`time,lat,lon,u10,v10\n${row}"${row}`, row.repeat(50_000), row];
    expect(await faultsOf(() => readForecast({ name: 'forecast.csv', open }))).toEqual([
      'forecast.csv, line 3: expected every quote to be closed, got an open quote',
    ]);
  });
});

describe('boat', () => {
  const JIB =
    '{ "id": "jib", "kind": "self-tacking-jib", "areaM2": 42, "window": { "awaMinDeg": 28, "awaMaxDeg": 120 } }';
  const KINDS =
    'full-roach-main, square-top-main, pin-head-main, wing-sail, trysail, self-tacking-jib, overlapping-genoa, staysail, heavy-weather-jib, storm-jib, code-zero, gennaker, asymmetric-reaching-light, asymmetric-reaching, asymmetric-reaching-heavy, asymmetric-running, asymmetric-running-heavy, symmetric-cruising, vented-downwind, poled-out-headsail, twin-headsails';
  const KEYS =
    'name, comment, currency, crew, watches, engine, hull, rig, polars, boatPolar, knownSpeeds, polarStatus, polarWindHeightM, polarTwaReference, leeway, sails, sailPlans, house, $schema';
  const RULES =
    'comment, gustFactor, gustMargin, tackMinutes, gybeMinutes, tackEveryHours, gybeEveryHours, skipperFactor, pricePerChangeMinutes, wakeMinutes, leastHoursBetweenChanges, changesInDark, nightReefAboveKn, waveMaxM, gybesByDay, squalls, squallFactor, squallChance, squallThreshold, motorBelowKn, motorPriceMinutes';
  const cases: readonly Case[] = [
    [
      'an unknown key',
      changed(BOAT, '"waterlineM"', '"waterline"'),
      [
        'boat.json, hull.waterline: expected one of type, comment, waterlineM, displacementKg, hullCentresM, lengthM, beamM, freeboardM, wettedAreaM2, metacentricHeightM, stabilityShare, heelLimitDeg, got "waterline" (did you mean "waterlineM"?)',
      ],
    ],
    [
      'a key twice',
      changed(BOAT, '"crew": 3', '"crew": 3,\n "crew": 4'),
      [expect.stringMatching(/^boat\.json, line \d+, crew: expected this key once, got it again$/)],
    ],
    [
      'two unknown keys in one object',
      changed(BOAT, '"crew": 3', '"crw": 3, "flag": "white"'),
      [
        `boat.json, crw: expected one of ${KEYS}, got "crw" (did you mean "crew"?)`,
        `boat.json, flag: expected one of ${KEYS}, got "flag"`,
      ],
    ],
    [
      'missing keys',
      changed(changed(BOAT, '"name": "Test boat",', ''), '"id": "jib", "kind": "self-tacking-jib"', '"id": "jib"'),
      ['boat.json, name: expected a value, got nothing', 'boat.json, sails[1].kind: expected a value, got nothing'],
    ],
    [
      'values of a wrong type',
      changed(changed(changed(BOAT, '"crew": 3', '"crew": "3"'), '"Test boat"', '7'), '"areaM2": 78', '"areaM2": null'),
      [
        'boat.json, name: expected a name, got 7',
        'boat.json, crew: expected a whole number from 1 to 100, got "3"',
        'boat.json, sails[0].areaM2: expected a number from 0.5 to 2000, got null',
      ],
    ],
    [
      'a text for true or false',
      changed(BOAT, '"areaM2": 78', '"daylightOnly": "yes"'),
      ['boat.json, sails[0].daylightOnly: expected true or false, got "yes"'],
    ],
    [
      'values out of range',
      changed(changed(BOAT, '"areaM2": 78', '"areaM2": -2'), '"awaMaxDeg": 120', '"awaMaxDeg": 190'),
      [
        'boat.json, sails[0].areaM2: expected a number from 0.5 to 2000, got -2',
        'boat.json, sails[1].window.awaMaxDeg: expected a number from 0 to 180, got 190',
      ],
    ],
    [
      'a value with two things wrong, told once',
      changed(BOAT, '"crew": 3', '"crew": 0.5'),
      ['boat.json, crew: expected a whole number from 1 to 100, got 0.5'],
    ],
    [
      'a currency in small letters',
      changed(BOAT, '"EUR"', '"eur"'),
      ['boat.json, currency: expected a currency of three capitals, like EUR, got "eur"'],
    ],
    ['a name of nothing', changed(BOAT, '"Test boat"', '""'), ['boat.json, name: expected a name, got ""']],
    [
      'a name too long',
      changed(BOAT, '"Test boat"', `"${'long '.repeat(41)}"`),
      [
        'boat.json, name: expected at most 200 characters, got "long long long long long long long long long long long long …"',
      ],
    ],
    [
      'a bad id',
      changed(BOAT, '"id": "main", "kind"', '"id": "Main sail", "kind"'),
      ['boat.json, sails[0].id: expected an id of a-z, 0-9, +, ., _ and -, like main+jib, got "Main sail"'],
    ],
    [
      'a bad id too long, told once',
      changed(BOAT, '"id": "main", "kind"', `"id": "${'M'.repeat(201)}", "kind"`),
      [`boat.json, sails[0].id: expected an id of a-z, 0-9, +, ., _ and -, like main+jib, got "${'M'.repeat(60)}…"`],
    ],
    [
      'ids given twice',
      changed(changed(BOAT, '"id": "poled-jib"', '"id": "main"'), '"id": "reef1+jib"', '"id": "main"'),
      [
        'boat.json, sails[2].id: expected an id of its own, got "main" again',
        'boat.json, sailPlans[1].id: expected an id of its own, got "main" again',
      ],
    ],
    [
      'a plan called what is none',
      changed(BOAT, '"id": "reef1+jib"', '"id": "motor"'),
      [
        'boat.json, sailPlans[1].id: expected an id that stands for nothing else ("motor" is the engine, "bare-poles" no sails, "hove-to" to lie to), got "motor"',
      ],
    ],
    [
      'sails under bare poles',
      changed(BOAT, '"id": "reef1+jib"', '"id": "bare-poles"'),
      [
        'boat.json, sailPlans[1].id: expected an id that stands for nothing else ("motor" is the engine, "bare-poles" no sails, "hove-to" to lie to), got "bare-poles"',
      ],
    ],
    [
      'an unknown sail in a plan',
      changed(BOAT, '["main:1", "jib"]', '["main:1", "jibb"]'),
      ['boat.json, sailPlans[1].sails[1]: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)'],
    ],
    [
      'unknown reefs',
      changed(changed(BOAT, '["main:1", "jib"]', '["main:3", "jib:1"]'), '"areaM2": 42', '"areaM2": 42, "reefs": []'),
      [
        'boat.json, sailPlans[1].sails[0]: expected a reef from 1 to 2, got "main:3"',
        'boat.json, sailPlans[1].sails[1]: expected a sail without a reef number, got "jib:1"',
      ],
    ],
    [
      'a reef that is no number',
      changed(BOAT, '["main:1", "jib"]', '["main:first", "jib"]'),
      ['boat.json, sailPlans[1].sails[0]: expected a reef from 1 to 2, got "main:first"'],
    ],
    [
      'a sail full and reefed',
      changed(BOAT, '["main:1", "jib"]', '["main", "main:1"]'),
      ['boat.json, sailPlans[1].sails[1]: expected "main" once in a sail plan, got "main:1" as well'],
    ],
    [
      'a cloth in two settings',
      changed(BOAT, '["main:1", "jib"]', '["jib", "poled-jib"]'),
      ['boat.json, sailPlans[1].sails[1]: expected "jib" once in a sail plan, got "poled-jib" as well'],
    ],
    [
      'life and price of a setting of a cloth',
      changed(BOAT, '"clothOf": "jib"', '"clothOf": "jib", "life": { "usedHours": 3 }, "price": 100'),
      [
        'boat.json, sails[2].life: expected this at the sail that is the cloth ("jib"), got it at another setting of it',
        'boat.json, sails[2].price: expected this at the sail that is the cloth ("jib"), got it at another setting of it',
      ],
    ],
    [
      'hours and miles, and more hours than there were',
      changed(
        changed(BOAT, '"kind": "square-top-main"', '"kind": "square-top-main", "life": { "usedHours": 1, "miles": 9 }'),
        '"kind": "self-tacking-jib"',
        '"kind": "self-tacking-jib", "life": { "usedHours": 9000, "ageYears": 1 }',
      ),
      [
        'boat.json, sails[0].life.miles: expected usedHours or miles, got both',
        'boat.json, sails[1].life.usedHours: expected at most the hours of its ageYears (8784), got 9000',
      ],
    ],
    [
      'a life out of its ranges',
      changed(
        BOAT,
        '"kind": "square-top-main"',
        '"kind": "square-top-main", "price": -1, "life": { "cloth": "cotton", "inspectedLeft": 60, "hours": 4 }',
      ),
      [
        'boat.json, sails[0].life.hours: expected one of cloth, weightGPerM2, usedHours, miles, ageYears, inspectedLeft, lifeHours, designAwsKn, loadExponent, uvLossPerMonth, uvCover, floggingFactor, got "hours"',
        'boat.json, sails[0].life.cloth: expected one of woven-polyester, storm-polyester, laminate, nylon-light, nylon, nylon-heavy, other, got "cotton"',
        'boat.json, sails[0].life.inspectedLeft: expected a number from 0 to 1, got 60',
        'boat.json, sails[0].price: expected a number from 0 to 10000000, got -1',
      ],
    ],
    [
      'the cloth of a sail that is not aboard',
      changed(BOAT, '"clothOf": "jib"', '"clothOf": "jab"'),
      ['boat.json, sails[2].clothOf: expected the id of a sail aboard, got "jab" (did you mean "jib"?)'],
    ],
    [
      'the cloth of a sail that is another setting itself',
      changed(
        BOAT,
        JIB,
        `${JIB.replace('"jib"', '"third"').replace('"areaM2": 42', '"clothOf": "poled-jib"')}, ${JIB}`,
      ),
      ['boat.json, sails[1].clothOf: expected a sail that is itself a cloth, got "poled-jib"'],
    ],
    [
      'a sail that is its own cloth',
      changed(BOAT, '"clothOf": "jib"', '"clothOf": "poled-jib"'),
      ['boat.json, sails[2].clothOf: expected a sail that is itself a cloth, got "poled-jib"'],
    ],
    [
      'a window without width',
      changed(BOAT, '"awaMinDeg": 28, "awaMaxDeg": 120', '"awaMinDeg": 120, "awaMaxDeg": 120'),
      ['boat.json, sails[1].window.awaMaxDeg: expected an angle over awaMinDeg (120), got 120'],
    ],
    [
      'limits by angle that do not rise',
      changed(BOAT, '[[60, 50], [180, 45]]', '[[60, 50], [60, 48], [50, 45]]'),
      [
        'boat.json, sails[0].window.awsMaxKn[1]: expected angle limits that rise, got one that does not',
        'boat.json, sails[0].window.awsMaxKn[2]: expected angle limits that rise, got one that does not',
      ],
    ],
    [
      'a limit by angle out of range',
      changed(BOAT, '[180, 45]', '[190, 45]'),
      ['boat.json, sails[0].window.awsMaxKn[1][0]: expected a number from 0 to 180, got 190'],
    ],
    [
      'half a limit by angle',
      changed(BOAT, '[180, 45]', '[180]'),
      [
        'boat.json, sails[0].window.awsMaxKn: expected a number from 1 to 200 or a list of 1 to 50 [angle, kn] pairs, got a list of 2',
      ],
    ],
    [
      'a number too many in a limit by angle',
      changed(BOAT, '[180, 45]', '[180, 45, 40]'),
      [
        'boat.json, sails[0].window.awsMaxKn: expected a number from 1 to 200 or a list of 1 to 50 [angle, kn] pairs, got a list of 2',
      ],
    ],
    [
      'keys for sails of another kind',
      changed(BOAT, '"areaM2": 42', '"midGirthRatio": 0.6, "overlapPercent": 120'),
      [
        'boat.json, sails[1].midGirthRatio: expected this only for a sail set flying, got "self-tacking-jib"',
        'boat.json, sails[1].overlapPercent: expected this only for an overlapping-genoa, got "self-tacking-jib"',
      ],
    ],
    [
      'a key for hulls of another type',
      changed(BOAT, '"catamaran"', '"monohull"'),
      ['boat.json, hull.hullCentresM: expected this only for a catamaran, got "monohull"'],
    ],
    [
      'an unknown kind of sail',
      changed(BOAT, '"square-top-main"', '"squaretop-main"'),
      [`boat.json, sails[0].kind: expected one of ${KINDS}, got "squaretop-main" (did you mean "square-top-main"?)`],
    ],
    [
      'a number for a kind of sail',
      changed(BOAT, '"square-top-main"', '3'),
      [`boat.json, sails[0].kind: expected one of ${KINDS}, got 3`],
    ],
    [
      'reefs that do not fall',
      changed(BOAT, '"areaShare": 0.58', '"areaShare": 0.78'),
      ['boat.json, sails[0].reefs[1].areaShare: expected less area than the reef before, got as much or more'],
    ],
    [
      'a number for an object',
      changed(BOAT, '{ "gustFactor": 1.3 }', '1.3'),
      [`boat.json, house: expected an object with ${RULES}, got 1.3`],
    ],
    [
      'a list for an object',
      changed(BOAT, '{ "gustFactor": 1.3 }', '[1.3]'),
      [`boat.json, house: expected an object with ${RULES}, got a list of 1`],
    ],
    ['a list for the boat', '[]', [`boat.json: expected an object with ${KEYS}, got a list of 0`]],
    ['null for the boat', 'null', [`boat.json: expected an object with ${KEYS}, got null`]],
    ['an empty file', '', ['boat.json: expected a JSON text, got nothing']],
    [
      'leeway that changes too fast with AWA, that does not rise in AWA, and out of range',
      changed(BOAT, '"crew": 3', '"crew": 3, "leeway": [[30, 6], [35, 4.5], [40, 1], [40, 1]]').replace(
        '"EUR",',
        '"EUR", "polarWindHeightM": 61, "polarTwaReference": "coarse",',
      ),
      [
        'boat.json, polarWindHeightM: expected a number from 1 to 60, got 61',
        'boat.json, polarTwaReference: expected one of course, heading, got "coarse" (did you mean "course"?)',
        'boat.json, leeway[2]: expected leeway that changes by at most 0.5° for each degree of AWA, got more',
        'boat.json, leeway[3]: expected angle limits that rise, got one that does not',
      ],
    ],
    [
      'leeway out of range',
      changed(BOAT, '"crew": 3', '"crew": 3, "leeway": [[30, 21], [181, 4]]'),
      [
        'boat.json, leeway[0][1]: expected a number from 0 to 20, got 21',
        'boat.json, leeway[1][0]: expected a number from 0 to 180, got 181',
      ],
    ],
    [
      'no leeway in a list of it',
      changed(BOAT, '"crew": 3', '"crew": 3, "leeway": []'),
      ['boat.json, leeway: expected a list of 1 to 50 [angle, leeway] pairs, got a list of 0'],
    ],
    [
      'a polar file for a plan the boat does not have',
      changed(BOAT, '"polars.csv"', '{ "main": "main.csv", "reef1-jib": "reefed.csv" }'),
      [
        'boat.json, polars.reef1-jib: expected the id of a sail plan of the boat, got "reef1-jib" (did you mean "reef1+jib"?)',
      ],
    ],
    [
      'a list of polar files',
      changed(BOAT, '"polars.csv"', '["main.csv"]'),
      ['boat.json, polars: expected the path of a polar file, or one for each sail plan, got a list of 1'],
    ],
    [
      'changes of watch that do not rise, and more watches than crew',
      changed(
        BOAT,
        '"crew": 3',
        '"crew": 3, "watches": { "changes": ["04:00", "08:00", "08:00", "00:00"], "teams": 4 }',
      ),
      [
        'boat.json, watches.changes[2]: expected times of day that rise, got "08:00" after one as late or later',
        'boat.json, watches.changes[3]: expected times of day that rise, got "00:00" after one as late or later',
        'boat.json, watches.teams: expected no more watches than people in the crew (3), got 4',
      ],
    ],
    [
      'changes of watch that are no times of day, and none',
      changed(BOAT, '"crew": 3', '"crew": 3, "watches": { "changes": ["4:00", "24:00", "12:60", 7], "teams": 0.5 }'),
      [
        ...[
          ['changes[0]', '"4:00"'],
          ['changes[1]', '"24:00"'],
          ['changes[2]', '"12:60"'],
          ['changes[3]', '7'],
        ].map(([at, got]) => `boat.json, watches.${at}: expected a time of day from 00:00 to 23:59, got ${got}`),
        'boat.json, watches.teams: expected a whole number from 1 to 6, got 0.5',
      ],
    ],
    [
      'watches that never change',
      changed(BOAT, '"crew": 3', '"crew": 3, "watches": { "changes": [] }'),
      [
        'boat.json, watches.changes: expected a list of 1 to 24 times of day at which the watch changes, got a list of 0',
      ],
    ],
    [
      'more fuel in reserve than aboard',
      changed(
        BOAT,
        '"crew": 3',
        '"crew": 3, "engine": { "cruiseKn": 6, "litresPerHour": 3, "fuelLitres": 200, "reserveLitres": 201 }',
      ),
      ['boat.json, engine.reserveLitres: expected no more litres in reserve than fuel aboard (200), got 201'],
    ],
    [
      'an engine in part and out of range',
      changed(
        BOAT,
        '"crew": 3',
        '"crew": 3, "engine": { "cruiseKn": 0.2, "fuelLitres": 200, "chargingHoursPerDay": 25 }',
      ),
      [
        'boat.json, engine.cruiseKn: expected a number from 0.5 to 30, got 0.2',
        'boat.json, engine.litresPerHour: expected a value, got nothing',
        'boat.json, engine.chargingHoursPerDay: expected a number from 0 to 24, got 25',
      ],
    ],
    [
      'waves for a sail that is not aboard, and too high ones',
      changed(BOAT, '"gustFactor": 1.3', '"waveMaxM": { "jibb": 3, "jib": 31 }'),
      ['boat.json, house.waveMaxM.jib: expected a number from 0.2 to 30, got 31'],
    ],
    [
      'waves for sails that are not aboard',
      changed(BOAT, '"gustFactor": 1.3', '"waveMaxM": { "jibb": 3, "main:1": 4, "constructor": 5, "poled-jib": 2 }'),
      [
        'boat.json, house.waveMaxM.jibb: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)',
        'boat.json, house.waveMaxM.main:1: expected the id of a sail aboard, got "main:1"',
        'boat.json, house.waveMaxM.constructor: expected the id of a sail aboard, got "constructor"',
      ],
    ],
    [
      'house rules out of range',
      changed(
        BOAT,
        '"gustFactor": 1.3',
        '"changesInDark": "not_flying", "leastHoursBetweenChanges": 1.5, "squallChance": 1.1, "nightReefAboveKn": "18"',
      ),
      [
        'boat.json, house.leastHoursBetweenChanges: expected a whole number from 0 to 24, got 1.5',
        'boat.json, house.changesInDark: expected one of any, not-flying, none, got "not_flying" (did you mean "not-flying"?)',
        'boat.json, house.nightReefAboveKn: expected a number from 1 to 100, got "18"',
        'boat.json, house.squallChance: expected a number from 0 to 1, got 1.1',
      ],
    ],
    [
      'a bad value does not hide a bad reference',
      changed(changed(BOAT, '"crew": 3', '"crew": 0'), '["main:1", "jib"]', '["main:1", "jibb"]'),
      [
        'boat.json, crew: expected a whole number from 1 to 100, got 0',
        'boat.json, sailPlans[1].sails[1]: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)',
      ],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await faultsOf(() => readBoat(text))).toEqual(messages);
  });

  test('a collapse speed above the limit leaves no wind for a sail', async () => {
    const text = changed(BOAT, '"awsMinKn": 2', '"awsMinKn": 60');
    expect((await faultsOf(() => readBoat(text))).join('\n')).toMatch(/^boat\.json, sails\[0\]\.window\.aws/);
  });

  // What the text breaks on is worded by the JavaScript engine, so that only the frame is fixed.
  test.each([
    ['a comma too many', '{\n "name": "x",\n "crew": 3,\n}', 4],
    ['a comma missing', '{\n "name": "x"\n "crew": 3\n}', 3],
    ['a word without quotes', '{\n "name": "x",\n "polars": polars.csv\n}', 3],
    ['NaN', '{\n "name": "x",\n "crew": NaN\n}', 3],
    ['single quotes', "{\n 'name': 'x'\n}", 2],
    ['a comment', '{\n // the boat\n "name": "x"\n}', 2],
    ['a quote never closed', '{\n "name": "x,\n "crew": 3\n}', 2],
    ['a text cut off', '{\n "name": "x",\n "hull": {', 3],
    ['a bracket too many', '{\n "name": "x"\n}\n}', 4],
    ['a mark of writing direction', '{\n "name": \u202e"x"\n}', 2],
  ])('JSON with %s: its line, in one line', async (_, text, line) => {
    const messages = await faultsOf(() => readBoat(text));
    expect(messages.length).toBe(1);
    expect(messages[0]).toMatch(
      new RegExp(`^boat\\.json, line ${line}: expected a JSON text, got [^\\p{Cc}\\u202e]+$`, 'u'),
    );
    expect(messages[0]).not.toMatch(/is not valid JSON|got Expected|got Unexpected/);
  });
});

describe('polars', () => {
  const boat = readBoat(BOAT);
  const cases: readonly Case[] = [
    ['an empty file', '', ['polars.csv: expected a header line and at least one row, got none']],
    [
      'a missing and an unknown column',
      changed(POLARS, 'tws_kn', 'tws_kt'),
      [
        'polars.csv, line 1, column tws_kn: expected this column in the header, got only "sail_plan, tws_kt, twa_deg, stw_kn"',
        'polars.csv, line 1: expected one of sail_plan, tws_kn, twa_deg, stw_kn, wind_height_m, twa_reference, got "tws_kt" (did you mean "tws_kn"?)',
      ],
    ],
    [
      'a polar of an unknown plan',
      POLARS.replaceAll('reef1+jib', 'reef1-jib'),
      [
        'polars.csv, line 6, column sail_plan: expected the id of a sail plan of the boat, got "reef1-jib" (did you mean "reef1+jib"?)',
      ],
    ],
    [
      'one row of an unknown plan is not called an incomplete polar',
      `${POLARS}mein,18,90,6\n`,
      [
        'polars.csv, line 10, column sail_plan: expected the id of a sail plan of the boat, got "mein" (did you mean "main"?)',
      ],
    ],
    [
      'a missing point names its plan',
      changed(POLARS, 'reef1+jib,30,40,7.5\n', ''),
      ['polars.csv, line 6: expected a row of "reef1+jib" for tws_kn 30 and twa_deg 40, got none'],
    ],
    [
      'a point given twice',
      `${POLARS}main,30,40,8\n`,
      ['polars.csv, line 10: expected one row for tws_kn 30 and twa_deg 40, got another'],
    ],
    [
      'one angle only',
      'sail_plan,tws_kn,twa_deg,stw_kn\nmain,6,90,3\nmain,30,90,8\n',
      ['polars.csv, line 2: expected at least 2 angles and 1 wind speed, got fewer'],
    ],
    [
      'a negative speed',
      changed(POLARS, 'main,30,40,8\n', 'main,30,40,-8\n'),
      ['polars.csv, line 4, column stw_kn: expected a number from 0 to 60, got "-8"'],
    ],
    [
      'text, nothing and an angle out of range',
      changed(changed(POLARS, 'main,6,40,3\n', 'main,,40,fast\n'), 'main,6,180,3.5\n', 'main,6,181,3.5\n'),
      [
        'polars.csv, line 2, column tws_kn: expected a number from 0 to 120, got ""',
        'polars.csv, line 2, column stw_kn: expected a number from 0 to 60, got "fast"',
        'polars.csv, line 3, column twa_deg: expected a number from 0 to 180, got "181"',
      ],
    ],
    ['a ragged row', `${POLARS}main,18,40\n`, ['polars.csv, line 10: expected 4 cells, got 3']],
    [
      'two wind heights of one plan, and a reference in some rows only',
      'sail_plan,tws_kn,twa_deg,stw_kn,wind_height_m,twa_reference\nmain,6,40,3,10,\nmain,6,180,3,15,heading\n',
      [
        'polars.csv, line 3, column wind_height_m: expected one value for all rows of "main" (10), got 15',
        'polars.csv, line 3, column twa_reference: expected one value for all rows of "main" (none), got heading',
      ],
    ],
    [
      'a wide table for a boat of several plans, an angle and a wind twice',
      'twa/tws,6,30,6\n40,3,8,3\n180,3,9,3\n40,3,8,3\n',
      [
        'polars.csv: expected to know the sail plan of this table: a boat of one plan, or "polars" in the boat file as { "plan": "file" }, got several plans or none',
        'polars.csv, line 1, column 4: expected each TWS once, got 6 again',
        'polars.csv, line 4, column twa_deg: expected each TWA once, got 40 again',
      ],
    ],
    [
      'a quote never closed',
      changed(POLARS, 'main,30,40,8\n', 'main,30,"40,8\n'),
      ['polars.csv, line 4: expected every quote to be closed, got an open quote'],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await faultsOf(() => readPolars(text, { boat }))).toEqual(messages);
  });
});

/** A passage of the small inputs with another forecast, route, boat, polars or options. */
async function planned(
  forecastText: string,
  options: Partial<PassageOptions> = {},
  texts: { route?: string; boat?: string; polars?: string } = {},
) {
  const boat = readBoat(texts.boat ?? BOAT);
  const polars = readPolars(texts.polars ?? POLARS, { boat });
  const { forecast, warnings } = await readForecast(forecastOf(forecastText));
  const inputs = { route: readRoute(texts.route ?? ROUTE), forecast, boat, polars };
  const passage = planPassage(inputs, { departure: TIMES[0]!, ...options });
  return { ...passage, warnings: [...warnings, ...passage.warnings] };
}

describe('records made in memory', () => {
  const inputs = async () => ({
    route: readRoute(ROUTE),
    boat: readBoat(BOAT),
    polars: readPolars(POLARS),
    forecast: (await readForecast(forecastOf(WIND))).forecast,
  });
  type Inputs = Awaited<ReturnType<typeof inputs>>;
  const [start, end] = readRoute(ROUTE).waypoints as [
    Inputs['route']['waypoints'][number],
    Inputs['route']['waypoints'][number],
  ];
  const cases: readonly (readonly [
    what: string,
    change: (good: Inputs) => Partial<Inputs>,
    messages: readonly string[],
  ])[] = [
    [
      'a route of one place',
      () => ({ route: { waypoints: [start] } }),
      ['route, waypoints[0]: expected at least 2 waypoints, got 1'],
    ],
    [
      'a route of none',
      () => ({ route: { waypoints: [] } }),
      ['route, waypoints[0]: expected at least 2 waypoints, got 0'],
    ],
    [
      'a place that is none',
      () => ({ route: { waypoints: [start, { ...end, lonDeg: Number.NaN }, { ...end, latDeg: Number.NaN }] } }),
      [
        'route, waypoints[1].lonDeg: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0\'W, got "NaN"',
        'route, waypoints[2].latDeg: expected legs within 89° of latitude, got NaN',
      ],
    ],
    [
      'a plan of a sail not aboard',
      ({ boat }) => ({ boat: { ...boat, sailPlans: [{ id: 'main', sails: ['mainn'] }] } }),
      ['boat, sailPlans[0].sails[0]: expected the id of a sail aboard, got "mainn" (did you mean "main"?)'],
    ],
    [
      'a polar that is no table',
      () => ({
        polars: { status: 'measured', plans: { main: { twsKn: [10, 8], twaDeg: [40], stwKn: [5, Number.NaN] } } },
      }),
      [
        'polars, main.twsKn: expected at least 1 wind speed, rising, got [10, 8]',
        'polars, main.twaDeg: expected at least 2 angles from 0 to 180, rising, got [40]',
        'polars, main.stwKn: expected 2 speeds of 0 or more, got 2 numbers',
      ],
    ],
    [
      'a grid whose arrays do not fit',
      ({ forecast }) => ({
        forecast: {
          file: 'mine',
          grids: [
            { ...forecast.grids[0]!, lats: Float64Array.of(12, 10), fields: { windEastKn: new Float32Array(3) } },
          ],
        },
      }),
      [
        'mine, grids[0].lats: expected rising numbers, got others',
        'mine, grids[0].fields.windEastKn: expected 20 numbers, got 3',
        'mine, grids[0].fields: expected windEastKn and windNorthKn together, got one of them',
      ],
    ],
  ];
  test.each(cases)('%s', async (_, change, messages) => {
    const good = await inputs();
    expect(await faultsOf(() => planPassage({ ...good, ...change(good) }, { departure: TIMES[0]! }))).toEqual(messages);
  });

  test('that were forgotten, or files in their place', async () => {
    const good = await inputs();
    const { climatology } = await readClimatology({ name: 'months.csv', open: () => [MONTHLY] });
    const told = (given: unknown) =>
      faultsOf(() => planPassage({ ...good, ...(given as object) }, { departure: TIMES[0]! }));
    expect(await told({ route: undefined, polars: undefined })).toEqual([
      'route: expected a record as readRoute gives it, got nothing',
      'polars: expected a record as readPolars or estimatePolars gives it, got nothing',
    ]);
    expect(await told({ route: 'route.csv', forecast: [], climatology: 'months.csv' })).toEqual([
      'route: expected a record as readRoute gives it, got "route.csv"',
      'forecast: expected a record as readForecast gives it, got a list of 0',
      'climatology: expected a record as readClimatology gives it, got "months.csv"',
    ]);
    expect(await told({ boat: undefined })).toEqual(['boat: expected a value, got nothing']);
    expect(await told({ route: Promise.resolve(), polars: readPolars, forecast: new Uint8Array(3) })).toEqual([
      'route: expected a record as readRoute gives it, got a promise',
      'polars: expected a record as readPolars or estimatePolars gives it, got a function',
      'forecast: expected a record as readForecast gives it, got bytes',
    ]);
    expect(await faultsOf(() => planPassage(undefined as never, undefined as never))).toEqual([
      'inputs: expected an object, got nothing',
    ]);
    expect(await faultsOf(() => totalsOf({ hours: [] } as never, undefined as never))).toEqual([
      'boat: expected a record as readBoat gives it, got nothing',
    ]);
    expect(planPassage({ ...good, climatology }, { departure: TIMES[0]! }).complete).toBe(true);
  });
});

describe('a file given as another', () => {
  test('is told for what it looks like', async () => {
    const [route, forecast, boat] = ['route.csv', 'forecast.csv', 'boat.json'].map((name) => `data-samples/${name}`);
    const paths = { route: route!, forecast: forecast!, boat: boat! };
    const [first] = await faultsOf(() => loadInputs({ ...paths, route: boat! }));
    expect(first).toBe('data-samples/boat.json: expected a route, got what looks like a boat');
    const told = await faultsOf(() => loadInputs({ ...paths, boat: route! }));
    expect(told).toEqual([
      'data-samples/route.csv: expected a boat, got what looks like a route',
      'data-samples/route.csv, line 1: expected a JSON text, got a fault at "name,lat,lon,to_next"',
    ]);
    // Any table may be a forecast, and what is wrong in a boat file does not make it another.
    const ofForecast = await faultsOf(() => loadInputs({ ...paths, route: forecast! }));
    expect(ofForecast.filter((message) => message.includes('looks like'))).toEqual([]);
  });
});

describe('what a reader or an option is given', () => {
  const given = (value: unknown) => value as never;

  test('for the text of a file', async () => {
    const bytes = given(new Uint8Array(3));
    const said = 'expected a text in UTF-8, got';
    expect(await faultsOf(() => readRoute(given({ waypoints: [] })))).toEqual([`route: ${said} an object`]);
    expect(await faultsOf(() => readBoat(bytes))).toEqual([`boat.json: ${said} bytes`]);
    expect(await faultsOf(() => readPolars(given(undefined), { file: 'mine.csv' }))).toEqual([
      `mine.csv: ${said} nothing`,
    ]);
    expect(await faultsOf(() => readPlan(given(7)))).toEqual([`plan.json: ${said} 7`]);
  });

  test('for a file to read in blocks', async () => {
    const said = 'expected a file as { name, open: () => [text] }, got';
    expect(await faultsOf(() => readForecast(given(`time,lat,lon,${'x'.repeat(100)}`)))).toEqual([
      `forecast: ${said} "time,lat,lon,${'x'.repeat(47)}…"`,
    ]);
    expect(await faultsOf(() => readClimatology(given([{ name: 'months.csv' }, null])))).toEqual([
      `climatology: ${said} an object`,
    ]);
  });

  test('for options, of which tests/given.test.ts has each', async () => {
    const boat = readBoat(BOAT);
    const { forecast } = await readForecast(forecastOf(WIND));
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS), forecast };
    const without = given('vented');
    expect(await faultsOf(() => planPassage(inputs, { departure: TIMES[0]!, labels: 0, without }))).toEqual([
      'options, labels: expected a number from 1 to 64, got "0"',
      'options, without: expected a list, each a text, got "vented"',
    ]);
    expect(await faultsOf(() => boatWith(boat, inputs.polars, given({ areaM2: '140' })))).toEqual([
      'options, kind: expected a value, got nothing',
      'options, areaM2: expected a number, got "140"',
    ]);
    expect(await faultsOf(() => planPassage(inputs, { departure: TIMES[0]! }, { rules: given('none') }))).toEqual([
      'rules: expected a list of rules, got "none"',
    ]);
  });

  test('for starts', async () => {
    expect(await faultsOf(() => startsOf(given('2027-01-10T12:00Z'), given(undefined), given('24')))).toEqual([
      'starts, fromEpochSeconds: expected a number, got "2027-01-10T12:00Z"',
      'starts, toEpochSeconds: expected a value, got nothing',
      'starts, everyHours: expected a number, got "24"',
    ]);
    expect(await faultsOf(() => startsOf(0, 86400, 0))).toEqual(['starts, everyHours: expected more than 0, got 0']);
  });
});

describe('departure', () => {
  const OUTSIDE =
    'forecast.csv: expected a departure from 2027-01-10T00:00:00Z and before 2027-01-11T00:00:00Z, the times of the forecast, got';
  const cases: readonly (readonly [what: string, departure: string, messages: readonly string[]])[] = [
    [
      'without its zone',
      '2027-01-10T00:00',
      [
        'departure: expected a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z, got "2027-01-10T00:00"',
      ],
    ],
    [
      'on a day there is not',
      '2027-02-30T00:00Z',
      ['departure: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "2027-02-30T00:00Z"'],
    ],
    ['before the forecast', '2027-01-10T01:00+02:00', [`${OUTSIDE} 2027-01-09T23:00:00Z`]],
    ['at the last instant of the forecast', '2027-01-11T00:00Z', [`${OUTSIDE} 2027-01-11T00:00:00Z`]],
    ['after the forecast', '2027-01-12T06:00Z', [`${OUTSIDE} 2027-01-12T06:00:00Z`]],
  ];
  test.each(cases)('%s', async (_, departure, messages) => {
    expect(await faultsOf(() => planned(FORECAST, { departure }))).toEqual(messages);
  });

  test('a second before the last instant', async () => {
    expect(await planned(FORECAST, { departure: '2027-01-10T23:59:59Z' })).toMatchObject({
      complete: false,
      reason: 'forecast-ended',
    });
  });

  test('a forecast of one time only', async () => {
    expect(await faultsOf(() => planned(forecastCsv('u10,v10', always(-8, 1), [TIMES[0]!])))).toEqual([
      'forecast.csv: expected a forecast of at least two times, got only 2027-01-10T00:00:00Z',
    ]);
  });

  test('a start in the part of the globe a wide forecast leaves out', async () => {
    const lons = Array.from({ length: 16 }, (_, i) => -180 + i * 20);
    const rows = TIMES.flatMap((time) => [10, 12].flatMap((lat) => lons.map((lon) => `${time},${lat},${lon},-8,1`)));
    const { forecast } = await readForecast(forecastOf(`time,lat,lon,u10,v10\n${rows.join('\n')}\n`));
    const route = readRoute('name,lat,lon\nA,11,150\nB,11,151\n');
    const [boat, polars] = [readBoat(BOAT), readPolars(POLARS)];
    expect(await faultsOf(() => planPassage({ route, boat, polars, forecast }, { departure: TIMES[0]! }))).toEqual([
      "forecast.csv: expected a start inside the forecast's grid, latitude 10 to 12, longitude -180 to 120, got 11.00, 150.00",
    ]);
  });

  test('a start far outside the grid tells what the forecast covers', async () => {
    const { forecast } = await readForecast(forecastOf(FORECAST), {
      crop: () => ({ latMinDeg: 40, latMaxDeg: 50, lonWestDeg: 0, lonWidthDeg: 10 }),
    });
    const route = readRoute('name,lat,lon\nA,44,3\nB,45,4\n');
    const [boat, polars] = [readBoat(BOAT), readPolars(POLARS)];
    expect(await faultsOf(() => planPassage({ route, boat, polars, forecast }, { departure: TIMES[0]! }))).toEqual([
      "forecast.csv: expected a start inside the forecast's grid, latitude 10 to 12, longitude -62 to -60, got 44.00, 3.00",
    ]);
  });

  test('at the last instant of the wind, where waves go on', async () => {
    const text = forecastCsv('u10,v10,wave_height', (time) => (time > TIMES[2]! ? ['', '', 2] : [-8, 1, 2]));
    expect(await faultsOf(() => planned(text, { departure: TIMES[2]! }))).toEqual([
      'forecast.csv: expected a departure from 2027-01-10T00:00:00Z and before 2027-01-10T12:00:00Z, the times of the forecast, got 2027-01-10T12:00:00Z',
    ]);
  });

  test.each([
    ['south', '9.5,-60.5', '9.50, -60.50'],
    ['north', '12.01,-60.5', '12.01, -60.50'],
    ['west', '11,-62.25', '11.00, -62.25'],
    ['east', '11,-59.5', '11.00, -59.50'],
  ])('a start %s of the grid', async (_, place, got) => {
    const text = route(`Start,${place},`, 'End,11,-61.5,');
    expect(await faultsOf(() => planned(FORECAST, {}, { route: text }))).toEqual([
      `forecast.csv: expected a start inside the forecast's grid, latitude 10 to 12, longitude -62 to -60, got ${got}`,
    ]);
  });

  test('outside the times and outside the grid', async () => {
    const text = route('Start,9.5,-60.5,', 'End,11,-61.5,');
    expect(await faultsOf(() => planned(FORECAST, { departure: '2027-01-12T06:00Z' }, { route: text }))).toEqual([
      `${OUTSIDE} 2027-01-12T06:00:00Z`,
      "forecast.csv: expected a start inside the forecast's grid, latitude 10 to 12, longitude -62 to -60, got 9.50, -60.50",
    ]);
  });

  test('no wind at the start', async () => {
    const text = forecastCsv('u10,v10', (_, lat, lon) => (lat === 12 && lon === -60 ? ['', ''] : [-8, 1]));
    expect(await faultsOf(() => planned(text))).toEqual([
      'forecast.csv: expected wind in the forecast at the start, got none at 11.50, -60.50 at 2027-01-10T00:00:00Z (a point on land, or a gap too long to bridge)',
    ]);
  });

  test('in a gap too long to bridge', async () => {
    const text = forecastCsv('u10,v10', always(-8, 1), [TIMES[0]!, TIMES[3]!, TIMES[4]!]);
    expect(await faultsOf(() => planned(text, { departure: TIMES[1]! }))).toEqual([
      'forecast.csv: expected wind in the forecast at the start, got none at 11.50, -60.50 at 2027-01-10T06:00:00Z (a point on land, or a gap too long to bridge)',
    ]);
  });

  test.each<Partial<PassageOptions>>([
    { stepMinutes: 0 },
    { stepMinutes: -5 },
    { stepMinutes: Number.NaN },
    { maxGapHours: Number.NaN },
    { house: { gustFactor: Number.NaN } },
    { house: { tackEveryHours: 0 } },
  ])('options that are no such numbers: %o', async (options) => {
    await expect(planned(FORECAST, options)).rejects.toThrow(InputError);
  });
});

describe('warnings', () => {
  test('what the forecast lacks', async () => {
    expect(messagesOf((await planned(WIND)).warnings)).toEqual([
      'forecast.csv: expected current for every hour, got none in 12 h: taken as zero',
      'forecast.csv: expected waves for every hour, got none in 12 h: unknown',
      'forecast.csv: expected gusts for every hour, got none in 12 h: mean wind × 1.3 instead',
    ]);
  });

  test('columns that are not used', async () => {
    const { warnings } = await readForecast(
      forecastOf(forecastCsv('u10,v10,pressure,gust_factor', always(-8, 1, 1013, 2))),
    );
    expect(messagesOf(warnings)).toEqual([
      'forecast.csv, column pressure: expected a column of a known quantity, got another one: it is not used',
      'forecast.csv, column gust_factor: expected a column of a known quantity, got another one: it is not used',
    ]);
  });

  test('of very many columns that are not used the first are told', async () => {
    const names = Array.from({ length: 102 }, (_, i) => `c${i}`);
    const { warnings } = await readForecast(forecastOf(forecastCsv(`u10,v10,${names}`, always(-8, 1, ...names))));
    const messages = messagesOf(warnings);
    expect(messages.length).toBe(101);
    expect(messages.at(-1)).toBe(
      'forecast.csv: expected columns of known quantities, got 2 more others: they are not used',
    );
  });

  test('a last row that may have been cut', async () => {
    const { warnings } = await readForecast(forecastOf(WIND.trimEnd()));
    expect(messagesOf(warnings)).toEqual([
      'forecast.csv, line 21: expected a line end behind the last row, got none: if the file was cut there, the last value of the row may be another than it was',
    ]);
  });

  test('a wind of exactly nothing at neighbouring points', async () => {
    const rows = [-62, -61, -60].map((lon) => `${TIMES[0]},10,${lon},0,0`);
    const { warnings } = await readForecast(forecastOf(['time,lat,lon,u10,v10', ...rows, ''].join('\n')));
    expect(messagesOf(warnings)).toEqual([
      'forecast.csv: expected wind that is exactly 0 at single points at most, got 3 neighbouring points and times with both components exactly 0, first for 2027-01-10T00:00:00Z at 10, -62: rather a fill value or land than a calm',
    ]);
  });

  test('a column that is chosen without the unit it needs, and one that is not there', async () => {
    const text = forecastCsv('wind,wind_from_direction', always(16, 97));
    const read = (name: string) => () =>
      readForecast({ name: 'forecast.csv', open: () => [text] }, { columns: { wind_speed: { name } } });
    expect(await faultsOf(read('wind'))).toEqual([
      'forecast.csv, line 1, column wind: expected the unit of the column that is chosen, like --column wind_speed=wind:kn, got none',
    ]);
    expect(await faultsOf(read('breeze'))).toEqual([
      'forecast.csv, line 1, column wind_from_direction: expected wind_speed beside it, got it alone',
      'forecast.csv, column breeze: expected this column for wind_speed in the head of a forecast or climatology file, got only "time, lat, lon, wind, wind_from_direction"',
    ]);
    const named = forecastCsv('blow_kn,wind_from_direction', always(16, 97));
    const columns = { wind_speed: { name: 'blow_kn' } };
    const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [named] }, { columns });
    expect(
      Math.hypot(forecast.grids[0]!.fields.windEastKn![0]!, forecast.grids[0]!.fields.windNorthKn![0]!),
    ).toBeCloseTo(16, 4);
  });

  test('a plan set at departure that is none of hers', async () => {
    const inputs = await withBoat();
    const set = (planSet: string) => () => planPassage(inputs, { departure: TIMES[0]!, planSet });
    const plans = inputs.boat.sailPlans.map(({ id }) => id).join(', ');
    expect(await faultsOf(set('spinnaker'))).toEqual([
      `options, planSet: expected the id of a sail plan of the boat, one of ${plans}, got "spinnaker"`,
    ]);
    // Of many the first eight, in the order of the boat file.
    const [plan] = inputs.boat.sailPlans;
    const many = Array.from({ length: 11 }, (_, n) => ({ ...plan!, id: `plan-${n}` }));
    const boat = { ...inputs.boat, sailPlans: many };
    expect(
      await faultsOf(() => planPassage({ ...inputs, boat }, { departure: TIMES[0]!, planSet: 'plan-99' })),
    ).toContain(
      'options, planSet: expected the id of a sail plan of the boat, one of plan-0, plan-1, plan-2, plan-3, plan-4, plan-5, plan-6, plan-7 and 3 more, got "plan-99" (did you mean "plan-9"?)',
    );
  });

  test('an option that is none', async () => {
    const inputs = await withBoat();
    const odd = { departure: TIMES[0]!, windfactor: 2, windFactor: '2' } as unknown as PassageOptions;
    expect(await faultsOf(() => planPassage(inputs, odd))).toEqual([
      'options, windfactor: expected one of departure, choice, arriveDaylight, crew, labels, decisionMinutes, horizonHours, replanHours, stepMinutes, maxGapHours, windFactor, windShiftHours, house, planSet, without, got "windfactor" (did you mean "windFactor"?)',
      'options, windFactor: expected a number from 0.1 to 10, got "2"',
    ]);
    const ruled = { departure: TIMES[0]!, rules: [] } as PassageOptions;
    expect(await faultsOf(() => planPassage(inputs, ruled))).toEqual([
      "options, rules: expected a program's own rules beside the options: planPassage(inputs, options, { rules }) or passagesFrom, and none in a study, which crosses threads, got rules among the options",
    ]);
    expect(await faultsOf(() => planPassage(inputs, {} as unknown as PassageOptions))).toEqual([
      'options, departure: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "undefined"',
    ]);
  });

  test('wind that is said to be at another height', async () => {
    const text = forecastCsv('height_above_ground,u10,v10', always(100, -8, 1));
    const { warnings } = await readForecast({ name: 'forecast.csv', open: () => [text] });
    expect(messagesOf(warnings)).toEqual([
      'forecast.csv, column height_above_ground: expected wind at 10 m, got wind at 100 m: it is taken as if at 10 m',
    ]);
  });

  test('a gap in the times', async () => {
    const hourly = Array.from({ length: 5 }, (_, i) => `2027-01-10T0${i}:00Z`);
    const text = forecastCsv('u10,v10,gust,current_u,current_v,wave_height', always(-8, 1, 10, 0, 0, 2), [
      ...hourly,
      '2027-01-10T10:00Z',
      '2027-01-10T11:00Z',
      '2027-01-10T12:00Z',
      '2027-01-10T13:00Z',
    ]);
    expect(messagesOf((await planned(text)).warnings)).toEqual([
      'forecast.csv: expected times without gaps (up to 12 h are bridged), got a gap of 6 h, from 2027-01-10T04:00:00Z to 2027-01-10T10:00:00Z: wind in between is drawn straight from one end to the other',
    ]);
  });

  const FULL = 'u10,v10,gust,current_u,current_v,wave_height';

  test('where and why the wind ends under way: at points without it, or in a gap too long to bridge', async () => {
    const land = forecastCsv(FULL, (_, _lat, lon) => [...(lon === -62 ? ['', ''] : [-8, 1]), 10, 0, 0, 2]);
    const [first, ...others] = messagesOf((await planned(land)).warnings);
    expect(others).toEqual([]);
    expect(first).toMatch(
      /^forecast\.csv: expected wind all along the track, got none at 11\.2\d, -61\.\d\d at 2027-01-10T0\d:\d\d:00Z: outside the forecast's grid or on points without wind \(land, say\)$/,
    );
    const gap = forecastCsv(FULL, always(-2, 1, 3, 0, 0, 2), [TIMES[0]!, '2027-01-10T03:00Z', '2027-01-11T00:00Z']);
    expect(messagesOf((await planned(gap)).warnings)).toEqual([
      expect.stringMatching(
        /at 2027-01-10T03:10:00Z: in a gap of 21 h in the forecast, more than the 12 h that are bridged$/,
      ),
    ]);
  });

  test('a sail that no plan sets', async () => {
    const boat = changed(BOAT, '["main:1", "jib"]', '["main:1"]');
    const text = forecastCsv(FULL, always(-8, 1, 10, 0, 0, 2));
    const path = (i: number) =>
      `boat, sails[${i}]: expected a sail plan that sets every sail, got none: this sail is never used`;
    expect(messagesOf((await planned(text, {}, { boat })).warnings)).toEqual([path(1), path(2)]);
  });

  test('polars missing and stretched', async () => {
    // 66 Nm at 6 kn on any heading.
    const polars = 'sail_plan,tws_kn,twa_deg,stw_kn\nmain,6,40,6\nmain,6,180,6\n';
    const text = forecastCsv('u10,v10,gust,current_u,current_v,wave_height', always(-8, 1, 10, 0, 0, 2));
    expect(messagesOf((await planned(text, {}, { polars })).warnings)).toEqual([
      'polars.csv, reef1+jib: expected a polar for every sail plan, got none: this plan is never set',
      'polars.csv, main: expected polars up to the wind sailed in, got 11 h under "main" above its highest wind of 6 kn: speed held there',
    ]);
  });
});

describe('files', () => {
  let folder = '';
  const path = (name: string) => `${folder}/${name}`;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    mkdirSync(path('folder.csv'));
    const texts = {
      'route.csv': ROUTE,
      'forecast.csv': FORECAST,
      'boat.json': BOAT,
      'polars.csv': POLARS,
      'other.json': changed(BOAT, '"polars.csv"', '"other.csv"'),
      'bad-route.csv': route('Start,11.5,-60.5,', 'End,11,x,'),
      'bad-boat.json': changed(BOAT, '["main:1", "jib"]', '["main:1", "jibb"]'),
      'bad-forecast.csv': `${WIND}${TIMES[0]},10,-60,-8,5\n`,
      'bad-polars.csv': changed(POLARS, 'main,30,40,8\n', 'main,30,40,-8\n'),
    };
    for (const [name, text] of Object.entries(texts)) writeFileSync(path(name), text);
    writeFileSync(path('bad.json'), changed(texts['bad-boat.json'], '"polars.csv"', '"bad-polars.csv"'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  // Files are named as they are given, which is beside the tests' point here.
  const load = async (files: { route?: string; forecast?: string; boat?: string }) => {
    const messages = await faultsOf(() =>
      loadInputs({
        route: path(files.route ?? 'route.csv'),
        forecast: path(files.forecast ?? 'forecast.csv'),
        boat: path(files.boat ?? 'boat.json'),
      }),
    );
    return messages.map((message) => message.replace(path(''), ''));
  };

  test('good ones', async () => {
    expect(await load({})).toEqual([]);
  });

  test('absent', async () => {
    expect(await load({ route: 'none.csv', forecast: 'none-either.csv', boat: 'none.json' })).toEqual([
      'none.csv: expected a file that can be read, got no such file',
      'none.json: expected a file that can be read, got no such file',
      'none-either.csv: expected a file that can be read, got no such file',
    ]);
  });

  test('the polars of the boat absent', async () => {
    expect(await load({ boat: 'other.json' })).toEqual([
      'other.csv: expected a file that can be read, got no such file',
    ]);
  });

  test('folders', async () => {
    const messages = 'folder.csv: expected a file that can be read, got a folder';
    expect(await load({ route: 'folder.csv', forecast: 'folder.csv', boat: 'folder.csv' })).toEqual([
      messages,
      messages,
      messages,
    ]);
  });

  test('a file where a folder is needed', async () => {
    expect(await load({ route: 'boat.json/route.csv' })).toEqual([
      'boat.json/route.csv: expected a file that can be read, got a file where a folder is needed',
    ]);
  });

  test('a bad route does not hide that rows of the forecast disagree', async () => {
    expect(await load({ route: 'bad-route.csv', forecast: 'bad-forecast.csv' })).toEqual([
      `bad-route.csv, line 3, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "x"`,
      'bad-forecast.csv, line 22: expected rows of one point and time to agree, got another value for 2027-01-10T00:00:00Z at 10, -60',
    ]);
  });

  test('a bad boat does not hide the faults of its polars', async () => {
    expect(await load({ boat: 'bad.json' })).toEqual([
      'bad.json, sailPlans[1].sails[1]: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)',
      'bad-polars.csv, line 4, column stw_kn: expected a number from 0 to 60, got "-8"',
    ]);
  });
});

/** What a passage is planned from, the boat with more than she has. */
const withBoat = async (more: object = {}) => ({
  route: readRoute(ROUTE),
  boat: readBoat(JSON.stringify({ ...JSON.parse(BOAT), ...more })),
  polars: readPolars(POLARS),
  forecast: (await readForecast(forecastOf(FORECAST))).forecast,
});

describe('what a navigator asks for, and is told', () => {
  let folder = '';
  const path = (name: string) => `${folder}/${name}`;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    const texts = { 'route.csv': ROUTE, 'forecast.csv': FORECAST, 'boat.json': BOAT, 'polars.csv': POLARS };
    for (const [name, text] of Object.entries(texts)) writeFileSync(path(name), text);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  /** What the command prints on the error stream, each line matched with the sentence it came from. */
  const printed = async (...args: readonly string[]): Promise<string[]> => {
    let error = '';
    await run(args, {
      out: () => {},
      error: (text) => {
        error += text;
      },
      isTerminal: false,
    });
    const lines = error.trimEnd().replaceAll(path(''), '').split('\n');
    for (const [key, sentence] of madeBy) {
      const [, expected, got] = key.split('\n');
      if (lines.some((line) => line.endsWith(`: expected ${expected}, got ${got}`))) seen.add(sentence);
    }
    return lines;
  };
  const planOf = (...more: readonly string[]) =>
    printed(
      ...['plan', '--route', path('route.csv'), '--forecast', path('forecast.csv'), '--boat', path('boat.json')],
      ...['--depart', TIMES[0]!, '--out', path('out'), ...more],
    );

  test('a position that is none', async () => {
    expect(await planOf('--from', '16.88 -24.98')).toEqual([
      `--from: expected a position like 16.88,-24.98 or 16°52.8'N,024°58.8'W, got "16.88 -24.98"`,
    ]);
  });

  test('a column of nothing known', async () => {
    expect(await planOf('--column', 'wind=u')).toEqual([
      '--column: expected one of u10, v10, wind_speed, wind_from_direction, gust, current_u, current_v, current_speed, current_to_direction, wave_height, wave_period, wave_from_direction, time, run_time, month, lat, lon, member, and the column that holds it: current_u=water_u:m/s, got "wind=u"',
    ]);
  });

  describe('of a study', () => {
    const studyOf = (...more: readonly string[]) =>
      printed(
        ...['study', '--route', path('route.csv'), '--forecast', path('forecast.csv'), '--boat', path('boat.json')],
        ...['--depart-from', TIMES[0]!, '--out', path('study'), ...more],
      );

    test('weights and limits that are none, starts that run backwards', async () => {
      const known =
        'hours, changes, night-changes, waking-changes, reefs, operations, hand-hours, tacks, gybes, without-main-hours, knife-edge-hours, motor-hours, fuel-litres, hove-to-hours, no-plan-hours, near-limit-hours, hours-over-28, hours-over-34, hours-over-48, wind-max, gust-max, wave-max, climatology-hours, unsteady-hours, steadiness, wear-money, slatting-unknown-hours';
      const expected = `expected what=number, like changes=0.5, what being one of ${known}`;
      expect(
        await studyOf(
          '--weight',
          'change=1',
          '--limit',
          'hours=',
          '--weight',
          'hours=1=2',
          '--depart-to',
          '2027-01-09T00:00Z',
        ),
      ).toEqual([
        `--depart-to: expected the last start not before the first, ${TIMES[0]}, got 2027-01-09T00:00Z`,
        `--weight: ${expected}, got "change=1"`,
        `--weight: ${expected}, got "hours=1=2"`,
        `--limit: ${expected}, got "hours="`,
      ]);
    });

    test('what is given twice, and a member where there is none', async () => {
      expect(
        await studyOf(
          '--weight',
          'hours=1',
          '--weight',
          'hours=2',
          '--member',
          '1',
          '--member',
          '1',
          '--boat',
          path('boat.json'),
        ),
      ).toEqual([
        '--boat: expected each once, got boat.json again',
        '--member: expected each once, got 1 again',
        '--weight: expected each once, got hours again',
      ]);
      expect(await studyOf('--member', '1')).toEqual(['member: expected a forecast of several members, got none']);
    });

    test('more passages than anyone has time for', async () => {
      expect(await studyOf('--depart-to', '2047-01-10T00:00Z', '--depart-every', '0.1')).toEqual([
        '--depart-every: expected at most 1000000 passages, got 1753200',
      ]);
    });

    test('options that are none, told by their names', async () => {
      expect(await studyOf('--crew', '2.5', '--threads', '0', '--depart-every', 'x', '--depart-to', 'noon')).toEqual([
        '--depart-to: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "noon"',
        '--depart-every: expected a number from 0.1 to 10000, got "x"',
        '--threads: expected a number from 1 to 256, got "0"',
      ]);
      expect(await studyOf('--crew', '2.5', '--without', 'jibb')).toEqual([
        '--crew: expected a whole number from 1 to 100, got 2.5',
        '--without: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)',
      ]);
    });

    test('a folder that holds another study, or one at work', async () => {
      mkdirSync(path('study'));
      writeFileSync(path('study/study.partial.json'), '{"digest":"another"}');
      expect(await studyOf()).toEqual([
        'study: expected the files and options with which the study in this folder was begun, or another folder (without study.partial.json and passages.partial.jsonl it is forgotten), got other files or options, and a study that is not finished',
      ]);
      writeFileSync(path('study/study.lock'), `${process.ppid}`);
      expect(await studyOf()).toEqual([
        `study: expected a folder in which no other study is at work (study.lock tells of one; remove it if there is none), got process ${process.ppid} at work`,
      ]);
    });
  });

  describe('of a wardrobe that is compared', () => {
    const boat = readBoat(BOAT);
    const polars = readPolars(POLARS, { boat });
    const side = { name: 'boat.json', boat, polars };

    test('passages that the other did not sail, or none that both finish', async () => {
      const record = { departure: TIMES[0]!, complete: false } as PassageRecord;
      const [none, one] = [[], [record]].map((records) => ({ ...side, records }));
      expect(await faultsOf(() => worthOf(one!, none!, {}))).toEqual([
        `studyA: expected a passage that the other study has too: of the same route, weather and start, got one from ${TIMES[0]}`,
      ]);
      expect(await faultsOf(() => worthOf(one!, one!, {}))).toEqual([
        'boat.json: expected a passage that both boats finish, got none of 1',
      ]);
    });

    test('one passage twice, prices in two currencies, a pole without a headsail to hold out', async () => {
      const record = { departure: TIMES[0]!, complete: false } as PassageRecord;
      const [once, twice] = [[record], [record, record]].map((records) => ({ ...side, records }));
      expect(await faultsOf(() => worthOf(once!, twice!, {}))).toEqual([
        'studyB: expected every passage once: of one boat, route, weather and start, got 1 again',
      ]);
      const [euros, dollars] = ['EUR', 'USD'].map((currency) => ({ ...once!, boat: { ...boat, currency } }));
      expect(await faultsOf(() => worthOf(euros!, dollars!, {}))).toEqual([
        "boat.json, currency: expected prices in EUR, as the other boat's are: nothing is converted, got USD",
      ]);
      const bare = { ...boat, sails: boat.sails.filter(({ id }) => id === 'main') };
      expect(await faultsOf(() => boatWith(bare, polars, { kind: 'poled-out-headsail' }))).toEqual([
        'boat: expected a headsail on the forestay, which a poled-out headsail is a setting of, got none',
      ]);
    });

    test('boats that differ in more than their wardrobes', () => {
      const other = { ...boat, crew: 9, sails: boat.sails.slice(1), house: { ...boat.house, gustFactor: 1.9 } };
      expect(messagesOf(unlikeWarnings(side, { boat: other }, 'b.json'))).toEqual(
        ['crew', 'house'].map(
          (what) =>
            `b.json, ${what}: expected the same as of the other boat, so that only their wardrobes are compared, got another`,
        ),
      );
      expect(unlikeWarnings(side, { boat: { ...boat, sails: [] } }, 'b.json')).toEqual([]);
    });

    test('a sail that takes more hands than she has, and competitors that cannot be tried', () => {
      const hands = { minutes: 5, hands: 3, keptShare: 0.9 };
      const sail = {
        id: 'kite',
        kind: 'asymmetric-running',
        window: { awaMinDeg: 90, awaMaxDeg: 180 },
        operations: { douse: { day: hands, night: hands } },
      } as const;
      const more = { ...side, boat: { ...boat, sails: [...boat.sails, sail] } };
      expect(messagesOf(crewWarnings(side, more, 2))).toEqual([
        'boat.json: expected 3 hands for kite, which it takes to set it or to take it down, got a crew of 2: it is never set',
      ]);
      expect(crewWarnings(side, more, 3)).toEqual([]);
      const [first] = messagesOf(rivalsOf(side, more, undefined, 'boat.json').warnings);
      expect(first).toMatch(
        /^boat\.json: expected symmetric-cruising to compare with, got that it cannot be tried: boat\.json/,
      );
    });
  });

  test('waves that are no limit of a sail', async () => {
    expect(await planOf('--wave-max', 'main=high')).toEqual([
      '--wave-max: expected sail=metres, like vented=2.5, got "main=high"',
    ]);
  });

  test('planning again later than she sees', async () => {
    expect(await planOf('--horizon', '24', '--replan-every', '36')).toEqual([
      '--replan-every: expected at most the 24 h of the horizon, got 36',
    ]);
  });

  test('house rules that are none, told by the options they were given by', async () => {
    expect(await planOf('--motor-below', 'x', '--price-per-change', '-1', '--changes-in-dark', 'some')).toEqual([
      '--price-per-change: expected a number from 0 to 1000000, got -1',
      '--changes-in-dark: expected one of any, not-flying, none, got "some"',
      '--motor-below: expected a number from 0 to 20, got "x"',
    ]);
  });

  test('people and labels that are no whole number', async () => {
    expect(await planOf('--crew', '2.5', '--labels', '1.5')).toEqual([
      '--crew: expected a whole number from 1 to 100, got 2.5',
      '--labels: expected a whole number from 1 to 64, got 1.5',
    ]);
  });

  test('no options at all', async () => {
    const inputs = await withBoat();
    for (const none of [undefined, null])
      expect(await faultsOf(() => planPassage(inputs, none as unknown as PassageOptions))).toEqual([
        `options: expected an object with a departure, got ${none === null ? 'null' : 'nothing'}`,
      ]);
  });

  describe('settings without effect', () => {
    const idle = async (options: Partial<PassageOptions>, more: object = {}) => {
      const { warnings } = planPassage(await withBoat(more), { departure: TIMES[0]!, ...options });
      return messagesOf(warnings.filter(({ code }) => code === 'no-effect'));
    };
    const NONE = 'the setting has no effect';

    test('an engine that is not there', async () => {
      expect(await idle({ house: { motorBelowKn: 3 } })).toEqual([
        `options, house.motorBelowKn: expected an engine in the boat file, got none: ${NONE}`,
      ]);
      expect(await idle({}, { house: { motorBelowKn: 3 } })).toEqual([
        `boat, house.motorBelowKn: expected an engine, got none: ${NONE}`,
      ]);
      const engine = { cruiseKn: 5, litresPerHour: 3, fuelLitres: 100 };
      expect(await idle({ house: { motorBelowKn: 3 } }, { engine })).toEqual([]);
    });

    test('planning again without a horizon, squalls that are not allowed for', async () => {
      expect(await idle({ replanHours: 6, house: { squallChance: 0.1, squallFactor: 2.5 } })).toEqual([
        `options, replanHours: expected a horizon, got none: ${NONE}`,
        `options, house.squallFactor: expected squalls to be allowed for, got that they are not: ${NONE}`,
      ]);
      expect(await idle({ replanHours: 6, horizonHours: 12, house: { squallFactor: 2.5, squalls: true } })).toEqual([]);
    });

    test('what the baseline does not ask', async () => {
      expect(await idle({ choice: 'fastest', crew: 3, house: { pricePerChangeMinutes: 5, gustMargin: 1.1 } })).toEqual([
        `options, crew: expected the choice "planned", got "fastest": ${NONE}`,
        `options, house.pricePerChangeMinutes: expected the choice "planned", got "fastest": ${NONE}`,
      ]);
    });
  });

  test('changes for which there are too few hands', async () => {
    // To douse what is set at departure wants two hands, and a gust that it does not stand comes with the second hour.
    const aboard = JSON.parse(BOAT) as { sails: { id: string }[] };
    const effort = { minutes: 10, hands: 2, keptShare: 0.5 };
    const both = { day: effort, night: effort };
    const sails = aboard.sails.map((sail) => ({ ...sail, operations: { douse: both } }));
    const forecast = forecastCsv('u10,v10', (time) => (time === TIMES[0] ? [-8, 1] : [-40, 5]));
    const inputs = { ...(await withBoat({ sails })), forecast: (await readForecast(forecastOf(forecast))).forecast };
    const { changes, warnings } = planPassage(inputs, { departure: TIMES[0]!, crew: 1 });
    expect(changes!.some(({ handsShort }) => handsShort > 0)).toBe(true);
    expect(messagesOf(warnings.filter(({ code }) => code === 'hands-short'))).toEqual([
      'passage: expected changes for no more hands than the 1 aboard, got 1 for more, the first at 2027-01-10T02:00:00Z',
    ]);
  });

  test('fuel that the batteries take from the reserve', async () => {
    const engine = { cruiseKn: 5, litresPerHour: 4, fuelLitres: 20, reserveLitres: 10, chargingHoursPerDay: 24 };
    const { hours, warnings } = planPassage(await withBoat({ engine }), { departure: TIMES[0]! });
    const litres = 4 * hours.reduce((sum, { minutes }) => sum + minutes / 60, 0);
    expect(litres).toBeGreaterThan(10);
    expect(messagesOf(warnings.filter(({ code }) => code === 'fuel-reserve'))).toEqual([
      `boat, engine: expected at most 10 l burnt, which leaves the reserve of 10 l, got ${litres.toFixed(0)} l, ${litres.toFixed(0)} of them for the batteries`,
    ]);
  });

  test('no plan left without some sails', async () => {
    expect(await planOf('--without', 'main')).toEqual([
      '--without: expected at least one sail plan without these sails, got none',
    ]);
    expect(await faultsOf(() => planned(FORECAST, { without: ['main'] }))).toEqual([
      'options, without: expected at least one sail plan without these sails, got none',
    ]);
  });

  test('a position off the route', async () => {
    const { warnings } = await loadInputs(
      { route: path('route.csv'), forecast: path('forecast.csv'), boat: path('boat.json') },
      { from: { latDeg: 11.5, lonDeg: -61 } },
    );
    // 15 Nm north of the middle of a leg on course 243.0: 15 × sin 63.0° off it.
    expect(messagesOf(warnings).map((message) => message.replace(path(''), ''))).toEqual([
      'route.csv: expected a position on the route, got one 13.4 Nm off it; waypoints left behind: 1',
    ]);
  });

  test('a file of no known kind, and a plan of a newer format', async () => {
    writeFileSync(path('other.json'), '{ "a": 1 }');
    expect(await printed('check', path('other.json'))).toEqual([
      'other.json: expected a route, forecast, climatology, boat, polars or plan, got something else',
    ]);
    expect(await faultsOf(() => readPlan('{ "formatVersion": 2 }'))).toEqual([
      'plan.json, formatVersion: expected a format version up to 1, got 2: written by a newer windwardrobe',
    ]);
  });

  const FULL = 'u10_kn,v10_kn,gust_kn,current_u,current_v,wave_height';
  /** 8 kn in any wind: 66 Nm in 8 h 16 min. */
  const EIGHT = `sail_plan,tws_kn,twa_deg,stw_kn\n${['main', 'reef1+jib']
    .flatMap((plan) => [1, 60].flatMap((tws) => [40, 180].map((twa) => `${plan},${tws},${twa},8\n`)))
    .join('')}`;

  test('strong wind where she is, a gale near by, and an arrival in the dark', async () => {
    // An easterly of 12 kn at 00 h and 12 h, of 35 kn at 06 h, drawn straight between: 31 kn at 5 h and 7 h.
    const text = forecastCsv(FULL, (time) => [time === TIMES[1] ? -35 : -12, 0, 40, 0, 0, 2]);
    const { warnings } = await planned(text, {}, { polars: EIGHT });
    expect(messagesOf(warnings)).toEqual([
      "forecast.csv: expected mean wind of no more than 28 kn (near gale), got 3 h above it, first at 2027-01-10T05:00:00Z at 11°11.8'N 061°06.3'W; most 35.0 kn at 2027-01-10T06:00:00Z at 11°08.2'N 061°13.6'W",
      "forecast.csv: expected mean wind of no more than 34 kn (gale), got 1 h above it, first at 2027-01-10T06:00:00Z at 11°08.2'N 061°13.6'W; most 35.0 kn at 2027-01-10T06:00:00Z at 11°08.2'N 061°13.6'W",
      'forecast.csv: expected no mean wind of 34 kn (gale) within 200 Nm of the boat, got some in 1 h, nearest on the boat at 2027-01-10T06:00:00Z; strongest 35.0 kn at 2027-01-10T06:00:00Z',
      'passage: expected arrival by daylight, got arrival in the dark at 2027-01-10T08:15:24Z: 133 min to lose until sunrise at 2027-01-10T10:27:43Z, 617 min to gain for sunset at 2027-01-09T21:58:50Z',
    ]);
  });

  test('a gale off the track', async () => {
    const text = forecastCsv(FULL, (time, lat, lon) => [
      time === TIMES[1] && lat === 12 && lon === -60 ? -35.5 : -12,
      0,
      40,
      0,
      0,
      2,
    ]);
    const said = messagesOf((await planned(text, {}, { polars: EIGHT })).warnings);
    expect(said[0]).toBe(
      'forecast.csv: expected no mean wind of 34 kn (gale) within 200 Nm of the boat, got some in 1 h, nearest 89 Nm off, bearing 54°, at 2027-01-10T06:00:00Z; strongest 35.5 kn at 2027-01-10T06:00:00Z',
    );
  });

  test('several gaps in the times', async () => {
    const hours = [0, 1, 2, 3, 5, 6, 7, 8, 12, 13, 14, 15];
    const times = hours.map((hour) => `2027-01-10T${`${hour}`.padStart(2, '0')}:00Z`);
    const text = forecastCsv(FULL, always(-15, 0, 20, 0, 0, 2), times);
    expect(messagesOf((await planned(text)).warnings)).toEqual([
      'forecast.csv: expected times without gaps (up to 12 h are bridged), got 2 gaps, the longest of 4 h, from 2027-01-10T08:00:00Z to 2027-01-10T12:00:00Z: wind in between is drawn straight from one end to the other',
    ]);
  });
});

describe('what follows from kinds', () => {
  const kinds = (sails: readonly object[], more: object = {}) =>
    JSON.stringify({ name: 'Kinds', hull: { type: 'monohull' }, sails, ...more });

  test('a window in part against the default of its kind', async () => {
    const text = kinds([
      { id: 'jib', kind: 'self-tacking-jib', window: { awaMinDeg: 120 } },
      { id: 'storm-jib', kind: 'storm-jib', window: { awaMaxDeg: 30 } },
      { id: 'main', kind: 'pin-head-main', window: { awsMinKn: 30 } },
    ]);
    expect(await faultsOf(() => readBoat(text))).toEqual([
      'boat.json, sails[0].window.awaMinDeg: expected less than awaMaxDeg (110, the default of self-tacking-jib), or both to be given, got 120',
      'boat.json, sails[1].window.awaMaxDeg: expected more than awaMinDeg (35, the default of storm-jib), or both to be given, got 30',
      'boat.json, sails[2].window.awsMinKn: expected less than awsMaxKn (23.4, the default of pin-head-main), or both to be given, got 30',
    ]);
  });

  test('too many sail plans, and ids too long', async () => {
    const jibs = Array.from({ length: 40 }, (_, i) => ({ id: `jib-${i}`, kind: 'self-tacking-jib' }));
    expect(await faultsOf(() => readBoat(kinds([{ id: 'main', kind: 'pin-head-main' }, ...jibs])))).toEqual([
      'boat.json, sailPlans: expected a list of sail plans, where more than 200 follow from the sails, got none, and 365 follow',
    ]);
    const reefs = Array.from({ length: 9 }, (_, i) => ({ areaShare: 0.9 - i / 20 }));
    const many = (kind: string) => Array.from({ length: 50 }, (_, i) => ({ id: `${kind}-${i}`, kind, reefs }));
    const wardrobe = kinds([...many('pin-head-main'), ...many('self-tacking-jib')]);
    expect(await faultsOf(() => readBoat(wardrobe))).toEqual([
      'boat.json, sailPlans: expected a list of sail plans, where more than 200 follow from the sails, got none, and 138501 follow',
    ]);
    const long = [
      { id: 'm'.repeat(120), kind: 'pin-head-main' },
      { id: 'j'.repeat(120), kind: 'self-tacking-jib', reefs: [] },
    ];
    expect(await faultsOf(() => readBoat(kinds(long)))).toEqual([
      'boat.json, sailPlans: expected shorter ids of sails, or a list of sail plans: their ids would have more than 200 characters, got 243',
    ]);
  });

  test('waves for a sail, where settings of sails follow too', async () => {
    const sails = [{ id: 'jib', kind: 'self-tacking-jib' }];
    const waves = (waveMaxM: object) =>
      faultsOf(() => readBoat(kinds(sails, { rig: { poleM: 4 }, house: { waveMaxM } })));
    expect(await waves({ jib: 4, 'poled-jib': 2 })).toEqual([]);
    expect(await waves({ 'poled-jab': 2 })).toEqual([
      'boat.json, house.waveMaxM.poled-jab: expected the id of a sail aboard, got "poled-jab" (did you mean "poled-jib"?)',
    ]);
  });

  test('a boat made in memory that was never completed', async () => {
    const { forecast } = await readForecast(forecastOf(FORECAST));
    const boat = JSON.parse(kinds([{ id: 'main', kind: 'pin-head-main', window: { awaMinDeg: 30 } }])) as never;
    const inputs = { route: readRoute(ROUTE), forecast, boat, polars: readPolars(POLARS) };
    expect(await faultsOf(() => planPassage(inputs, { departure: TIMES[0]! }))).toEqual([
      'boat, sails[0].window.awaMaxDeg: expected a complete boat, as readBoat and completeBoat give her, got nothing here',
      'boat, sailPlans: expected a complete boat, as readBoat and completeBoat give her, got nothing here',
    ]);
  });

  test('what a boat lacks, sails over the rules, plans without a polar', async () => {
    const { forecast } = await readForecast(forecastOf(FORECAST));
    const text = kinds(
      [
        { id: 'main', kind: 'pin-head-main' },
        { id: 'gennaker', kind: 'gennaker', midGirthRatio: 0.7 },
        { id: 'spinnaker', kind: 'symmetric-cruising' },
        { id: 'storm-jib', kind: 'storm-jib', areaM2: 13 },
      ],
      { rig: { iM: 15, innerForestay: true } },
    );
    const inputs = { route: readRoute(ROUTE), forecast, boat: readBoat(text), polars: readPolars(POLARS) };
    expect(
      messagesOf(planPassage(inputs, { departure: TIMES[0]! }).warnings).filter((said) => /^(boat|polars)/.test(said)),
    ).toEqual([
      'boat, sails[1]: expected a half width of 75 % of the foot and more for gennaker, got 70 %: it measures as a headsail, like a code-zero',
      'boat, sails[2]: expected the boat to have two bows or a pole for spinnaker (symmetric-cruising), got none in the boat file',
      'boat, sails[3]: expected the area of a storm jib (0.05 · I²) to be at most 11.3 m², got 13 m²',
      'polars: expected a polar for every sail plan that follows from the sails, got none for 10 of them, which are never set: main.3+storm-jib, main+gennaker, gennaker, main+spinnaker, spinnaker and 5 more',
    ]);
  });

  test('a plan whose sails meet at no angle', () => {
    const boat = readBoat(
      kinds(
        [
          { id: 'jib', kind: 'self-tacking-jib' },
          { id: 'runner', kind: 'asymmetric-running-heavy', window: { awaMinDeg: 120 } },
        ],
        { sailPlans: [{ id: 'both', sails: ['jib', 'runner'] }] },
      ),
    );
    expect(messagesOf(wardrobeWarnings(boat))).toEqual([
      'boat, sailPlans[0]: expected sails in a plan that may be carried at one angle, got none in common in "both": it is never set',
    ]);
  });

  test('a plan without polars', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    const path = (name: string) => join(folder, name);
    const text = kinds([{ id: 'main', kind: 'pin-head-main' }]);
    for (const [name, content] of Object.entries({ route: ROUTE, forecast: FORECAST, boat: text })) {
      writeFileSync(path(name), content);
    }
    const paths = { route: path('route'), forecast: path('forecast'), boat: path('boat') };
    expect(
      await faultsOf(() => loadInputs(paths)).then((said) => said.map((one) => one.replace(`${folder}/`, ''))),
    ).toEqual([
      'boat, hull.waterlineM: expected a value: where there are no polars, speeds are estimated from it, got nothing',
      'boat, hull.displacementKg: expected a value: where there are no polars, speeds are estimated from it, got nothing',
      'boat, sails[0].areaM2: expected an area, or measures and a rig from which it follows: where there are no polars, speeds are estimated from it, got none',
      'boat, rig.pM: expected a value: where there are no polars, speeds are estimated from it, got nothing',
    ]);
    rmSync(folder, { recursive: true });
  });
});

describe('a further sail beside polars', () => {
  test('is told what its speeds are estimated from, or to bring its own', async () => {
    const boat = readBoat(readFileSync('data-samples/boat.json', 'utf8'), { file: 'boat.json' });
    const polars = readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat });
    expect(await faultsOf(() => boatWith(boat, polars, { kind: 'symmetric-cruising' }, 'boat.json'))).toEqual([
      'boat.json: expected rig.pM, rig.iM, from which the speeds of main+spinnaker, spinnaker are estimated; or the further sail in the boat file, with its sail plans and a polar of each, got neither',
    ]);
  });
});

describe('estimated speeds', () => {
  const hull = { type: 'catamaran', waterlineM: 12, displacementKg: 9000, hullCentresM: 5.5 };
  const boat = (more: object) =>
    JSON.stringify({
      name: 'X',
      hull,
      rig: { iM: 15, jM: 4.5, pM: 14.5, eM: 5.2 },
      sails: [
        { id: 'main', kind: 'full-roach-main' },
        { id: 'jib', kind: 'self-tacking-jib' },
      ],
      ...more,
    });
  const known = (stwKn: number, sailPlan = 'main+jib') => ({
    knownSpeeds: [{ twsKn: 12, twaDeg: 90, stwKn, sailPlan }],
  });

  test('polars of plans and of the boat', async () => {
    expect(await faultsOf(() => readBoat(boat({ polars: 'a.csv', boatPolar: 'b.csv' })))).toEqual([
      'boat.json, boatPolar: expected polars of the sail plans, or one of the whole boat to be split, got both',
    ]);
  });

  test('a known speed of no plan', async () => {
    expect(await faultsOf(() => readBoat(boat(known(7, 'main+jip'))))).toEqual([
      'boat.json, knownSpeeds[0].sailPlan: expected the id of a sail plan of the boat, got "main+jip" (did you mean "main+jib"?)',
    ]);
  });

  test('a known speed beyond what the sails drive', async () => {
    expect(await faultsOf(() => estimatePolars(readBoat(boat(known(39)))))).toEqual([
      'boat, knownSpeeds[0].stwKn: expected a speed at which the sails of "main+jib" still drive the boat, got a higher one',
    ]);
  });

  test('a polar of the boat beyond what the sails drive', async () => {
    const boatPolar = { twsKn: [4, 5], twaDeg: [40, 50], stwKn: [40, 40, 40, 40] };
    expect(await faultsOf(() => estimatePolars(readBoat(boat({})), { boatPolar }))).toEqual([
      'boat, boatPolar: expected speeds at which the sails aboard still drive the boat, got none',
    ]);
  });

  test('a polar of the boat that is not given', async () => {
    expect(await faultsOf(() => estimatePolars(readBoat(boat({ boatPolar: 'whole.csv' }))))).toEqual([
      'boat, boatPolar: expected the polar the boat file names here to be read and given as the option boatPolar, got none',
    ]);
  });

  test('known speeds that no such hull makes', async () => {
    expect(await faultsOf(() => estimatePolars(readBoat(boat(known(2)))))).toEqual([
      expect.stringMatching(
        /^boat, knownSpeeds: expected speeds that a hull of this waterline and displacement makes: 0\.2 to 6 times the usual resistance, got [\d.]+ times it: look for a slip in speeds, areas, displacement or waterline$/,
      ),
    ]);
    expect(await faultsOf(() => estimatePolars(readBoat(boat(known(16)))))).toEqual([
      expect.stringMatching(/got (?:under 0\.01|0\.\d+) times it/),
    ]);
  });

  test('a missing polar of the boat is named itself', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    writeFileSync(join(folder, 'boat.json'), boat({ boatPolar: 'none.csv' }));
    expect(await faultsOf(() => loadBoat(join(folder, 'boat.json')))).toEqual([
      'none.csv: expected a file that can be read, got no such file',
    ]);
    rmSync(folder, { recursive: true });
  });

  test('several polars where one is wanted', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    const rows = ['main', 'jib'].flatMap((id) => [40, 90].map((twa) => `${id},10,${twa},5`));
    writeFileSync(join(folder, 'b.csv'), `sail_plan,tws_kn,twa_deg,stw_kn\n${rows.join('\n')}\n`);
    writeFileSync(join(folder, 'boat.json'), boat({ boatPolar: 'b.csv' }));
    expect(await faultsOf(() => loadBoat(join(folder, 'boat.json')))).toEqual([
      'b.csv: expected one polar for the whole boat, got 2: main, jib',
    ]);
    rmSync(folder, { recursive: true });
  });
});

describe('climatology', () => {
  const read = (text: string, options = {}) => readClimatology({ name: 'months.csv', open: () => [text] }, options);
  const head = 'month,lat,lon,u,v,wspd';
  const row = (...cells: readonly (string | number)[]) => `${head}\n${cells.join(',')}\n`;
  const NO_MONTHS = 'months.csv: expected all twelve months, got none of 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12';

  const cases: readonly Case[] = [
    ['an empty file', '', ['months.csv: expected a header line and at least one row, got none']],
    ['a header only', `${head}\n`, ['months.csv: expected a header line and at least one row, got only a header line']],
    [
      'no columns of wind',
      'month,lat,lon,sst\n1,10,-60,27\n',
      [
        'months.csv, line 1: expected the mean wind towards east and north, as u10 and v10 or u and v, got "month, lat, lon, sst"',
        'months.csv, line 1: expected the mean speed of the wind, as wind_speed or wspd: the mean vector alone is too weak, got "month, lat, lon, sst"',
      ],
    ],
    [
      'no mean speed',
      'month,lat,lon,u,v\n1,10,-60,-6,1\n',
      [
        'months.csv, line 1: expected the mean speed of the wind, as wind_speed or wspd: the mean vector alone is too weak, got "month, lat, lon, u, v"',
      ],
    ],
    [
      'a direction in the place of a vector',
      'month,lat,lon,wind_from_direction,wspd\n1,10,-60,90,7\n',
      [
        'months.csv, line 1: expected the mean wind towards east and north, as u10 and v10 or u and v, got "month, lat, lon, wind_from_direction, wspd"',
      ],
    ],
    [
      'one component',
      'month,lat,lon,u,wspd\n1,10,-60,-6,7\n',
      ['months.csv, line 1, column u: expected v10 beside it, got it alone'],
    ],
    [
      'two of one quantity',
      'month,lat,lon,u,v,wspd,WSPD\n1,10,-60,-6,1,7,7\n',
      ['months.csv, line 1, column wspd: expected one column for each quantity, got wspd as well'],
    ],
    [
      'neither month nor time',
      'lat,lon,u,v,wspd\n10,-60,-6,1,7\n',
      [
        'months.csv, line 1, column month: expected this column in the header, or a time of which the month is taken, got only "lat, lon, u, v, wspd"',
      ],
    ],
    [
      'no latitude',
      'month,lon,u,v,wspd\n1,-60,-6,1,7\n',
      ['months.csv, line 1, column lat: expected this column in the header, got only "month, lon, u, v, wspd"'],
    ],
    [
      'a unit of another kind',
      'month,lat,lon,u (K),v,wspd\n1,10,-60,-6,1,7\n',
      [
        'months.csv, line 1, column u: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "K" (did you mean "kn"?)',
      ],
    ],
    ['too few cells', `${head}\n1,10,-60,-6,1\n`, ['months.csv, line 2: expected 6 cells, got 5']],
    [
      'numbers beyond all winds',
      row(1, 91, -190, 'x', 900, -1),
      [
        'months.csv, line 2, column lat: expected a number from -90 to 90, got "91"',
        'months.csv, line 2, column lon: expected a number from -180 to 360, got "-190"',
        'months.csv, line 2, column u: expected a number from -103 to 103, got "x"',
        'months.csv, line 2, column v: expected a number from -103 to 103, got "900"',
        'months.csv, line 2, column wspd: expected a number from 0 to 103, got "-1"',
      ],
    ],
    ['one month', row(1, 10, -60, -6, 1, 7), [NO_MONTHS]],
    [
      'rows that disagree',
      `${MONTHLY}7,12,-60,-6,1,7\n`,
      ['months.csv, line 50: expected rows of one point and time to agree, got another value for month 7 at 12, -60'],
    ],
    [
      'nothing but voids',
      MONTHLY.replace(/^(\d+,\d+,-\d+),.*$/gm, '$1,,,'),
      ['months.csv: expected wind in at least one row of the waters of the route, got none'],
    ],
    [
      'an open quote',
      `${head}\n1,10,"-60,-6,1,7\n`,
      ['months.csv, line 2: expected every quote to be closed, got an open quote'],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await faultsOf(() => read(text))).toEqual(messages);
  });

  test.each(['0', '13', '1.5', 'Jan', '', '-1', '1e9'])('month %s', async (month) => {
    expect(await faultsOf(() => read(row(month, 10, -60, -6, 1, 7)))).toEqual([
      `months.csv, line 2, column month: expected a whole month from 1 to 12, got "${month}"`,
    ]);
  });

  test.each(['2001', '2001-13-01', '1', '16/01/2001', ''])('date %s', async (date) => {
    const text = row(date, 10, -60, -6, 1, 7).replace('month', 'time');
    expect(await faultsOf(() => read(text))).toEqual([
      `months.csv, line 2, column time: expected a date like 2001-01-16, of which the month is taken, got "${date}"`,
    ]);
  });

  test('a chosen column that is not there, and a unit of a month', async () => {
    expect(
      await faultsOf(() =>
        read(MONTHLY, { columns: { wind_speed: { name: 'W' }, month: { name: 'month', unit: 'kn' } } }),
      ),
    ).toEqual([
      'months.csv, line 1, column month: expected a unit of none, got "kn"',
      'months.csv, column W: expected this column for wind_speed in the head of a forecast or climatology file, got only "month, lat, lon, u, v, wspd"',
    ]);
  });

  test('of several files each fault has its own', async () => {
    const sources = [MONTHLY, '', row(1, 10, -60, -6, 1, 'x')].map((text, i) => ({
      name: `${i}.csv`,
      open: () => [text],
    }));
    expect(await faultsOf(() => readClimatology(sources))).toEqual([
      '1.csv: expected a header line and at least one row, got none',
      '2.csv, line 2, column wspd: expected a number from 0 to 103, got "x"',
    ]);
    const rival = [MONTHLY, row(1, 10, -60, -6, 1, 7)].map((text, i) => ({ name: `${i}.csv`, open: () => [text] }));
    expect(await faultsOf(() => readClimatology(rival))).toEqual([
      '1.csv, line 2: expected rows of one point and time to agree, got another value for month 1 at 10, -60',
    ]);
    expect(await faultsOf(() => readClimatology([]))).toEqual([
      'climatology: expected a header line and at least one row, got none',
    ]);
  });

  test('what is odd in it is warned of', async () => {
    const odd = `${MONTHLY}1,14,-60,-6,0,5\n2,14,-60,-6,0,\n3,14,-60,,,6\n4,14,-60,-6,,6\n`;
    const { warnings } = await read(odd);
    expect(messagesOf(warnings)).toEqual([
      'months.csv: expected mean vector and mean speed of a cell and month, or neither, got 3 with one of them only, first for month 2 at 14, -60: they are taken as absent',
      "months.csv: expected a mean speed no lower than the length of the mean vector, got a lower one in 1 of 49 cells and months, first 9.72 under 11.66 kn for month 1 at 14, -60: few observations, rather; the vector's is taken, and they have no spread",
    ]);
    const zeros = ['-62', '-60', '-58'].map((lon) => `5,20,${lon},0,0,0`).join('\n');
    expect(messagesOf((await read(`${MONTHLY}${zeros}\n`)).warnings)).toEqual([
      'months.csv: expected wind that is exactly 0 at single points at most, got 3 neighbouring points and times with both components exactly 0, first for month 5 at 20, -62: rather a fill value or land than a calm',
    ]);
  });

  test('hours by it are warned of', async () => {
    const boat = readBoat(BOAT);
    const { climatology } = await read(MONTHLY);
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS, { boat }) };
    const warned = (of: typeof climatology) =>
      messagesOf(planPassage({ ...inputs, climatology: of }, { departure: TIMES[0]! }).warnings);
    expect(warned(climatology)[0]).toMatch(
      /^months\.csv: expected a forecast for every hour, got none in [\d.]+ h: the mean wind of the month instead, with a steadiness under 0\.7 in 0 h, where it says little of a day\. Gales, squalls and calms are not in a mean$/,
    );
    expect(warned(drawnFrom(climatology, { seed: 3, fromEpochSeconds: 0 }))[0]).toMatch(
      /^months\.csv: expected a forecast for every hour, got none in [\d.]+ h: synthetic weather instead \(seed 3\), one drawing of what monthly means imply, by shares that are placeholders\. Squalls and lulls are not in it$/,
    );
    const none = inputs as unknown as PassageInputs;
    expect(await faultsOf(() => planPassage(none, { departure: TIMES[0]! }))).toEqual([
      'inputs: expected a forecast, a climatology, or both, got neither',
    ]);
  });

  test('one made in memory that does not fit', async () => {
    const boat = readBoat(BOAT);
    const { climatology } = await read(MONTHLY);
    const odd = {
      ...climatology,
      lats: Float64Array.of(12, 10),
      lons: new Float64Array(0),
      meanSpeedKn: new Float32Array(3),
      windEastKn: new Float32Array(0),
      windNorthKn: new Float32Array(0),
    };
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS, { boat }), climatology: odd };
    expect(await faultsOf(() => planPassage(inputs, { departure: TIMES[0]! }))).toEqual([
      'months.csv, lats: expected rising numbers, got others',
      'months.csv, lons: expected rising numbers, got none',
      'months.csv, meanSpeedKn: expected 0 numbers, got 3',
    ]);
  });
});

describe('what is no input of ours', () => {
  test('is of a year in which nobody sails', async () => {
    for (const time of ['0000-01-01T00:00Z', '1799-12-31T00:00Z', '9999-01-01T00:00Z', '+275760-09-13T00:00Z'])
      expect(await faultsOf(() => readForecast(forecastOf(rowAt(time))))).toEqual([
        `forecast.csv, line 2, column time: expected a time in the years 1800 to 2200, got "${time}"`,
      ]);
  });

  test('is told for what it is', async () => {
    const gzip = '\u001f\ufffd\b\b';
    const said = 'expected a text in UTF-8, got a gzip archive: unpack it first';
    expect(await faultsOf(() => readRoute(gzip))).toEqual([`route.csv: ${said}`]);
    expect(await faultsOf(() => readBoat(gzip))).toEqual([`boat.json: ${said}`]);
    expect(await faultsOf(() => readPolars(gzip))).toEqual([`polars.csv: ${said}`]);
    expect(await faultsOf(() => readForecast(forecastOf(gzip)))).toEqual([`forecast.csv: ${said}`]);
  });

  test('is not read on where it has no end', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    const path = join(folder, 'large.csv');
    writeFileSync(path, '');
    truncateSync(path, LARGEST_FILES_MIB.plan * 2 ** 20 + 1);
    expect(await faultsOf(() => readTextFile(path))).toEqual([
      `${path}: expected a file of at most 32 MiB, got a larger one`,
    ]);
    rmSync(folder, { recursive: true });
  });

  test('is told on a page where files are only those that were put there', async () => {
    const put = (name: string, text: string) => new File([text], name);
    const page = (...files: readonly File[]) =>
      pageInputs(droppedFiles(files), { route: 'route.csv', forecast: 'wind.csv', boat: 'boat.json' });
    const missing = 'expected a file that can be read, got not on this page: put it here too';
    expect(await faultsOf(() => page(put('route.csv', ROUTE), put('boat.json', BOAT)))).toEqual([
      `polars.csv: ${missing}`,
      `wind.csv: ${missing}`,
    ]);
    // What a browser throws for a file that was changed on the disk; nothing here can change one.
    const changedSince = (name: string) => {
      const gone = () => Promise.reject(new DOMException('changed', 'NotReadableError'));
      const stream = () => new ReadableStream({ pull: gone });
      return Object.assign(put(name, ''), { arrayBuffer: gone, stream });
    };
    const gone = 'expected a file that can be read, got changed or gone since it was put here: put it here again';
    const files = [
      changedSince('route.csv'),
      changedSince('wind.csv'),
      put('boat.json', BOAT),
      put('polars.csv', POLARS),
    ];
    expect(await faultsOf(() => page(...files))).toEqual([`route.csv: ${gone}`, `wind.csv: ${gone}`]);
  });

  test('is no page where none was built', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
    const said = (path: string) =>
      `${path}: expected the page as "npm run build" makes it in a checkout (an installed package brings it), got none there: build it, or install the package anew`;
    for (const path of [folder, join(folder, 'static')])
      expect(await faultsOf(() => serveFolder(path, 0))).toEqual([said(path)]);
    rmSync(folder, { recursive: true });
  });

  test('is a route of too many points or of too long a name', async () => {
    const rows = Array.from({ length: 100_001 }, (_, i) => `A,${i % 2},0`);
    expect(await faultsOf(() => readRoute(route(...rows).replace(',to_next', '')))).toEqual([
      'route.csv, line 100002: expected at most 100000 waypoints, got 100001',
    ]);
    const name = 'x'.repeat(201);
    expect(await faultsOf(() => readRoute(changed(ROUTE, 'Start', name)))).toEqual([
      `route.csv, line 2: expected a name of at most 200 characters, got "${'x'.repeat(60)}…"`,
    ]);
  });
});

test('every sentence of the wording is asserted above', () => {
  expect(Object.keys(says).filter((sentence) => !seen.has(sentence as Sentence))).toEqual([]);
});
