import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutAtDateLine, positionText } from '../src/geo/geo.js';
import {
  type LegKind,
  layTrack,
  type Position,
  parsePosition,
  type Route,
  readRoute,
  routeFrom,
  sailingBetween,
  trackAt,
  type Waypoint,
} from '../src/index.js';
import { faultsOf } from './support/faults.js';
import { ROUTE } from './support/small.js';
import fileFormats from './truth/fileFormats.json' with { type: 'json' };
import { fixture } from './truth/fixture.js';

const gpx = (...lines: readonly string[]) =>
  ['<?xml version="1.0" encoding="UTF-8"?>', '<gpx version="1.1" creator="test">', ...lines, '</gpx>', ''].join('\n');
const rte = (...lines: readonly string[]) => gpx('<rte>', ...lines, '</rte>');
const trk = (...lines: readonly string[]) => gpx('<trk>', ...lines, '</trk>');
const rtept = (lat: number | string, lon: number | string, inner = '') =>
  `<rtept lat="${lat}" lon="${lon}">${inner}</rtept>`;
const trkpt = (lat: number | string, lon: number | string) => `<trkpt lat="${lat}" lon="${lon}"/>`;
const name = (text: string) => `<name>${text}</name>`;

const START: Waypoint = { name: 'Start', latDeg: 11.5, lonDeg: -60.5 };
const END: Waypoint = { name: 'End', latDeg: 11, lonDeg: -61.5 };
const WP = (index: number, latDeg: number, lonDeg: number): Waypoint => ({ name: `WP${index}`, latDeg, lonDeg });
const waypointsOf = (text: string) => readRoute(text).waypoints;

const json = (value: unknown) => JSON.stringify(value);
const lineString = (...coordinates: readonly unknown[]) => ({ type: 'LineString', coordinates });
const multiLine = (...coordinates: readonly unknown[]) => ({ type: 'MultiLineString', coordinates });
const point = (lon: unknown, lat: unknown, properties: object | null = null) => ({
  type: 'Feature',
  properties,
  geometry: { type: 'Point', coordinates: [lon, lat] },
});
const feature = (geometry: unknown, properties: object | null = null) => ({ type: 'Feature', properties, geometry });
const collection = (...features: readonly unknown[]) => ({ type: 'FeatureCollection', features });

describe('the format is told by the first character', () => {
  const GPX = rte(rtept(11.5, -60.5, name('Start')), rtept(11, -61.5, name('End')));
  const GEOJSON = json(collection(point(-60.5, 11.5, { name: 'Start' }), point(-61.5, 11, { name: 'End' })));

  test.each([
    ['CSV', ROUTE.replace('rhumb', '')],
    ['GPX', GPX],
    ['GeoJSON', GEOJSON],
  ])('%s, also after a byte order mark and blank lines, and with any line ends', (_, text) => {
    const bare = text.replace(/<\?xml.*\?>\n/, '');
    for (const same of [text, `\ufeff${text}`, `\n \t\n${bare}`, `\ufeff\n${bare}`, text.replaceAll('\n', '\r\n')])
      expect(readRoute(same)).toEqual({ waypoints: [START, END] });
  });

  test('names the file as the format has it, unless one is given', () => {
    expect(faultsOf(() => readRoute('<'))).toEqual([
      'route.gpx, line 1: expected a well-formed XML text, got a fault at "<"',
    ]);
    expect(faultsOf(() => readRoute('{'))[0]).toMatch(/^route\.geojson, line 1: expected a JSON text, got /);
    expect(faultsOf(() => readRoute('['))[0]).toMatch(/^route\.geojson, line 1: expected a JSON text, got /);
    expect(faultsOf(() => readRoute(''))).toEqual(['route.csv: expected a header line and at least one row, got none']);
    expect(faultsOf(() => readRoute('<', 'mine.xml'))[0]).toMatch(/^mine\.xml, line 1: /);
  });
});

