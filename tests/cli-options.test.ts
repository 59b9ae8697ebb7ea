import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { PlanFile } from '../src/index.js';
import { type Ran, ran, rowsOf, workFolder } from './support/command.js';

/** Where a passage goes: 66 Nm to the west-south-west, then 49 Nm to the north-west. */
const ROUTE = `name,lat,lon,to_next
Start,11.5,-60.5,rhumb
Turn,11,-61.5,rhumb
End,11.5,-62.1,
`;

const SAIL_WINDOW =
  '"window": { "awaMinDeg": 28, "awaMaxDeg": 180, "awsMinKn": null, "awsMaxKn": null, "twsMaxKn": null }';
const BOAT = `{
  "name": "Test boat",
  "hull": { "type": "catamaran" },
  "polars": "polars.csv",
  "sails": [
    { "id": "main", "kind": "square-top-main", ${SAIL_WINDOW}, "reefs": [{ "areaShare": 0.7 }] },
    { "id": "jib", "kind": "self-tacking-jib", ${SAIL_WINDOW} },
    { "id": "poled-jib", "kind": "poled-out-headsail", "clothOf": "jib", ${SAIL_WINDOW} },
    { "id": "code", "kind": "code-zero", ${SAIL_WINDOW} }
  ],
  "sailPlans": [
    { "id": "main+jib", "sails": ["main", "jib"] },
    { "id": "reef1+jib", "sails": ["main:1", "jib"] },
    { "id": "main", "sails": ["main"] },
    { "id": "poled-jib", "sails": ["poled-jib"] },
    { "id": "code", "sails": ["code"] }
  ],
  "house": { "gustFactor": 1.3, "skipperFactor": 1, "tackMinutes": 3, "gybeMinutes": 6, "tackEveryHours": 2, "gybeEveryHours": 12 }
}
`;

/** The same speed at every angle, so that what is fastest is known: by the order of the plans. */
const SPEEDS = { 'main+jib': 7, 'reef1+jib': 6, main: 5, 'poled-jib': 4, code: 3 };
const POLARS = `sail_plan,tws_kn,twa_deg,stw_kn\n${Object.entries(SPEEDS)
  .flatMap(([plan, kn]) => [1, 60].flatMap((tws) => [30, 180].map((twa) => `${plan},${tws},${twa},${kn}\n`)))
  .join('')}`;

const T0 = Date.UTC(2027, 0, 10);
const timeAt = (hour: number) => new Date(T0 + hour * 3600_000).toISOString().replace(':00.000Z', 'Z');
const every = (step: number, to: number, from = 0) =>
  Array.from({ length: (to - from) / step + 1 }, (_, i) => from + i * step);

type Cells = (hour: number, lat: number, lon: number) => readonly (number | string)[];

/** A forecast over 9 to 13 N, 64 to 59 W, for some hours from midnight. */
const forecast = (columns: string, cells: Cells, hours: readonly number[] = every(3, 72)) =>
  `time,lat,lon,${columns}\n${hours
    .flatMap((hour) =>
      [9, 11, 13].flatMap((lat) =>
        [-64, -61.5, -59].map((lon) => `${[timeAt(hour), lat, lon, ...cells(hour, lat, lon)].join(',')}\n`),
      ),
    )
    .join('')}`;

// Numbers that are exact in binary, and never the same at two places or times.
const east = (hour: number, lat: number, lon: number) => -6 - hour / 64 + (lat - 11) / 8 + (lon + 61.5) / 16;
const north = (hour: number, lat: number) => 1 + hour / 32 - (lat - 11) / 8;
const wind: Cells = (hour, lat, lon) => [east(hour, lat, lon), north(hour, lat)];
const gust: Cells = (hour, lat) => [11 + hour / 16 + (lat - 11) / 8];
const stream: Cells = (_, lat, lon) => [-0.25 + (lat - 11) / 64, (lon + 61.5) / 64];
const waves: Cells = (hour, lat) => [1.5 + hour / 128 + (lat - 11) / 16, 8, 80];

const WHOLE = 'u10,v10,gust,current_u,current_v,wave_height,wave_period,wave_from_direction';
const whole: Cells = (...at) => [...wind(...at), ...gust(...at), ...stream(...at), ...waves(...at)];

let folder: ReturnType<typeof workFolder>;
let outs = 0;
let out = '';

beforeAll(() => {
  folder = workFolder();
  folder.write({
    'route.csv': ROUTE,
    'boat.json': BOAT,
    'polars.csv': POLARS,
    'forecast.csv': forecast(WHOLE, whole),
  });
});
afterAll(() => folder.leave());
beforeEach(() => {
  outs += 1;
  out = `out${outs}`;
});

interface Planned extends Ran {
  readonly json: PlanFile;
  readonly rows: Readonly<Record<string, string>>[];
  readonly text: (file: string) => string;
}

const FILES = ['hours.csv', 'plan.json', 'plan.md', 'tradeoff.csv', 'track.gpx', 'track.geojson', 'report.html'];

/** Plans into a new folder. The files may be given otherwise; other options follow. */
async function plan(
  options: readonly string[] = [],
  given: Readonly<Record<string, string | undefined>> = {},
): Promise<Planned> {
  outs += 1;
  out = `out${outs}`;
  const into = out;
  const settled = {
    route: 'route.csv',
    forecast: 'forecast.csv',
    boat: 'boat.json',
    depart: timeAt(6),
    out: into,
    ...given,
  };
  const named = Object.entries(settled).flatMap(([name, value]) => (value === undefined ? [] : [`--${name}`, value]));
  const result = await ran('plan', ...named, ...options);
  const text = (file: string) => folder.read(`${into}/${file}`);
  if (result.code !== 0 && result.code !== 3) return { ...result, json: undefined as never, rows: [], text };
  expect(result.out.trimEnd().split('\n').at(-1)).toBe(`Written to ${into}: ${FILES.join(', ')}`);
  return { ...result, json: JSON.parse(text('plan.json')) as PlanFile, rows: rowsOf(text('hours.csv')), text };
}