describe('GPX', () => {
  const TWO = [rtept(11.5, -60.5, name('Start')), rtept(11, -61.5, name('End'))] as const;

  test.each([
    [
      'numbers as XML Schema has them',
      rte(rtept('+11.50', ' -60.5 ', name('Start')), rtept('11.', '-61.5', name('End'))),
    ],
    ['longitudes to 360', rte(rtept(11.5, 299.5, name('Start')), rtept(11, 298.5, name('End')))],
    ['names with blanks and line ends', rte(rtept(11.5, -60.5, name('\n  Start\n')), rtept(11, -61.5, name('End ')))],
    ['a name of character data', rte(rtept(11.5, -60.5, name('<![CDATA[Start]]>')), TWO[1])],
    [
      'more about the points',
      rte(rtept(11.5, -60.5, `<ele>0</ele><time>2027-01-10T00:00Z</time>${name('Start')}<sym>x</sym>`), TWO[1]),
    ],
    ['comments and instructions', rte('<!-- <rtept lat="0" lon="0"/> -->', '<?x y?>', ...TWO)],
    [
      'metadata, waypoints and a track beside the route',
      gpx(
        '<metadata><name>M</name></metadata>',
        '<wpt lat="1" lon="2"/>',
        `<rte>${TWO.join('')}</rte>`,
        `<trk><trkseg>${trkpt(5, 5)}${trkpt(6, 6)}</trkseg></trk>`,
      ),
    ],
    ['a route without points beside it', gpx('<rte><name>Empty</name></rte>', `<rte>${TWO.join('')}</rte>`)],
    [
      'GPX 1.0',
      gpx(`<rte>${TWO.join('')}</rte>`).replace(
        'version="1.1"',
        'version="1.0" xmlns="http://www.topografix.com/GPX/1/0"',
      ),
    ],
    [
      'extensions',
      rte(
        '<extensions><x:rte xmlns:x="urn:x"><rtept lat="3" lon="3"/></x:rte></extensions>',
        rtept(11.5, -60.5, `<extensions><name>other</name></extensions>${name('Start')}`),
        TWO[1],
      ),
    ],
    [
      'elements of another namespace',
      rte(
        rtept(11.5, -60.5, `<x:name xmlns:x="urn:x">other</x:name>${name('Start')}`),
        '<y:rtept lat="1" lon="1"/>',
        TWO[1],
      ),
    ],
    [
      'a namespace prefix',
      rte(...TWO)
        .replaceAll('</', '</g:')
        .replaceAll(/<(?=[a-z])/g, '<g:')
        .replace('<g:gpx', '<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1"'),
    ],
    ['single quotes', rte(...TWO).replaceAll('"', "'")],
  ])('the same route: %s', (_, text) => {
    expect(waypointsOf(text)).toEqual([START, END]);
  });

  test('entities in names come out decoded', () => {
    const text = rte(
      rtept(11.5, -60.5, name('A &amp; B &lt;&#xe9;&#233;&gt; &quot;&apos;')),
      rtept(11, -61.5, name('&amp;lt;')),
    );
    expect(waypointsOf(text).map((waypoint) => waypoint.name)).toEqual([`A & B <éé> "'`, '&lt;']);
  });

  test('points without a name are numbered', () => {
    const text = rte(rtept(11.5, -60.5), rtept(11.2, -61, name('  ')), rtept(11, -61.5, '<desc>not this</desc>'));
    expect(waypointsOf(text)).toEqual([WP(1, 11.5, -60.5), WP(2, 11.2, -61), WP(3, 11, -61.5)]);
  });

  test('a track gives all its segments in order, repeated places once', () => {
    const text = trk(
      `<trkseg>${trkpt(11.5, -60.5)}${trkpt(11.5, -60.5)}${trkpt('11.50000005', -60.5)}${trkpt(11.2, -61)}</trkseg>`,
      '<trkseg/>',
      `<trkseg>${trkpt(11.2, 299)}${trkpt(11, -61.5)}${trkpt(11.2, -61)}</trkseg>`,
    );
    expect(waypointsOf(text)).toEqual([WP(1, 11.5, -60.5), WP(2, 11.2, -61), WP(3, 11, -61.5), WP(4, 11.2, -61)]);
  });

  test('legs go the shorter way round the date line, eastwards and westwards', () => {
    const places = [
      [-17, 179],
      [-17, -179],
      [-18, 180],
      [-18, 179],
    ] as const;
    const track = layTrack(readRoute(rte(...places.map(([lat, lon]) => rtept(lat, lon)))));
    expect(track.distanceNm.at(-1)).toBeLessThan(115 + 85 + 60);
    expect(Math.min(...track.lonDeg.map(Math.abs))).toBeGreaterThanOrEqual(179);
  });

  const DEGREES = (path: string, line: number, limits: string, got: string) =>
    `route.gpx, line ${line}, ${path}: expected decimal degrees from ${limits}, like 16.88, got ${got}`;
  test.each<[string, string, readonly string[]]>([
    [
      'not well-formed',
      rte(TWO[0], '<rtept lat="11" lon="-61.5">', TWO[1]),
      ['route.gpx, line 7: expected a well-formed XML text, got a fault at "</rte>"'],
    ],
    [
      'cut off',
      rte(...TWO).slice(0, -'</rte>\n</gpx>\n'.length),
      ['route.gpx, line 5: expected a well-formed XML text, got its end too early'],
    ],
    [
      'an entity that is not defined, after characters of two units',
      rte(rtept(11.5, -60.5, name('⛵\u{1f30a}\u{1f30a}')), rtept(1, 1, name('&nbsp;'))),
      ['route.gpx, line 5: expected a well-formed XML text, got a fault at "&nbsp;</name></rtept>"'],
    ],
    [
      'a document type',
      '<?xml version="1.0"?>\n<!-- <!DOCTYPE -->\n<!DOCTYPE gpx [<!ENTITY a "b">]>\n<gpx><name>&a;</name></gpx>',
      ['route.gpx, line 3: expected XML without a <!DOCTYPE, got one with it'],
    ],
    [
      'another kind of file',
      '<?xml version="1.0"?>\n<kml><Document/></kml>',
      ['route.gpx, line 2: expected gpx as the outermost element, got "kml"'],
    ],
    [
      'waypoints only',
      gpx('<wpt lat="1" lon="2"/>', '<wpt lat="2" lon="2"/>'),
      [
        'route.gpx, line 2: expected a route (rte with rtept) or a track (trk with trkpt), got only 2 wpt, which stand in no order',
      ],
    ],
    [
      'nothing',
      gpx('<rte/>', '<trk><trkseg/></trk>'),
      ['route.gpx, line 2: expected a route (rte with rtept) or a track (trk with trkpt), got neither'],
    ],
    [
      'several routes',
      gpx(
        `<rte>${name('Out')}${TWO.join('')}</rte>`,
        `<rte>${TWO.join('')}</rte>`,
        `<rte>${name('Home &amp; dry')}${TWO.join('')}</rte>`,
      ),
      ['route.gpx, line 4: expected a single rte, got 3: "Out", unnamed, "Home & dry"'],
    ],
    [
      'many tracks',
      gpx(...Array.from({ length: 7 }, (_, i) => `<trk>${name(`T${i}`)}<trkseg>${trkpt(1, i)}</trkseg></trk>`)),
      ['route.gpx, line 4: expected a single trk, got 7: "T0", "T1", "T2", "T3", "T4" and 2 more'],
    ],
    ['one point', rte(TWO[0]), ['route.gpx, line 4: expected at least 2 waypoints, got 1']],
    [
      'a track that stays where it is',
      trk('<trkseg>', trkpt(1, 1), trkpt(1, 1), '</trkseg>'),
      ['route.gpx, line 5: expected at least 2 waypoints, got 1'],
    ],
    [
      'a place twice in a route',
      rte(TWO[0], rtept(11.5, 299.5, name('Again'))),
      ['route.gpx, line 5: expected a waypoint away from the one before, got the same place again at "Again"'],
    ],
    [
      'no position',
      rte(TWO[0], '<rtept/>'),
      [
        'route.gpx, line 5, lat: expected a value, got nothing',
        'route.gpx, line 5, lon: expected a value, got nothing',
      ],
    ],
    [
      'all bad positions at once',
      rte(rtept('11,5', '-60°30'), rtept(90.1, 360.5), '', rtept('1e1', ''), rtept('NaN', 'Infinity')),
      [
        DEGREES('lat', 4, '-90 to 90', '"11,5"'),
        DEGREES('lon', 4, '-180 to 360', '"-60°30"'),
        DEGREES('lat', 5, '-90 to 90', '"90.1"'),
        DEGREES('lon', 5, '-180 to 360', '"360.5"'),
        DEGREES('lat', 7, '-90 to 90', '"1e1"'),
        DEGREES('lon', 7, '-180 to 360', '""'),
        DEGREES('lat', 8, '-90 to 90', '"NaN"'),
        DEGREES('lon', 8, '-180 to 360', '"Infinity"'),
      ],
    ],
    [
      'a number without end',
      rte(rtept('1'.repeat(400), 1), TWO[1]),
      [DEGREES('lat', 4, '-90 to 90', `"${'1'.repeat(60)}…"`)],
    ],
    [
      'a pole',
      rte(rtept(89.5, 1), rtept(80, 1)),
      ['route.gpx, line 4, lat: expected legs within 89° of latitude, got 89.5'],
    ],
  ])('%s', (_, text, messages) => {
    expect(faultsOf(() => readRoute(text))).toEqual(messages);
    const moved = `\n\n${text.replace(/^<\?xml.*\?>\n/, '\n')}`.replaceAll('\n', '\r\n');
    const later = messages.map((message) => message.replace(/line (\d+)/, (_, line) => `line ${Number(line) + 2}`));
    expect(faultsOf(() => readRoute(moved))).toEqual(later);
  });
});

describe('GeoJSON', () => {
  const PLACES = [
    [-60.5, 11.5],
    [-61, 11.2],
    [-61.5, 11],
  ] as const;
  const NUMBERED = [WP(1, 11.5, -60.5), WP(2, 11.2, -61), WP(3, 11, -61.5)];

  test.each([
    ['a bare line', lineString(...PLACES)],
    ['a feature', feature(lineString(...PLACES), { name: 'Route' })],
    ['a collection', collection(feature(lineString(...PLACES)))],
    ['heights and more', lineString(...PLACES.map(([lon, lat]) => [lon, lat, 0, 'x']))],
    ['longitudes to 360', lineString(...PLACES.map(([lon, lat]) => [lon + 360, lat]))],
    ['points beside the line', collection(point(1, 1), feature(lineString(...PLACES)), point(2, 2))],
    ['features without a place', collection(feature(null), feature(lineString(...PLACES)))],
    ['foreign members', { ...lineString(...PLACES), bbox: [0], crs: 'x', title: {} }],
    ['points', collection(...PLACES.map(([lon, lat]) => point(lon, lat)))],
    ['a line in parts', multiLine(PLACES.slice(0, 2), PLACES.slice(1))],
    ['a line of one part', multiLine(PLACES)],
  ])('the same route: %s', (_, value) => {
    expect(waypointsOf(json(value))).toEqual(NUMBERED);
  });

  test('points have names and kinds of leg', () => {
    const value = collection(
      point(-60.5, 11.5, { name: ' Start ', to_next: 'great-circle' }),
      point(-61, 11.2, { name: 7, to_next: null }),
      point(-61.25, 11.1, { name: { a: 1 }, to_next: '' }),
      point(-61.5, 11, { to_next: 'rhumb', constructor: 1 }),
    );
    expect(waypointsOf(json(value))).toEqual([
      { ...START, toNext: 'great-circle' },
      { name: '7', latDeg: 11.2, lonDeg: -61 },
      WP(3, 11.1, -61.25),
      { ...WP(4, 11, -61.5), toNext: 'rhumb' },
    ]);
  });

  test.each([
    [
      'eastwards',
      [
        [170, -10],
        [180, 10],
      ],
      [
        [-180, 10],
        [-175, 20],
      ],
      [
        [-10, 170],
        [20, -175],
      ],
    ],
    [
      'westwards',
      [
        [-175, 0],
        [-180, 2.5],
      ],
      [
        [180, 2.5],
        [175, 5],
      ],
      [
        [0, -175],
        [5, 175],
      ],
    ],
    [
      'rounded',
      [
        [170, -10],
        [180, 10.00003],
      ],
      [
        [-180, 10.00003],
        [-175, 20],
      ],
      [
        [-10, 170],
        [20, -175],
      ],
    ],
    [
      'at a turn',
      [
        [170, -10],
        [180, 3],
      ],
      [
        [-180, 3],
        [-175, 20],
      ],
      [
        [-10, 170],
        [3, -180],
        [20, -175],
      ],
    ],
    [
      'at the end of a line back',
      [
        [170, 0],
        [180, 0],
      ],
      [
        [-180, 0],
        [170, 5],
      ],
      [
        [0, 170],
        [0, -180],
        [5, 170],
      ],
    ],
    [
      'along the date line',
      [
        [170, 0],
        [180, 0],
      ],
      [
        [-180, 0],
        [-180, 5],
      ],
      [
        [0, 170],
        [0, -180],
        [5, -180],
      ],
    ],
  ])('a line cut at the date line is joined: %s', (_, first, second, places) => {
    expect(waypointsOf(json(multiLine(first, second))).map(({ latDeg, lonDeg }) => [latDeg, lonDeg])).toEqual(places);
  });

  test('a line cut at the date line twice has no waypoint at a cut, and each leg goes the shorter way', () => {
    const line: [number, number][] = [
      [178, 0],
      [-178, 4],
      [-179, 6],
      [177, 8],
    ];
    const parts = cutAtDateLine(line);
    expect(parts.length).toBe(3);
    for (const value of [multiLine(...parts), lineString(...line)]) {
      const route = readRoute(json(value));
      expect(route.waypoints).toEqual(line.map(([lon, lat], i) => WP(i + 1, lat, lon)));
      expect(layTrack(route).distanceNm.at(-1)).toBeLessThan(1000);
    }
  });

  const LON_LAT = '[longitude from -180 to 360, latitude from -90 to 90]';
  const AT = (path: string) => `route.geojson${path === '' ? '' : `, ${path}`}: expected`;
  test.each<[string, unknown, readonly string[]]>([
    ['a list', [1, 2], [`${AT('')} an object of GeoJSON, got [1, 2]`]],
    ['no type', {}, [`${AT('type')} a value, got nothing`]],
    [
      'a type that is none',
      { type: 7 },
      [`${AT('type')} one of FeatureCollection, Feature, LineString, MultiLineString, Point, got "7"`],
    ],
    [
      'a bare polygon',
      { type: 'Polygon', coordinates: [] },
      [`${AT('type')} one of FeatureCollection, Feature, LineString, MultiLineString, Point, got "Polygon"`],
    ],
    [
      'a type in small letters',
      { type: 'lineString' },
      [
        `${AT('type')} one of FeatureCollection, Feature, LineString, MultiLineString, Point, got "lineString" (did you mean "LineString"?)`,
      ],
    ],
    ['no features', { type: 'FeatureCollection' }, [`${AT('features')} a list of features, got nothing`]],
    ['an empty collection', collection(), [`${AT('')} at least 2 waypoints, got 0`]],
    [
      'features that are none',
      collection(null, lineString(...PLACES), feature(undefined), feature('x')),
      [
        `${AT('features[0]')} an object of GeoJSON, got null`,
        `${AT('features[1].type')} one of Feature, got "LineString"`,
        `${AT('features[2].geometry')} an object of GeoJSON, got nothing`,
        `${AT('features[3].geometry')} an object of GeoJSON, got "x"`,
      ],
    ],
    [
      'other geometries',
      collection(
        feature({ type: 'MultiPoint', coordinates: [] }),
        feature({ type: 'GeometryCollection' }),
        feature(lineString(...PLACES)),
      ),
      [
        `${AT('features[0].geometry.type')} one of LineString, MultiLineString, Point, got "MultiPoint"`,
        `${AT('features[1].geometry.type')} one of LineString, MultiLineString, Point, got "GeometryCollection"`,
      ],
    ],
    [
      'several lines',
      collection(feature(lineString(...PLACES), { name: 'Out' }), feature(multiLine(PLACES))),
      [`${AT('features[1]')} a single line, got 2: "Out", unnamed`],
    ],
    ['one point', collection(point(1, 1)), [`${AT('')} at least 2 waypoints, got 1`]],
    [
      'a line of one position',
      feature(lineString([1, 1])),
      [`${AT('geometry.coordinates')} at least 2 waypoints, got 1`],
    ],
    ['a line of none', lineString(), [`${AT('coordinates')} at least 2 waypoints, got 0`]],
    [
      'parts of one position and none',
      multiLine(
        [[1, 1]],
        [],
        [
          [1, 1],
          [2, 2],
        ],
      ),
      [`${AT('coordinates[0]')} at least 2 waypoints, got 1`, `${AT('coordinates[1]')} at least 2 waypoints, got 0`],
    ],
    ['no coordinates', { type: 'LineString' }, [`${AT('coordinates')} a list of positions, got nothing`]],
    [
      'coordinates that are none',
      multiLine(
        [
          [1, 1],
          [2, 2],
        ],
        'x',
        { a: 1 },
      ),
      [
        `${AT('coordinates[1]')} a list of positions, got "x"`,
        `${AT('coordinates[2]')} a list of positions, got an object`,
      ],
    ],
    [
      'parts that are none',
      { type: 'MultiLineString', coordinates: { a: 1 } },
      [`${AT('coordinates')} a list of lines, got an object`],
    ],
    [
      'bad positions',
      collection(
        feature(null),
        feature(null),
        feature(lineString([1, 1], [361, 1], [1, 91], ['1', 2], [1], 1, null, [[1], 2, {}, 4])),
      ),
      [
        `${AT('features[2].geometry.coordinates[1]')} ${LON_LAT}, got [361, 1]`,
        `${AT('features[2].geometry.coordinates[2]')} ${LON_LAT}, got [1, 91]`,
        `${AT('features[2].geometry.coordinates[3]')} ${LON_LAT}, got ["1", 2]`,
        `${AT('features[2].geometry.coordinates[4]')} ${LON_LAT}, got [1]`,
        `${AT('features[2].geometry.coordinates[5]')} ${LON_LAT}, got 1`,
        `${AT('features[2].geometry.coordinates[6]')} ${LON_LAT}, got null`,
        `${AT('features[2].geometry.coordinates[7]')} ${LON_LAT}, got [[…], 2, an object, …]`,
      ],
    ],
    [
      'a bad point',
      collection(point(1, 1), point(11, 95)),
      [`${AT('features[1].geometry.coordinates')} ${LON_LAT}, got [11, 95]`],
    ],
    [
      'kinds of leg that are none',
      collection(point(1, 1, { to_next: 'rumb' }), point(2, 2, { to_next: 5 })),
      [
        `${AT('features[0].properties.to_next')} rhumb, great-circle or nothing, got "rumb" (did you mean "rhumb"?)`,
        `${AT('features[1].properties.to_next')} rhumb, great-circle or nothing, got "5"`,
      ],
    ],
    [
      'parts that do not meet',
      multiLine(
        [
          [1, 1],
          [2, 2],
        ],
        [
          [2, 2.1],
          [3, 3],
        ],
      ),
      [
        `${AT('coordinates[1][0]')} each part of the line to begin where the one before ends, got one that begins elsewhere`,
      ],
    ],
    [
      'a place twice',
      lineString([1, 1], [361 - 360, 1]),
      [`${AT('coordinates[1]')} a waypoint away from the one before, got the same place again at "WP2"`],
    ],
    ['a pole', lineString([1, 80], [1, 90]), [`${AT('coordinates[1]')} legs within 89° of latitude, got 90`]],
  ])('%s', (_, value, messages) => {
    expect(faultsOf(() => readRoute(json(value)))).toEqual(messages);
  });

  test('JSON that is none, with its line', () => {
    expect(faultsOf(() => readRoute('{\n"type": "LineString",\n"coordinates": [[1, 1], [2 2]]}'))).toEqual([
      'route.geojson, line 3: expected a JSON text, got a fault at "2]]}"',
    ]);
    expect(faultsOf(() => readRoute('{\n"type": "LineString",\n"type": "Point"}'))).toEqual([
      'route.geojson, line 3, type: expected this key once, got it again',
    ]);
  });
});