/** Plans where the input is bad: what is said, and that nothing was written. */
async function refused(
  options: readonly string[],
  given: Readonly<Record<string, string | undefined>> = {},
): Promise<string[]> {
  const result = await plan(options, given);
  expect({ code: result.code, out: result.out }).toEqual({ code: 2, out: '' });
  expect(folder.exists(out)).toBe(false);
  return result.error.trimEnd().split('\n');
}

/** Warnings but those of an arrival in the dark, which is no matter here. */
const warningsOf = ({ json }: Planned) => json.warnings.filter(({ code }) => code !== 'arrival-dark');
const codesOf = (planned: Planned) => warningsOf(planned).map(({ code }) => code);

const setsOf = ({ rows }: Planned) => [...new Set(rows.map((row) => row.sail_plan))];

test('the files are good, and the fastest plan is known', async () => {
  const { code, error, json, rows } = await plan();
  expect({ code, error }).toEqual({ code: 0, error: '' });
  expect(json).toMatchObject({ complete: true, warnings: [], totals: { sailChanges: 0, hoveToHours: 0 } });
  expect(new Set(rows.map((row) => row.sail_plan))).toEqual(new Set(['main+jib']));
  expect(json.options).toMatchObject({
    windFactor: 1,
    windShiftHours: 0,
    planSet: null,
    without: [],
    placeholders: ['pricePerChangeMinutes'],
  });
});

describe('--from', () => {
  test('at sea on the track: what is left is sailed as it would have been', async () => {
    const all = await plan();
    const [before, after] = [all.json.hours.slice(0, 5), all.json.hours.slice(5)];
    const [first] = after;
    const now = await plan(['--from', `${first!.latDeg},${first!.lonDeg}`], { depart: first!.time });
    expect(now.code).toBe(0);
    expect(now.json.warnings).toEqual([]);
    expect(now.json.hours.length).toBe(after.length);
    const sailedNm = before.reduce((sum, hour) => sum + hour.runNm, 0);
    now.json.hours.forEach((hour, i) => {
      const same = after[i]!;
      expect(hour).toMatchObject({
        time: same.time,
        sailPlan: same.sailPlan,
        manner: same.manner,
      });
      expect(hour.distanceNm).toBeCloseTo(same.distanceNm - sailedNm, 2);
      for (const key of ['latDeg', 'lonDeg', 'twsKn', 'gustKn', 'awsKn', 'smgKn', 'runNm'] as const)
        expect(hour[key]).toBeCloseTo(same[key], 3);
    });
    expect(Math.abs(Date.parse(now.json.end) - Date.parse(all.json.end))).toBeLessThanOrEqual(5000);
    expect(now.json.route.map(({ name }) => name)).toEqual(['Position', 'Turn', 'End']);
    expect(now.out).toContain('\nTest boat: Position to End\n');
    expect(now.text('track.gpx')).toContain('<name>Test boat: Position to End, as drawn</name>');
  });

  test.each([
    ['11.25,-61'],
    ["11°15.0'N,061°00.0'W"],
    ["11°15.0'N 061°00.0'W"],
    ['N11°15.0 W061°00.0'],
    [' 11.25 ; 299 '],
  ])('a position as people write it: %s', async (text) => {
    const { json } = await plan(['--from', text]);
    expect(json.route[0]).toEqual({ name: 'Position', latDeg: 11.25, lonDeg: -61, toNext: 'rhumb' });
    expect(json.warnings).toEqual([]);
  });

  /** Distance off a leg by the spherical cross-track formula (asin of sin distance × sin angle between), Nm. */
  const crossTrackNm = (lat: number, lon: number) => {
    const rad = Math.PI / 180;
    const to = (fromLat: number, fromLon: number, toLat: number, toLon: number) => {
      const [a, b, d] = [fromLat * rad, toLat * rad, (toLon - fromLon) * rad];
      const y = Math.sin(d) * Math.cos(b);
      const x = Math.cos(a) * Math.sin(b) - Math.sin(a) * Math.cos(b) * Math.cos(d);
      const arc = Math.acos(Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(d));
      return { course: Math.atan2(y, x), arc };
    };
    const [leg, here] = [to(11.5, -60.5, 11, -61.5), to(11.5, -60.5, lat, lon)];
    return (Math.abs(Math.asin(Math.sin(here.arc) * Math.sin(here.course - leg.course))) / rad) * 60;
  };

  test('off the track it is said how far, and where the boat then goes', async () => {
    const { code, json, out: printed } = await plan(['--from', '10.9,-60.9']);
    expect(code).toBe(0);
    const offNm = crossTrackNm(10.9, -60.9);
    expect(json.warnings).toEqual([
      {
        file: 'route.csv',
        code: 'off-track',
        expected: 'a position on the route',
        got: `one ${offNm.toFixed(1)} Nm off it; waypoints left behind: 1`,
      },
    ]);
    expect(printed).toContain(`route.csv: expected a position on the route, got one ${offNm.toFixed(1)} Nm off it`);
    expect(json.hours[0]).toMatchObject({ latDeg: 10.9, lonDeg: -60.9, distanceNm: 0 });
  });

  test('within a mile of the track nothing is said', async () => {
    const [near, far] = [11.25 + 0.9 / 60 / Math.cos(0.47), 11.25 + 1.2 / 60 / Math.cos(0.47)];
    expect(crossTrackNm(near, -61)).toBeLessThan(1);
    expect(crossTrackNm(far, -61)).toBeGreaterThan(1);
    expect((await plan(['--from', `${near},-61`])).json.warnings).toEqual([]);
    expect((await plan(['--from', `${far},-61`])).json.warnings.map(({ code }) => code)).toEqual(['off-track']);
  });

  test('on a later leg the waypoints behind are left out', async () => {
    const { json } = await plan(['--from', '11.3,-61.86']);
    expect(json.route.map(({ name }) => name)).toEqual(['Position', 'End']);
    expect(json.hours[0]!.leg).toBe(1);
  });

  test('at a waypoint it counts as passed', async () => {
    expect((await plan(['--from', '11,-61.5'])).json.route.map(({ name }) => name)).toEqual(['Position', 'End']);
    expect((await plan(['--from', '11.5,-60.5'])).json.route.map(({ name }) => name)).toEqual([
      'Position',
      'Turn',
      'End',
    ]);
  });

  test('beyond the destination she comes back to it', async () => {
    const planned = await plan(['--from', '11.6,-62.2']);
    const { json } = planned;
    expect(json.route.map(({ name }) => name)).toEqual(['Position', 'End']);
    expect(codesOf(planned)).toEqual(['off-track']);
    expect(json.hours.at(-1)!.courseDeg).toBeCloseTo(135.6, 0);
  });

  test.each(['11.5,-62.1', '11.5008,-62.1008'])(
    'at the destination there is nothing left to sail: %s',
    async (text) => {
      expect(await refused(['--from', text])).toEqual([
        '--from: expected a position with some of the route still ahead, got one within 0.1 Nm of the destination "End"',
      ]);
    },
  );

  test.each(['', ' ', 'here', '11.25', '91,-61', '11.25,-361', '11,25,-61,5', '11.25 -61', 'NaN,NaN', '1e1,-61'])(
    'no position: %j',
    async (text) => {
      expect(await refused(['--from', text])).toEqual([
        `--from: expected a position like 16.88,-24.98 or 16°52.8'N,024°58.8'W, got ${JSON.stringify(text)}`,
      ]);
    },
  );

  test('a position beside other faults', async () => {
    folder.write({ 'bad-route.csv': 'name,lat,lon\nStart,11.5,-60.5\nEnd,x,-61.5\n' });
    const said = await refused(['--from', 'here', '--wind-factor', '0'], { route: 'bad-route.csv', depart: 'now' });
    expect(said.map((line) => line.split(/[:,]/)[0])).toEqual(['--depart', '--from', '--wind-factor', 'bad-route.csv']);
  });

  test('across the date line', async () => {
    const cells = (hour: number) => [-8 + hour / 64, 1];
    const rows = every(6, 72).flatMap((hour) =>
      [-18, -14].flatMap((lat) =>
        [177, 179, -179, -177].map((lon) => `${timeAt(hour)},${lat},${lon},${cells(hour).join(',')}\n`),
      ),
    );
    folder.write({
      'pacific.csv': `time,lat,lon,u10,v10\n${rows.join('')}`,
      'pacific-route.csv': 'name,lat,lon,to_next\nStart,-16,-178.5,rhumb\nEnd,-16,178.5,\n',
    });
    const given = { route: 'pacific-route.csv', forecast: 'pacific.csv' };
    for (const [from, lonDeg] of [
      ["16°00.0'S,179°30.0'W", -179.5],
      ['-16,179.5', 179.5],
      ['-16,180', -180],
      ['-16,-180', -180],
      ['-16,181', -179],
    ] as const) {
      const { code, json } = await plan(['--from', from], given);
      expect({ code, ...json.route[0] }).toMatchObject({ code: 0, latDeg: -16, lonDeg });
      expect(json.warnings.map(({ code: said }) => said)).not.toContain('off-track');
      const westNm = ((lonDeg - 178.5 + 360) % 360) * 60 * Math.cos((16 * Math.PI) / 180);
      expect(json.totals.distanceNm).toBeCloseTo(westNm, 1);
      expect(json.hours.every(({ courseDeg }) => Math.abs(courseDeg - 270) < 1e-6)).toBe(true);
    }
  });
});