describe('hostile files', () => {
  const MANY = 100_000;
  const lat = (i: number) => (i % 2) / 1000;

  test('100,000 points in each format', () => {
    const all = Array.from({ length: MANY }, (_, i) => i);
    const texts = [
      `name,lat,lon\n${all.map((i) => `,${lat(i)},10`).join('\n')}`,
      rte(all.map((i) => rtept(lat(i), 10, '\r\n')).join('\n')),
      trk('<trkseg>', all.map((i) => trkpt(lat(i), 10)).join('\n'), '</trkseg>'),
      json({ type: 'LineString', coordinates: all.map((i) => [10, lat(i)]) }),
      json({ type: 'FeatureCollection', features: all.map((i) => point(10, lat(i))) }),
    ];
    for (const text of texts) expect(readRoute(text).waypoints.length).toBe(MANY);
  });

  test('100,000 bad points are counted', () => {
    const line = { type: 'LineString', coordinates: Array.from({ length: MANY }, () => [1e99, 1]) };
    expect(() => readRoute(json(line))).toThrow(/\nroute\.geojson: and 99980 more faults$/);
    expect(() => readRoute(rte(`${rtept('x', 1)}\n`.repeat(MANY)))).toThrow(/\nroute\.gpx: and 99980 more faults$/);
  });

  test.each([
    ['elements', `${'<gpx>'.repeat(200_000)}`, 'route.gpx: expected a well-formed XML text, got one nested too deeply'],
    [
      'lists',
      `${'['.repeat(200_000)}${']'.repeat(200_000)}`,
      'route.geojson: expected a JSON text, got one nested too deeply',
    ],
    [
      'objects',
      `${'{"type":'.repeat(200_000)}1${'}'.repeat(200_000)}`,
      'route.geojson: expected a JSON text, got one nested too deeply',
    ],
  ])('%s nested too deeply', (_, text, message) => {
    expect(faultsOf(() => readRoute(text))).toEqual([message]);
  });

  test('very long texts of one kind take no time', () => {
    const long = 300_000;
    const texts = [
      rte('\r\n'.repeat(long)),
      rte('&amp;'.repeat(long)),
      `<?x?>${'<!-- -->'.repeat(long)}`,
      rte(rtept('1'.repeat(long), `${' '.repeat(long)}x`)),
      `name,lat,lon\nA,1${' '.repeat(long)}x,2\nB,N1${'-'.repeat(long)}N,2`,
      gpx(`<a ${Array.from({ length: 10_000 }, (_, i) => `a${i}="x"`).join(' ')}/>`),
      ' '.repeat(long),
    ];
    for (const text of texts) expect(faultsOf(() => readRoute(text))).not.toEqual([]);
  });

  test('numbers too large to be any', () => {
    expect(faultsOf(() => readRoute('{"type":"LineString","coordinates":[[1,1],[1e999,-1e999]]}'))).toEqual([
      'route.geojson, coordinates[1]: expected [longitude from -180 to 360, latitude from -90 to 90], got [Infinity, -Infinity]',
    ]);
  });

  test('names that every object has', () => {
    const text =
      '{"__proto__":{"type":"Point"},"type":"Feature","properties":{"__proto__":{"name":"x"}},"geometry":{"type":"LineString","coordinates":[[1,1],[2,2]],"__proto__":null}}';
    expect(waypointsOf(text)).toEqual([WP(1, 1, 1), WP(2, 2, 2)]);
    expect(faultsOf(() => readRoute('{"__proto__":{"type":"Point"}}'))).toEqual([
      'route.geojson, type: expected a value, got nothing',
    ]);
    expect(waypointsOf(rte('<__proto__ lat="1"/>', rtept(1, 1, '<constructor>x</constructor>'), rtept(2, 2)))).toEqual([
      WP(1, 1, 1),
      WP(2, 2, 2),
    ]);
  });

  test('a route longer than any, in a file and in memory', () => {
    const places = Array.from({ length: 3000 }, (_, i) => [i % 2 === 0 ? 0 : 90, 10] as const);
    const expected = 'expected a route of at most 100000 Nm, got a longer one';
    expect(faultsOf(() => readRoute(json(lineString(...places))))).toEqual([
      `route.geojson, coordinates[19]: ${expected}`,
    ]);
    const route = { waypoints: places.map(([lonDeg, latDeg]) => ({ name: '', latDeg, lonDeg })) };
    expect(faultsOf(() => layTrack(route))).toEqual([`route, waypoints[19]: ${expected}`]);
  });

  test('a damaged file gives a route or its faults, never another error', () => {
    const files = [
      rte(rtept(11.5, -60.5, name('A &amp; B')), rtept(11, -61.5)),
      trk('<trkseg>', trkpt(1, 1), trkpt(1, 1), trkpt(2, 2), '</trkseg>'),
      json(collection(point(1, 1, { to_next: 'rhumb', name: 'A' }), point(2, 2))),
      json(
        feature(
          multiLine(
            [
              [179, 1],
              [180, 2],
            ],
            [
              [-180, 2],
              [-179, 3],
            ],
          ),
        ),
      ),
    ];
    const pieces = [
      '',
      '0',
      '-',
      '"',
      ',',
      '<',
      '>',
      '&',
      '/',
      '[',
      ']',
      '{',
      '}',
      ':',
      'null',
      '1e999',
      '\u0000',
      '\ud800',
      '<!DOCTYPE',
      '-->',
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...files),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(4),
        fc.constantFrom(...pieces),
        (file, at, cut, piece) => {
          const from = Math.floor(at * file.length);
          const text = file.slice(0, from) + piece + file.slice(from + cut);
          let route: Route | undefined;
          const faults = faultsOf(() => {
            route = readRoute(text);
          });
          expect(faults.length > 0).toBe(route === undefined);
          for (const { latDeg, lonDeg } of route?.waypoints ?? []) {
            expect(Math.abs(latDeg)).toBeLessThanOrEqual(89);
            expect(lonDeg >= -180 && lonDeg < 180).toBe(true);
          }
        },
      ),
      { numRuns: 2000, seed: 20270110 },
    );
  });
});

describe('positions', () => {
  test.each([
    ['16.88,-24.98', 16.88, -24.98],
    [' 16.88 , -24.98 ', 16.88, -24.98],
    ['16.88;-24.98', 16.88, -24.98],
    ['-16.88,335', -16.88, -25],
    ["16°52.8'N,024°59.0'W", 16.88, -24 - 59 / 60],
    ["16°52.8'N, 024°59.0'W", 16.88, -24 - 59 / 60],
    ["16°52.8'N 024°59.0'W", 16.88, -24 - 59 / 60],
    ["16°52.8'N;024°59.0'W", 16.88, -24 - 59 / 60],
    ["N16°52.8' W024°59.0'", 16.88, -24 - 59 / 60],
    ["N16°52.8',W024°59.0'", 16.88, -24 - 59 / 60],
    ['16 52.8 S 24 59 E', -16.88, 24 + 59 / 60],
    ['n 16 52 48 e 24 59', 16.88, 24 + 59 / 60],
    ['16-52-48N 179-59W', 16.88, -179 - 59 / 60],
    ['16.88N 24.98w', 16.88, -24.98],
    ['0,180', 0, -180],
    ["90°00'N 000°00'E", 90, 0],
  ])('%s', (text, latDeg, lonDeg) => {
    const position = parsePosition(text);
    expect(position?.latDeg).toBeCloseTo(latDeg, 10);
    expect(position?.lonDeg).toBeCloseTo(lonDeg, 10);
  });

  test.each([
    '',
    ',',
    '16.88',
    '16.88,',
    '16.88 -24.98',
    '16 52.8,24 59.0',
    '16,88,-24,98',
    '16,88;-24,98',
    '91,0',
    '0,361',
    "024°59.0'W,16°52.8'N",
    "16°52.8'N",
    "16°52.8'N 024°59.0'N",
    "N16°52.8'N W024°59.0'",
    '1e1,2',
    'NaN,NaN',
    'here',
    '16.88,-24.98,0',
    `${' N'.repeat(60)}`,
    `1${' '.repeat(100_000)}N 2E`,
  ])('no position: %s', (text) => {
    expect(parsePosition(text)).toBeUndefined();
  });

  test('what is printed is read again, to half a tenth of a minute', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 179.99, noNaN: true }),
        (latDeg, lonDeg) => {
          const position = parsePosition(positionText(latDeg, lonDeg))!;
          expect(Math.abs(position.latDeg - latDeg)).toBeLessThanOrEqual(0.05 / 60 + 1e-9);
          expect(Math.abs(position.lonDeg - lonDeg)).toBeLessThanOrEqual(0.05 / 60 + 1e-9);
        },
      ),
    );
    expect(positionText(16.88, -24.98333)).toBe("16°52.8'N 024°59.0'W");
    expect(positionText(-0.99999, 179.99999)).toBe("01°00.0'S 180°00.0'E");
  });
});