describe('--plan-set', () => {
  test.each([
    ['main+jib', { changes: 0, reefs: 0 }],
    // The same sails with another reef.
    ['reef1+jib', { changes: 1, reefs: 1 }],
    ['main', { changes: 1, reefs: 0 }],
    ['poled-jib', { changes: 1, reefs: 0 }],
  ])('leaving %s', async (id, { changes, reefs }) => {
    const { json, rows, out: printed, text } = await plan(['--plan-set', id]);
    expect(json.options.planSet).toBe(id);
    expect(rows[0]).toMatchObject({ sail_plan: 'main+jib', sail_change: `${changes}` });
    expect(rows.slice(1).every((row) => row.sail_change === '0')).toBe(true);
    expect(json.hours[0]!.sailChange).toBe(changes === 1);
    expect(json.totals).toMatchObject({ sailChanges: changes, reefChanges: reefs });
    expect(printed).toContain(`\nSet at departure  ${id}\n`);
    expect(printed).toContain(`\nSail changes      ${changes}, of which ${reefs} only reefs\n`);
    const markdown = text('plan.md');
    expect(markdown).toContain(`| Set at departure | ${id} |`);
    if (changes === 0) expect(markdown).toContain('\nNone.\n');
    else
      expect(markdown).toMatch(
        new RegExp(`\\n\\| ${timeAt(6).replace('Z', ':00Z')} \\|.*\\| ${id.replace('+', '\\+')} \\| main\\+jib \\|`),
      );
  });

  test('nothing is known to be set without it', async () => {
    const { json, rows } = await plan();
    expect(rows[0]!.sail_change).toBe('0');
    expect(json.totals.sailChanges).toBe(0);
  });

  test('of equally fast plans the one that is set stays', async () => {
    folder.write({
      'even.csv': POLARS.replace(/,[\d.]+$/gm, ',6').replace('stw_kn,6', 'stw_kn'),
      'even.json': BOAT.replace('polars.csv', 'even.csv'),
    });
    for (const id of Object.keys(SPEEDS)) {
      const planned = await plan(['--plan-set', id], { boat: 'even.json' });
      expect(setsOf(planned)).toEqual([id]);
      expect(planned.json.totals.sailChanges).toBe(0);
    }
  });

  test('heaving to at once is a sail change too', async () => {
    folder.write({ 'calm.json': BOAT.replaceAll('"awsMinKn": null', '"awsMinKn": 40') });
    const { code, json, rows, text } = await plan(['--plan-set', 'main'], { boat: 'calm.json' });
    expect(code).toBe(3);
    expect(rows[0]).toMatchObject({ sail_plan: '', sail_change: '1', manner: 'hove-to' });
    expect(json.totals).toMatchObject({ sailChanges: 1, reefChanges: 0 });
    expect(text('plan.md')).toMatch(/\| main \| hove to \|/);
  });

  test('a plan with a sail that may not be set again is left', async () => {
    const planned = await plan(['--plan-set', 'main+jib', '--without', 'jib']);
    expect(setsOf(planned)).toEqual(['main']);
    expect(planned.rows[0]!.sail_change).toBe('1');
  });

  test.each([
    ['mein', '"mein" (did you mean "main"?)'],
    ['Main', '"Main" (did you mean "main"?)'],
    ['reef1 + jib', '"reef1 + jib" (did you mean "reef1+jib"?)'],
    ['spinnaker', '"spinnaker"'],
    ['', '""'],
  ])('no plan of hers: %j', async (id, got) => {
    expect(await refused(['--plan-set', id])).toEqual([
      `--plan-set: expected the id of a sail plan of the boat, one of ${Object.keys(SPEEDS).join(', ')}, got ${got}`,
    ]);
  });
});

describe('--wave-max', () => {
  test.each(['vented', 'vented=high', '=', 'vented=2=3'])('is no limit: %j', async (text) => {
    expect(await refused(['--wave-max', text])).toEqual([
      `--wave-max: expected sail=metres, like vented=2.5, got "${text}"`,
    ]);
  });
});

describe('--without', () => {
  test.each([
    [['poled-jib'], 'main+jib', ['main+jib', 'reef1+jib', 'main', 'code']],
    // With a cloth go its other settings.
    [['jib'], 'main', ['main', 'code']],
    [['main'], 'poled-jib', ['poled-jib', 'code']],
    [['jib', 'main'], 'code', ['code']],
    // Another setting by itself: its cloth stays.
    [['main', 'poled-jib'], 'code', ['code']],
    [['code', 'code'], 'main+jib', ['main+jib', 'reef1+jib', 'main', 'poled-jib']],
  ])('%j', async (sails, fastest, left) => {
    const planned = await plan(sails.flatMap((sail) => ['--without', sail]));
    expect(planned.code).toBe(0);
    expect(setsOf(planned)).toEqual([fastest]);
    expect(planned.json.options.without).toEqual(sails);
    expect(codesOf(planned)).toEqual([]);
    const named = new Set(
      planned.json.hours.flatMap((hour) => [hour.sailPlan, hour.runnerUp, ...hour.barred.map((bar) => bar.sailPlan)]),
    );
    named.delete(null);
    for (const id of named) expect(left).toContain(id);
    expect(planned.out).toContain(`\nWithout           ${sails.join(', ')}\n`);
    expect(planned.text('plan.md')).toContain(`| Without | ${sails.join(', ')} |`);
  });

  test('a sail left at home has no hours, and no plan with it is missed', async () => {
    folder.write({
      'few.csv': POLARS.replace(/^(main\+jib|reef1\+jib),.*\n/gm, ''),
      'few.json': BOAT.replace('polars.csv', 'few.csv'),
    });
    const warned = await plan([], { boat: 'few.json' });
    expect(warningsOf(warned).map(({ path }) => path)).toEqual(['main+jib', 'reef1+jib']);
    const left = await plan(['--without', 'jib'], { boat: 'few.json' });
    expect(codesOf(left)).toEqual([]);
    expect(left.json.totals.sails.find(({ id }) => id === 'jib')).toMatchObject({ hours: 0, distanceNm: 0 });
  });

  test('all of them', async () => {
    const options = ['main', 'jib', 'code'].flatMap((sail) => ['--without', sail]);
    expect(await refused(options)).toEqual([
      '--without: expected at least one sail plan without these sails, got none',
    ]);
  });

  test.each([
    [['jibb'], ['"jibb" (did you mean "jib"?)']],
    [['main:1'], ['"main:1"']],
    [['main+jib'], ['"main+jib"']],
    [
      ['x', 'main', 'y'],
      ['"x"', '"y"'],
    ],
  ])('no sail aboard: %j', async (sails, got) => {
    expect(await refused(sails.flatMap((sail) => ['--without', sail]))).toEqual(
      got.map((one) => `--without: expected the id of a sail aboard, got ${one}`),
    );
  });
});

describe('--wind-factor', () => {
  const first = ({ rows }: Planned) =>
    Object.fromEntries(Object.entries(rows[0]!).map(([key, text]) => [key, Number(text)]));

  test.each(['0.5', '1.25', '2'])('%s times the wind and its gusts, and nothing else', async (text) => {
    const factor = Number(text);
    const [plain, scaled] = [first(await plan()), first(await plan(['--wind-factor', text]))];
    expect(scaled.ground_tws_kn).toBeCloseTo(plain.ground_tws_kn! * factor, 2.5);
    expect(scaled.ground_twd_deg).toBe(plain.ground_twd_deg);
    for (const same of [
      'set_deg',
      'drift_kn',
      'wave_height_m',
      'wave_period_s',
      'wave_from_deg',
      'lat',
      'lon',
      'course_deg',
    ])
      expect(scaled[same], same).toBe(plain[same]);
    // The wind over the water: the scaled wind less the current as it was.
    const rad = Math.PI / 180;
    const flow = (kn: number, deg: number) => [kn * Math.sin(deg * rad), kn * Math.cos(deg * rad)] as const;
    const overWater = (groundKn: number) => {
      const [e, n] = flow(-groundKn, plain.ground_twd_deg!);
      const [ce, cn] = flow(plain.drift_kn!, plain.set_deg!);
      return Math.hypot(e - ce, n - cn);
    };
    expect(scaled.tws_kn).toBeCloseTo(overWater(plain.ground_tws_kn! * factor), 2);
    // At the start: 11 m/s and what six hours and half a degree add.
    const gustKn = (11 + 6 / 16 + 0.5 / 8) * (3600 / 1852);
    expect(plain.gust_kn).toBeCloseTo(overWater(gustKn), 2);
    expect(scaled.gust_kn).toBeCloseTo(overWater(gustKn * factor), 2);
  });

  test('gusts made of the mean wind are scaled once', async () => {
    folder.write({ 'wind.csv': forecast('u10,v10', wind) });
    const [plain, scaled] = [
      first(await plan([], { forecast: 'wind.csv' })),
      first(await plan(['--wind-factor', '2'], { forecast: 'wind.csv' })),
    ];
    expect(scaled.tws_kn).toBeCloseTo(2 * plain.tws_kn!, 2.5);
    expect(scaled.gust_kn).toBeCloseTo(1.3 * 2 * plain.tws_kn!, 2);
  });

  test('of 1 is the forecast as it stands', async () => {
    const [plain, scaled] = [await plan(), await plan(['--wind-factor', '1.0', '--wind-shift-hours', '0'])];
    for (const file of FILES) expect(scaled.text(file)).toBe(plain.text(file));
  });

  test('strong wind is warned of as it is sailed in', async () => {
    expect((await plan()).json.warnings).toEqual([]);
    const blown = await plan(['--wind-factor', '2.5']);
    expect(codesOf(blown)).toEqual(expect.arrayContaining(['strong-wind', 'gale-near']));
    expect(blown.json.totals.strongWind[0]!.hours).toBeGreaterThan(0);
  });

  test.each(['', ' ', '0', '0.09', '10.1', '-1', 'NaN', 'Infinity', '1,2', '1.2x', 'double'])(
    '%j is none',
    async (text) => {
      expect(await refused(['--wind-factor', text])).toEqual([
        `--wind-factor: expected a number from 0.1 to 10, got ${JSON.stringify(text)}${text === '1,2' ? ' (a decimal comma?)' : ''}`,
      ]);
    },
  );
});