describe('the date line in outputs', () => {
  const truth = fixture('fileFormats.json', fileFormats);
  type Line = [number, number][];
  const check = (row: { line: number[][]; parts: number[][][] }) => {
    expect(cutAtDateLine(row.line as Line)).toEqual(row.parts);
  };
  truth.each('dateLineStandard', 'printed', check);
  truth.each('dateLineWorked', 'worked out', check);
  truth.each('dateLineLibrary', 'of a library', check);

  test.each<[string, Line, Line[]]>([
    ['nothing', [], []],
    ['one point', [[10, 1]], [[[10, 1]]]],
    ['one point beyond', [[190, 1]], [[[-170, 1]]]],
    [
      'a line that does not cross',
      [
        [10, 1],
        [-170, 2],
        [-180, 3],
      ],
      [
        [
          [10, 1],
          [-170, 2],
          [-180, 3],
        ],
      ],
    ],
    [
      'a point on it and on across',
      [
        [179, 0],
        [180, 1],
        [-179, 2],
      ],
      [
        [
          [179, 0],
          [180, 1],
        ],
        [
          [-180, 1],
          [-179, 2],
        ],
      ],
    ],
    [
      'a point on it, named from beyond',
      [
        [179, 0],
        [-180, 1],
        [-179, 2],
      ],
      [
        [
          [179, 0],
          [180, 1],
        ],
        [
          [-180, 1],
          [-179, 2],
        ],
      ],
    ],
    [
      'a point on it and back',
      [
        [179, 0],
        [-180, 1],
        [179, 2],
      ],
      [
        [
          [179, 0],
          [180, 1],
          [179, 2],
        ],
      ],
    ],
    [
      'an end on it',
      [
        [179, 0],
        [-180, 1],
      ],
      [
        [
          [179, 0],
          [180, 1],
        ],
      ],
    ],
    [
      'a start on it, eastwards',
      [
        [180, 0],
        [-179, 1],
      ],
      [
        [
          [-180, 0],
          [-179, 1],
        ],
      ],
    ],
    [
      'a start on it, westwards',
      [
        [-180, 0],
        [179, 1],
      ],
      [
        [
          [180, 0],
          [179, 1],
        ],
      ],
    ],
    [
      'along it',
      [
        [180, 0],
        [180, 1],
      ],
      [
        [
          [180, 0],
          [180, 1],
        ],
      ],
    ],
    [
      'along it and on across',
      [
        [179, 0],
        [180, 1],
        [-180, 2],
        [-179, 3],
      ],
      [
        [
          [179, 0],
          [180, 1],
          [180, 2],
        ],
        [
          [-180, 2],
          [-179, 3],
        ],
      ],
    ],
    [
      'along it from the start',
      [
        [180, 0],
        [-180, 1],
        [-179, 2],
      ],
      [
        [
          [-180, 0],
          [-180, 1],
          [-179, 2],
        ],
      ],
    ],
    [
      'across and back',
      [
        [179, 0],
        [-179, 2],
        [179, 4],
      ],
      [
        [
          [179, 0],
          [180, 1],
        ],
        [
          [-180, 1],
          [-179, 2],
          [-180, 3],
        ],
        [
          [180, 3],
          [179, 4],
        ],
      ],
    ],
    [
      'round the world',
      [
        [-170, 0],
        [-10, 1],
        [150, 2],
        [-50, 3],
        [110, 4],
        [-90, 5],
      ],
      [
        [
          [-170, 0],
          [-10, 1],
          [150, 2],
          [180, 2.1875],
        ],
        [
          [-180, 2.1875],
          [-50, 3],
          [110, 4],
          [180, 4.4375],
        ],
        [
          [-180, 4.4375],
          [-90, 5],
        ],
      ],
    ],
  ])('%s', (_, line, parts) => {
    expect(cutAtDateLine(line)).toEqual(parts);
  });

  test('parts touch the date line, never cross it, and joined they are the line', () => {
    const lonLat = fc.tuple(
      fc.oneof(fc.constantFrom(-180, 180, 0, 179, -179, 190), fc.double({ min: -180, max: 360, noNaN: true })),
      fc.double({ min: -89, max: 89, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(lonLat, { minLength: 2, maxLength: 12 }), (line) => {
        const parts = cutAtDateLine(line);
        for (const part of parts) {
          expect(part.length).toBeGreaterThan(1);
          part.forEach(([lon], i) => {
            expect(Math.abs(lon)).toBeLessThanOrEqual(180);
            if (i > 0) expect(Math.abs(lon - part[i - 1]![0])).toBeLessThanOrEqual(180 + 1e-9);
          });
        }
        // A cut is the end of one part and the start of the next, and may be a point of the line itself.
        const joined = parts.flatMap((part, k) => {
          if (k === 0) return part;
          const [end, start] = [parts[k - 1]!.at(-1)!, part[0]!];
          expect([Math.abs(end[0]), start[0], start[1]]).toEqual([180, -end[0], end[1]]);
          return part.slice(1);
        });
        let next = 0;
        for (const [lon, lat] of joined) {
          const [wantedLon, wantedLat] = line[next] ?? [0, 0];
          const turnsOff = (((lon - wantedLon) % 360) + 360) % 360;
          if (next < line.length && lat === wantedLat && Math.min(turnsOff, 360 - turnsOff) < 1e-9) next += 1;
          else expect(Math.abs(lon)).toBe(180);
        }
        expect(next).toBe(line.length);
      }),
      { seed: 20270110, numRuns: 2000 },
    );
  });
});

describe('the route left from a position', () => {
  const route: Route = {
    waypoints: [
      { name: 'A', latDeg: 28, lonDeg: -16 },
      { name: 'B', latDeg: 20, lonDeg: -28, toNext: 'great-circle' },
      { name: 'C', latDeg: 19, lonDeg: -30 },
      { name: 'D', latDeg: 14, lonDeg: -61 },
    ],
  };
  const [, B, C, D] = route.waypoints;
  const at = (latDeg: number, lonDeg: number): Position => ({ latDeg, lonDeg });
  const lengthNm = (of: Route) => layTrack(of).distanceNm.at(-1)!;
  const apartNm = (from: Position, to: Position) => sailingBetween(from, to, 'great-circle').distanceNm;

  test('on a leg that was a great circle by its length', () => {
    const track = layTrack(route);
    const position = trackAt(track)(400);
    const { latDeg, lonDeg } = position;
    const left = routeFrom(route, { latDeg, lonDeg });
    expect(left.passed).toBe(1);
    expect(left.offTrackNm).toBeLessThan(0.01);
    // 400 Nm from the end it would be a rhumb line by its length.
    expect(left.route.waypoints).toEqual([{ name: 'Position', latDeg, lonDeg, toNext: 'great-circle' }, B, C, D]);
    expect(lengthNm(left.route)).toBeCloseTo(lengthNm(route) - 400, 2);
  });

  test('on a leg that was a rhumb line by its length', () => {
    const short: Route = { waypoints: [B!, C!, { ...D!, toNext: 'rhumb' }].map(({ toNext, ...rest }) => rest) };
    const left = routeFrom(short, at(19.4, -29));
    expect(left.route.waypoints).toEqual([{ name: 'Position', latDeg: 19.4, lonDeg: -29, toNext: 'rhumb' }, C, D]);
    expect(left.passed).toBe(1);
  });

  test('on a leg whose kind the route says', () => {
    expect(routeFrom(route, at(19.4, -29)).route.waypoints).toEqual([
      { name: 'Position', latDeg: 19.4, lonDeg: -29, toNext: 'great-circle' },
      C,
      D,
    ]);
  });

  test('off the track', () => {
    const left = routeFrom(route, at(20, -40));
    expect([left.passed, left.route.waypoints.length]).toEqual([3, 2]);
    // The great circle from C to D is at 18°25.8'N on 40°W, running west by south.
    const track = layTrack(route);
    const nearest = Math.min(
      ...Array.from(track.latDeg, (latDeg, i) => apartNm(at(20, -40), at(latDeg, track.lonDeg[i]!))),
    );
    expect(left.offTrackNm).toBeGreaterThan(nearest - 0.1);
    expect(left.offTrackNm).toBeLessThanOrEqual(nearest + 0.001);
  });

  test.each([
    ['short of the start', at(28.5, -15), 1],
    ['at the start', at(28, -16), 1],
    ['a little before B', at(20 + 0.2 / 60, -28), 1],
    ['within 0.1 Nm of B', at(20 + 0.09 / 60, -28), 2],
    ['a little behind C', at(19 - 0.02, -30.5), 3],
    ['outside the corner at C', at(18, -29.5), 2],
    ['beyond the destination', at(14, -62), 3],
    ['0.2 Nm from the destination', at(14 + 0.2 / 60, -61), 3],
  ])('%s: waypoints left behind', (_, position, passed) => {
    const left = routeFrom(route, position);
    expect(left.passed).toBe(passed);
    expect(left.route.waypoints.slice(1)).toEqual(route.waypoints.slice(passed));
  });

  test.each([
    ['at the destination', at(14, -61)],
    ['within 0.1 Nm of it', at(14 - 0.09 / 60, -61)],
    ['of the other way of counting longitudes', at(14, 299)],
  ])('nothing is left: %s', (_, position) => {
    expect(faultsOf(() => routeFrom(route, position))).toEqual([
      'position: expected a position with some of the route still ahead, got one within 0.1 Nm of the destination "D"',
    ]);
  });

  test('a position that is none, or from which the route cannot be sailed', () => {
    expect(faultsOf(() => routeFrom(route, at(Number.NaN, Number.POSITIVE_INFINITY)))).toEqual([
      `position: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "NaN"`,
      `position: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "Infinity"`,
    ]);
    expect(faultsOf(() => routeFrom(route, at(89.5, 0)))).toEqual([
      'position: expected legs within 89° of latitude, got 89.5',
    ]);
    expect(faultsOf(() => routeFrom({ waypoints: [] }, at(0, 0)))).toEqual([
      'route, waypoints[0]: expected at least 2 waypoints, got 0',
    ]);
  });

  test.each([
    ['eastwards', 179, -178],
    ['westwards', -178, 179],
  ])('across the date line %s', (_, from, to) => {
    const pacific: Route = {
      waypoints: [WP(1, -17, from), WP(2, -17, to), WP(3, -18, to)],
    };
    for (const lonDeg of [179.5, -179.5, 180, 180.5]) {
      const left = routeFrom(pacific, at(-17.1, lonDeg));
      expect(left.passed).toBe(1);
      expect(left.offTrackNm).toBeCloseTo(6, 2);
      expect(lengthNm(left.route)).toBeLessThan(60 + 150);
      expect(left.route.waypoints[0]).toMatchObject({ name: 'Position', toNext: 'rhumb' });
    }
  });

  test('a round trip at its start and end is all ahead; on a way sailed twice the earlier leg counts', () => {
    const there: Route = { waypoints: [WP(1, 10, -60), WP(2, 10, -62), WP(3, 10, -60)] };
    expect(routeFrom(there, at(10, -60))).toMatchObject({ passed: 1, offTrackNm: 0 });
    expect(routeFrom(there, at(10, -61)).passed).toBe(1);
    expect(routeFrom(there, at(10, -62)).passed).toBe(2);
  });

  test('waypoints close together are all passed', () => {
    const close: Route = { waypoints: [WP(1, 10, -60), WP(2, 10.001, -60), WP(3, 10.002, -60), WP(4, 11, -60)] };
    expect(routeFrom(close, at(10.0003, -60)).passed).toBe(2);
    expect(routeFrom(close, at(10.0008, -60)).passed).toBe(3);
  });

  test('from anywhere: the nearest point is found, and what is left is no longer than by any point of the leg', () => {
    const place = fc.record({
      latDeg: fc.noBias(fc.integer({ min: -6000, max: 6000 })).map((hundredths) => hundredths / 100),
      lonDeg: fc.noBias(fc.integer({ min: -18000, max: 17999 })).map((hundredths) => hundredths / 100),
      toNext: fc.constantFrom<LegKind>('great-circle', 'rhumb'),
    });
    const places = fc.array(place, { minLength: 2, maxLength: 5 });
    const check = (spots: readonly Omit<Waypoint, 'name'>[], position: Position) => {
      const waypoints = spots.map((spot, i) => ({ ...spot, name: `${i}` }));
      const { latDeg, lonDeg, leg, distanceNm } = layTrack({ waypoints });
      const left = routeFrom({ waypoints }, position);
      expect(left.route.waypoints.slice(1)).toEqual(waypoints.slice(left.passed));
      const apart = Array.from(latDeg, (lat, i) => apartNm(position, at(lat, lonDeg[i]!)));
      const nearestNm = apart.reduce((least, nm) => Math.min(least, nm));
      expect(left.offTrackNm).toBeLessThanOrEqual(nearestNm + 0.002);
      // Points of the track are 5 Nm apart at most: the nearest one is within 2.5 Nm of the foot.
      expect(left.offTrackNm).toBeGreaterThanOrEqual(nearestNm - 2.5);
      if (left.route.waypoints[0]!.toNext === 'rhumb') return;
      const leftNm = lengthNm(left.route);
      leg.forEach((number, i) => {
        const viaNm = apart[i]! + distanceNm.at(-1)! - distanceNm[i]!;
        if (number === left.passed) expect(leftNm).toBeLessThanOrEqual(viaNm + 1e-6);
      });
    };
    let checked = 0;
    fc.assert(
      fc.property(places, place, (spots, position) => {
        // Opposite places and a great circle near a pole are refused; those are rare.
        const refused = faultsOf(() => check(spots, position));
        if (refused.length === 0) checked += 1;
      }),
      { seed: 20270110, numRuns: 60 },
    );
    expect(checked).toBeGreaterThan(40);
  });
});