describe('--wind-shift-hours', () => {
  /** Rows without what the clock alone decides. */
  const without = (rows: Planned['rows'], ...columns: readonly string[]) =>
    rows.map((row) => Object.fromEntries(Object.entries(row).filter(([name]) => !columns.includes(name))));

  test.each([6, -6, 1.5, 24])('%s hours: the same weather so much later', async (shift) => {
    const plain = await plan([], { depart: timeAt(6) });
    const shifted = await plan(['--wind-shift-hours', `${shift}`], { depart: timeAt(6 + shift) });
    // Nothing that flies by day only is aboard, and the stream is the same at all times.
    expect(without(shifted.rows, 'time', 'daylight')).toEqual(without(plain.rows, 'time', 'daylight'));
    shifted.rows.forEach((row, i) => {
      expect(Date.parse(row.time!) - Date.parse(plain.rows[i]!.time!)).toBe(shift * 3600_000);
    });
    expect(shifted.json.options.windShiftHours).toBe(shift);
    expect(shifted.out).toContain(
      `\nWeather           ${Math.abs(shift)} h ${shift > 0 ? 'later' : 'earlier'} than forecast\n`,
    );
  });

  test('it is another weather at the same time', async () => {
    const [plain, shifted] = [await plan(), await plan(['--wind-shift-hours', '-6'])];
    const byHour = (rows: Planned['rows'], hour: number) =>
      rows.find(({ time }) => time === timeAt(hour).replace('Z', ':00Z'))!;
    expect(byHour(shifted.rows, 6).ground_tws_kn).not.toBe(byHour(plain.rows, 6).ground_tws_kn);
    expect(byHour(shifted.rows, 6).wave_height_m).not.toBe(byHour(plain.rows, 6).wave_height_m);
    // At the start both are at one place: the wind of 12 h is met at 6 h.
    const [e, n] = [east(12, 11.5, -60.5), north(12, 11.5)].map((mps) => (mps * 3600) / 1852) as [number, number];
    expect(Number(byHour(shifted.rows, 6).ground_tws_kn)).toBeCloseTo(Math.hypot(e, n), 2.5);
  });

  test('currents stay', async () => {
    folder.write({ 'tide.csv': forecast('u10,v10,current_u,current_v', (hour) => [-8, 1, hour / 128, -0.25]) });
    const given = { forecast: 'tide.csv' };
    const [plain, shifted] = [await plan([], given), await plan(['--wind-shift-hours', '-6'], given)];
    expect(without(shifted.rows)).toEqual(without(plain.rows));
    expect(new Set(plain.rows.map((row) => row.set_deg)).size).toBeGreaterThan(3);
  });

  test('a departure outside the times as they then are', async () => {
    const outside = (from: number, to: number, got: number, shift = from) =>
      `forecast.csv: expected a departure from ${timeAt(from).replace('Z', ':00Z')} and before ${timeAt(to).replace('Z', ':00Z')}, the times of the forecast${shift === 0 ? '' : ` moved by ${shift} h`}, got ${timeAt(got).replace('Z', ':00Z')}`;
    expect(await refused(['--wind-shift-hours', '7'])).toEqual([outside(7, 79, 6)]);
    expect(await refused(['--wind-shift-hours', '-66'])).toEqual([outside(-66, 6, 6)]);
    expect((await plan(['--wind-shift-hours', '6'])).code).toBe(0);
    expect((await plan(['--wind-shift-hours', '-65'])).code).toBe(3);
  });

  test.each(['', '-241', '240.5', 'six', '1:30', '6h'])('%j is none', async (text) => {
    expect(await refused(['--wind-shift-hours', text])).toEqual([
      `--wind-shift-hours: expected a number from -240 to 240, got ${JSON.stringify(text)}`,
    ]);
  });
});

/** Every order of a list. */
const orders = <Item>(items: readonly Item[]): Item[][] =>
  items.length < 2
    ? [[...items]]
    : items.flatMap((item, i) => orders(items.filter((_, j) => j !== i)).map((rest) => [item, ...rest]));

describe('--forecast, repeated', () => {
  const inOrder = (files: readonly string[]) =>
    plan(
      files.flatMap((file) => ['--forecast', file]),
      { forecast: undefined },
    );

  test('wind, its later times, current and waves in files of their own: the same in any order, and the same as in one', async () => {
    const files = {
      'wind-1.csv': forecast('u10,v10,gust', (...at) => [...wind(...at), ...gust(...at)], every(3, 12)),
      'wind-2.csv': forecast('u10,v10,gust', (...at) => [...wind(...at), ...gust(...at)], every(3, 72, 15)),
      'current.csv': forecast('current_u,current_v', stream, every(3, 72)),
      'waves.csv': forecast('wave_height,wave_period,wave_from_direction', waves, every(3, 72)),
    };
    folder.write(files);
    const one = await plan();
    for (const order of orders(Object.keys(files))) {
      const { code, text, json } = await inOrder(order);
      expect(code).toBe(0);
      expect(text('hours.csv')).toBe(one.text('hours.csv'));
      expect(text('track.gpx')).toBe(one.text('track.gpx'));
      expect(text('track.geojson')).toBe(one.text('track.geojson'));
      expect(json.inputs.filter(({ role }) => role === 'forecast').map(({ file }) => file)).toEqual(order);
      expect(json.warnings).toEqual([]);
    }
  });

  test('runs that overlap, and grids of other points: the same in any order', async () => {
    const run = (hour: number, to: number, by: number) =>
      forecast(
        'run_time,u10,v10',
        (at, lat, lon) => [timeAt(hour), ...wind(at, lat, lon).map((mps) => Number(mps) * by)],
        every(6, to, hour),
      );
    const local = `time,lat,lon,u10,v10\n${every(1, 24)
      .flatMap((hour) =>
        [10.5, 11, 11.5].flatMap((lat) =>
          [-62, -61, -60].map((lon) => `${timeAt(hour)},${lat},${lon},-7,${hour / 64}\n`),
        ),
      )
      .join('')}`;
    folder.write({ 'run-00.csv': run(0, 60, 1), 'run-06.csv': run(6, 42, 0.75), 'run-12.csv': run(12, 24, 1.25) });
    const files = ['run-00.csv', 'run-06.csv', 'run-12.csv'];
    const hours = new Set<string>();
    for (const order of orders(files)) hours.add((await inOrder(order)).text('hours.csv'));
    expect(hours.size).toBe(1);
    folder.write({ 'local.csv': local, 'wide.csv': forecast('u10,v10', (hour) => [-7, hour / 64], every(6, 72)) });
    const mixed = new Set<string>();
    for (const order of orders(['local.csv', 'wide.csv'])) mixed.add((await inOrder(order)).text('hours.csv'));
    expect(mixed.size).toBe(1);
  });

  test('a file twice is the file', async () => {
    const [once, twice] = [await plan(), await inOrder(['forecast.csv', 'forecast.csv'])];
    expect(twice.text('hours.csv')).toBe(once.text('hours.csv'));
  });

  test('files that contradict each other', async () => {
    folder.write({
      'other.csv': forecast(
        WHOLE,
        (...at) => [...whole(...at).slice(0, 2), 20, ...whole(...at).slice(3)],
        every(3, 12),
      ),
    });
    const said = await refused(['--forecast', 'forecast.csv', '--forecast', 'other.csv'], { forecast: undefined });
    expect(said.length).toBe(1);
    expect(said[0]).toMatch(
      /^other\.csv, gustKn: expected the values of "forecast\.csv" where both files have them, or a run time in both, got others at 45 points and times, first 38\.88 against /,
    );
  });

  test('one of them missing or bad', async () => {
    folder.write({ 'bad.csv': 'time,lat,lon,u10\n' });
    const said = await refused(['--forecast', 'none.csv', '--forecast', 'forecast.csv'], { forecast: undefined });
    expect(said).toEqual(['none.csv: expected a file that can be read, got no such file']);
    const [bad] = await refused(['--forecast', 'forecast.csv', '--forecast', 'bad.csv'], { forecast: undefined });
    expect(bad).toBe('bad.csv, line 1, column u10: expected v10 beside it, got it alone');
  });
});

describe('--column', () => {
  const renamed = forecast('wind_e,wind_n', (...at) => wind(...at).map((mps) => (Number(mps) * 3600) / 1852)).replace(
    'time,lat,lon',
    't,y,x',
  );
  const chosen = ['time=t', 'lat=y', 'lon=x', 'u10=wind_e:kn', 'v10=wind_n:kn'].flatMap((text) => ['--column', text]);

  test('columns by other names, in other units', async () => {
    folder.write({ 'renamed.csv': renamed, 'plain.csv': forecast('u10,v10', wind) });
    const [plain, other] = [await plan([], { forecast: 'plain.csv' }), await plan(chosen, { forecast: 'renamed.csv' })];
    expect(other.code).toBe(0);
    expect(other.rows.map(({ time, sail_plan }) => [time, sail_plan])).toEqual(
      plain.rows.map(({ time, sail_plan }) => [time, sail_plan]),
    );
    other.rows.forEach((row, i) => {
      expect(Number(row.tws_kn)).toBeCloseTo(Number(plain.rows[i]!.tws_kn), 2.5);
    });
  });

  test('as it is written matters little', async () => {
    folder.write({ 'renamed.csv': renamed });
    const loose = ['TIME = T', ' lat=y ', 'Lon=X', 'U10 = Wind_E : knots', 'v10=WIND_N:KN'].flatMap((text) => [
      '--column',
      text,
    ]);
    const [one, other] = [
      await plan(chosen, { forecast: 'renamed.csv' }),
      await plan(loose, { forecast: 'renamed.csv' }),
    ];
    expect(other.text('hours.csv')).toBe(one.text('hours.csv'));
  });

  test('a chosen column comes before one of the plain name', async () => {
    folder.write({ 'both.csv': forecast('u10,v10,best_u,best_v', (...at) => [...wind(...at), -4, 1]) });
    const { rows, json } = await plan(['--column', 'u10=best_u:mps', '--column', 'v10=best_v:m/s'], {
      forecast: 'both.csv',
    });
    expect(Number(rows[0]!.ground_tws_kn)).toBeCloseTo((Math.hypot(4, 1) * 3600) / 1852, 2.5);
    expect(json.warnings.map(({ column }) => column).filter((column) => column !== undefined)).toEqual(['u10', 'v10']);
  });

  test.each(['foo', '=', 'u10', 'u10=', '=u', 'wind=u', 'speed=w:kn', ':', ''])('%j is none', async (text) => {
    if (text === '') {
      expect((await refused(['--column', text]))[0]).toMatch(
        /^error: option '--column <role=name\[:unit\]>' argument '' is invalid\. It is empty\.$/,
      );
      return;
    }
    expect(await refused(['--column', text])).toEqual([
      `--column: expected one of u10, v10, wind_speed, wind_from_direction, gust, current_u, current_v, current_speed, current_to_direction, wave_height, wave_period, wave_from_direction, time, run_time, month, lat, lon, member, and the column that holds it: current_u=water_u:m/s, got ${JSON.stringify(text)}`,
    ]);
  });

  test('one thing in two columns, a column that is not there, and a unit that is none', async () => {
    expect(await refused(['--column', 'gust=gust:kn', '--column', 'gust=fg10'])).toEqual([
      '--column: expected one column for each quantity, got gust as well',
    ]);
    const [missing] = await refused(['--column', 'gust=squall:kn']);
    expect(missing).toMatch(
      /^forecast\.csv, column squall: expected this column for gust in the head of a forecast or climatology file, got only "time, lat, lon, u10, v10, gust/,
    );
    const [unit] = await refused(['--column', 'gust=gust:beaufort']);
    expect(unit).toBe(
      'forecast.csv, line 1, column gust: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "beaufort"',
    );
  });
});

describe('--member', () => {
  const ensemble = forecast('member,u10,v10', () => ['*'])
    .split('\n')
    .flatMap((line) => (line.endsWith('*') ? [line.replace('*', 'm1,-8,1'), line.replace('*', 'm2,-4,1')] : [line]))
    .join('\n');

  test('one of an ensemble is sailed in', async () => {
    folder.write({ 'ensemble.csv': ensemble });
    for (const [member, mps] of [
      ['m1', 8],
      ['m2', 4],
    ] as const) {
      const { code, rows } = await plan(['--member', member], { forecast: 'ensemble.csv' });
      expect(code).toBe(0);
      expect(Number(rows[0]!.tws_kn)).toBeCloseTo((Math.hypot(mps, 1) * 3600) / 1852, 2.5);
    }
  });

  test('and the plan says which, and which columns were chosen', async () => {
    folder.write({ 'ensemble.csv': ensemble.replace('u10', 'uu') });
    const { code, json, text } = await plan(['--member', 'm2', '--column', 'u10=uu:m/s'], { forecast: 'ensemble.csv' });
    expect(code).toBe(0);
    expect(json.inputs.find(({ role }) => role === 'forecast')).toMatchObject({
      member: 'm2',
      columns: { u10: { name: 'uu', unit: 'm/s' } },
    });
    expect(text('plan.md')).toContain('- forecast: ensemble.csv, member m2, u10=uu:m/s (SHA');
  });

  test('where there is none it is told', async () => {
    expect(await refused(['--member', 'm1'])).toEqual([
      expect.stringMatching(
        /^forecast\.csv, column member: expected this column in the header, got only "time, lat, lon/,
      ),
    ]);
  });

  test('which one must be said', async () => {
    folder.write({ 'ensemble.csv': ensemble });
    const given = { forecast: 'ensemble.csv' };
    expect(await refused([], given)).toEqual([
      'ensemble.csv, column member: expected one member of the ensemble to be chosen, got 2: "m1, m2"',
    ]);
    expect(await refused(['--member', 'm3'], given)).toEqual([
      expect.stringMatching(/^ensemble\.csv, column member: expected one of m1, m2, got "m3"/),
    ]);
  });

  test('what is of no ensemble goes with every member', async () => {
    folder.write({
      'ensemble.csv': ensemble,
      'waves.csv': forecast('wave_height,wave_period,wave_from_direction', waves),
    });
    const { code, rows } = await plan(['--member', 'm2', '--forecast', 'waves.csv'], { forecast: 'ensemble.csv' });
    expect(code).toBe(0);
    expect(rows.every((row) => row.wave_period_s === '8.000')).toBe(true);
  });
});

describe('exit codes', () => {
  test('1: it cannot be written', async () => {
    folder.write({ taken: 'a file\n' });
    const { code, error } = await plan(['--wind-factor', '1.1'], { out: 'taken' });
    expect({ code, error }).toEqual({
      code: 1,
      error: 'taken: cannot be written to: a file of that name in the way\n',
    });
  });

  test('3: incomplete, and everything is written', async () => {
    const { code, error, json, text, out: printed } = await plan(['--wind-shift-hours', '-60', '--from', '11.25,-61']);
    expect({ code, error }).toEqual({ code: 3, error: '' });
    expect(json).toMatchObject({ complete: false, reason: 'forecast-ended' });
    expect(json.distanceToGoNm).toBeGreaterThan(0);
    for (const file of FILES) expect(text(file).length).toBeGreaterThan(50);
    expect(printed.split('\n')[0]).toMatch(/^PLAN INCOMPLETE: /);
    expect(text('plan.md').split('\n')[0]).toMatch(/^\*\*PLAN INCOMPLETE: /);
  });

  test('2: every bad option that can be known without the files is told with their faults', async () => {
    folder.write({ 'bad.json': '{' });
    const options = ['--from', 'x', '--wind-factor', 'x', '--wind-shift-hours', 'x', '--column', 'x'];
    const said = await refused(options, { boat: 'bad.json', depart: 'x' });
    expect(said.map((line) => line.split(/[:,]/)[0])).toEqual([
      ...['--depart', '--from', '--column', '--wind-factor', '--wind-shift-hours'].sort(
        (a, b) => said.findIndex((line) => line.startsWith(a)) - said.findIndex((line) => line.startsWith(b)),
      ),
      'bad.json',
    ]);
  });

  test.each(['from', 'plan-set', 'without', 'wind-factor', 'wind-shift-hours', 'column', 'member'])(
    '2: --%s without a value',
    async (option) => {
      const said = await refused([`--${option}`]);
      expect(said[0]).toMatch(new RegExp(`^error: option '--${option} <[^>]+>' argument missing$`));
    },
  );
});

describe('--help', () => {
  test('lists every option of plan', async () => {
    const { code, out: help, error } = await ran('plan', '--help');
    expect({ code, error }).toEqual({ code: 0, error: '' });
    const listed = [...help.matchAll(/^ {2}(?:-h, )?(--[a-z-]+)/gm)].map(([, name]) => name);
    expect(listed).toEqual([
      ...['--route', '--forecast', '--climatology', '--boat', '--depart', '--out', '--choice'],
      ...['--price-per-change', '--crew', '--horizon', '--replan-every', '--arrive-daylight', '--squalls'],
      ...['--squall-chance', '--gust-margin', '--least-hours', '--changes-in-dark', '--night-reef-above'],
      ...['--wave-max', '--gybes-in-dark', '--motor-below', '--labels', '--from', '--plan-set', '--without'],
      ...['--wind-factor', '--wind-shift-hours', '--column', '--member', '--help'],
    ]);
  });

  test('and of check, and the program tells both', async () => {
    const { code, out: help } = await ran('check', '--help');
    expect(code).toBe(0);
    expect(help).toMatch(/^Usage: windwardrobe check \[options\] <files\.\.\.>\n/);
    expect([...help.matchAll(/^ {2}(?:-h, )?(--[a-z-]+)/gm)].map(([, name]) => name)).toEqual([
      '--column',
      '--member',
      '--help',
    ]);
    const { out: program } = await ran('--help');
    for (const command of ['plan', 'check']) expect(program).toMatch(new RegExp(`^ {2}${command} `, 'm'));
    for (const text of [program, help, (await ran('plan', '--help')).out]) {
      expect(text).toContain('Exit codes: 0 plan complete');
      expect(text).toContain('Planning aid only');
    }
  });
});
