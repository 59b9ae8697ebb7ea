// Measures the built library beside plain csv-parse in the same run. Compare ratios and medians: machines are noisy.
// Targets in brackets are those the library was designed for; nothing fails where one is missed.
// Run: npm run bench [rows of the forecast in thousands, default 600]
import { spawnSync } from 'node:child_process';
import { createReadStream, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse';
import {
  apparentWind,
  crossoverOf,
  estimatePolars,
  planPassage,
  polarSpeed,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  weatherAt,
} from 'windwardrobe';
import { bundle, GZIP_TARGET_BYTES } from '../tools/bundle.mjs';
import { benchStudy } from './study.mjs';

const REPEATS = 5;
const PLANS = 12;
const wantedRows = Number(process.argv[2] ?? 600) * 1000;
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-bench-'));

const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];
async function timed(action) {
  const started = process.hrtime.bigint();
  const result = await action();
  return { seconds: Number(process.hrtime.bigint() - started) / 1e9, result };
}
async function medianOf(action) {
  const runs = [];
  for (let i = 0; i < REPEATS; i += 1) runs.push((await timed(action)).seconds);
  return median(runs);
}
const line = (label, text, target) =>
  console.log(`${label.padEnd(46)}${text}${target === undefined ? '' : ` (target ${target})`}`);
const millions = (count, seconds) => (count / seconds / 1e6).toFixed(2);

/** Wind on a 1° grid over the Atlantic trades, as many times as make the rows. */
function* points() {
  const [lats, lons] = [28, 55];
  const times = Math.ceil(wantedRows / (lats * lons));
  for (let t = 0; t < times; t += 1) {
    const time = new Date(Date.UTC(2027, 0, 10) + t * 3600_000).toISOString().replace('.000', '');
    for (let y = 0; y < lats; y += 1) {
      for (let x = 0; x < lons; x += 1) {
        const [u, v] = [-7 - 2 * Math.sin(x / 9 + t / 30), -2 + Math.cos(y / 5 - t / 40)];
        yield { time, lat: 32 - y, lon: x - 64, u: u.toFixed(2), v: v.toFixed(2) };
      }
    }
  }
}

/** The same wind in the three layouts: lines of the head, lines of a point, and the cell that plain csv-parse adds up. */
const LAYOUTS = {
  plain: {
    head: ['time,lat,lon,u10,v10'],
    linesOf: ({ time, lat, lon, u, v }) => [`${time},${lat},${lon},${u},${v}`],
    cell: 3,
  },
  'ERDDAP-like': {
    head: ['time,latitude,longitude,ugrd10m,vgrd10m', 'UTC,degrees_north,degrees_east,m s-1,m s-1'],
    linesOf: ({ time, lat, lon, u, v }) => [`${time},${lat}.0,${lon + 360}.0,${u},${v}`],
    cell: 3,
  },
  'wgrib2-like': {
    head: [],
    linesOf: ({ time, lat, lon, u, v }) => {
      const at = time.replace('T', ' ').replace('Z', '');
      const lineOf = (name, value) =>
        `"2027-01-10 00:00:00","${at}","${name}","10 m above ground",${lon},${lat},${value}`;
      return [lineOf('UGRD', u), lineOf('VGRD', v)];
    },
    cell: 6,
  },
};

function writeForecast(path, { head, linesOf }) {
  const lines = [...head];
  for (const point of points()) lines.push(...linesOf(point));
  writeFileSync(path, `${lines.join('\n')}\n`);
  return { rows: lines.length - head.length, megabytes: statSync(path).size / 1e6 };
}

/** A sum over one column by csv-parse's own stream, which is the least that anyone must do who reads the file with it. */
async function sumOf(path, { head, cell }) {
  let sum = 0;
  const parser = createReadStream(path).pipe(parse({ from_line: head.length + 1 }));
  parser.on('readable', () => {
    for (let record = parser.read(); record !== null; record = parser.read()) sum += +record[cell];
  });
  await new Promise((resolve, reject) => parser.on('end', resolve).on('error', reject));
  return sum;
}

const source = (path) => ({ name: 'forecast.csv', open: () => createReadStream(path, { highWaterMark: 1 << 18 }) });

async function benchReading(name, path, layout) {
  const { rows, megabytes } = writeForecast(path, layout);
  const plain = await medianOf(() => sumOf(path, layout));
  const ours = await medianOf(() => readForecast(source(path)));
  const speed = (seconds) => `${millions(rows, seconds)} M rows/s, ${(megabytes / seconds).toFixed(0)} MB/s`;
  console.log(`${name} forecast of ${rows} rows, ${megabytes.toFixed(1)} MB`);
  line('  csv-parse, its own stream', speed(plain));
  line(
    '  readForecast, whole file kept',
    `${speed(ours)}, ${((100 * plain) / ours).toFixed(0)} % of csv-parse`,
    '80 %',
  );
}

/** Samples of wind all over the grid, and what each becomes. */
function sampleOver(forecast, samples, use) {
  const at = weatherAt(forecast);
  const { fromEpochSeconds: from, toEpochSeconds: to } = forecast.covers;
  let sum = 0;
  for (let i = 0; i < samples; i += 1) {
    const { wind } = at(6 + 25 * ((i * 0.618) % 1), -63 + 52 * ((i * 0.414) % 1), from + ((to - from) * i) / samples);
    sum += use(wind, i);
  }
  return sum;
}

async function benchSampling(forecast, { plans }) {
  const samples = 1_000_000;
  const sampling = await medianOf(() => sampleOver(forecast, samples, ({ eastKn }) => eastKn));
  line('weatherAt, wind at a place and time', `${millions(samples, sampling)} M samples/s`);
  const speeds = Object.values(plans).slice(0, PLANS).map(polarSpeed);
  const bestOf = ({ eastKn, northKn }, i) => {
    const twsKn = Math.sqrt(eastKn * eastKn + northKn * northKn);
    const twaDeg = 40 + (i % 140);
    let best = 0;
    for (const speed of speeds) best = Math.max(best, speed(twsKn, twaDeg) ?? 0);
    return apparentWind(twsKn, twaDeg, best).awsKn;
  };
  const whole = await medianOf(() => sampleOver(forecast, samples, bestOf));
  const label = `  and apparent wind, the best of ${speeds.length} plans`;
  line(label, `${millions(samples, whole)} M samples/s`, '5 M');
}

const text = (name) => readFileSync(new URL(`../../data-samples/${name}`, import.meta.url), 'utf8');

async function benchPassage() {
  const boat = readBoat(text('boat.json'));
  const csv = text('forecast.csv');
  const inputs = {
    boat,
    route: readRoute(text('route.csv')),
    polars: readPolars(text('polars.csv'), { boat }),
    forecast: (await readForecast({ name: 'forecast.csv', open: () => [csv] })).forecast,
  };
  const plan = () => planPassage(inputs, { departure: '2027-01-11T12:00Z' });
  const first = await timed(plan);
  const planning = await medianOf(plan);
  line(
    `planPassage, sample: ${boat.sailPlans.length} plans, ${first.result.hours.length} hours`,
    `${(planning * 1000).toFixed(0)} ms a passage, the first ${(first.seconds * 1000).toFixed(0)} ms`,
    '100 ms',
  );
  return inputs;
}

const CHOICE_PLANS = 14;
/** South of Madeira, round Gran Canaria and across to Saint Lucia: 3,050 Nm. */
const CHOICE_ROUTE = `name,lat,lon,to_next
A,32.0,-12.5,rhumb
B,27.7,-15.25,rhumb
C,20.0,-28.0,great-circle
D,14.12,-60.95,
`;

/**
 * The planned choice over 3,000 Nm: a boat is planned hour by hour and the hours are then sailed exactly under every plan for the
 * log, as the baseline does. What the search and its tables take is the difference to the baseline.
 */
async function benchChoice(inputs) {
  // More plans than the boat has are the same again under other names.
  const withPlans = (count) => {
    const plans = Array.from({ length: count }, (_, i) => ({
      own: inputs.boat.sailPlans[i % CHOICE_PLANS],
      id: `p${i}`,
    }));
    return {
      ...inputs,
      route: readRoute(CHOICE_ROUTE),
      boat: { ...inputs.boat, sailPlans: plans.map(({ own, id }) => ({ ...own, id })) },
      polars: {
        ...inputs.polars,
        plans: Object.fromEntries(plans.map(({ own, id }) => [id, inputs.polars.plans[own.id]])),
      },
    };
  };
  const overLegs = (given, from, to) => ({
    ...given,
    route: { ...given.route, waypoints: given.route.waypoints.slice(from, to) },
  });
  const cells = (...texts) =>
    `  ${texts.map((cell, i) => `${cell}`[i === 0 ? 'padEnd' : 'padStart'](i === 0 ? 22 : 12)).join('')}`;
  const departure = '2027-01-10T06:00Z';
  const row = async (label, given, options) => {
    const plan = (more) => planPassage(given, { departure, ...options, ...more });
    const { hours, curve } = plan({});
    const whole = await medianOf(() => plan({}));
    const log = await medianOf(() => plan({ choice: 'fastest', labels: 1 }));
    const changes = hours.filter(({ sailChange }) => sailChange).length;
    const minutes = hours.reduce((sum, hour) => sum + hour.minutes, 0);
    const milliseconds = (seconds) => (1000 * seconds).toFixed(0);
    console.log(
      cells(
        label,
        milliseconds(whole - log),
        milliseconds(log),
        hours.length,
        curve.at(-1).changes,
        changes,
        minutes.toFixed(0),
      ),
    );
  };
  console.log(
    `planned choice, 3,050 Nm, ${CHOICE_PLANS} plans, whole curve (target 100 ms of search and tables with 1 label)`,
  );
  console.log(cells('', 'search, ms', 'log, ms', 'rows', 'curve to', 'changes', 'minutes'));
  const whole = withPlans(CHOICE_PLANS);
  for (const labels of [1, 4, 16]) await row(`${labels} labels kept alike`, whole, { labels });
  for (const plans of [7, 28]) await row(`${plans} plans`, withPlans(plans), { labels: 1 });
  await row('legs 1 and 2', overLegs(whole, 0, 3), { labels: 1 });
  await row('leg 3', overLegs(whole, 2, 4), { labels: 1 });
  for (const decisionMinutes of [30, 15])
    await row(`every ${decisionMinutes} min`, whole, { labels: 1, decisionMinutes });
  console.log(
    '  The search keeps a way for every plan and number of changes up to the end of the curve, in every row, and asks',
  );
  console.log(
    '  each to go over to every plan: rows x curve x plans, and once more plans where none is ruled out at once.',
  );
}

/** In processes of their own: the peak of reading, less that of Node with the library loaded. */
function benchMemory(path, forecast) {
  const peak = (code) => {
    const script = `import { createReadStream } from 'node:fs'; import { readForecast } from 'windwardrobe'; ${code} console.log(process.resourceUsage().maxRSS);`;
    const { stdout } = spawnSync('node', ['--input-type=module', '-e', script], {
      cwd: new URL('../..', import.meta.url),
      encoding: 'utf8',
    });
    return Number(stdout) / 1024;
  };
  const empty = peak('');
  const full = peak(
    `await readForecast({ name: 'f', open: () => createReadStream(${JSON.stringify(path)}, { highWaterMark: 1 << 18 }) });`,
  );
  const gridMb = Object.values(forecast.grids[0].fields).reduce((sum, field) => sum + field.byteLength, 0) / 1e6;
  line(
    'peak memory of reading',
    `${full.toFixed(0)} MB, of which ${empty.toFixed(0)} MB Node and library; grid ${gridMb.toFixed(1)} MB, ratio ${((full - empty) / gridMb).toFixed(1)}`,
    'under 3',
  );
}

/** Speeds of a boat's plans without polars, and her crossover. */
async function benchEstimate() {
  const boat = readBoat(text('kinds.json'));
  const some = { ...boat, sailPlans: boat.sailPlans.slice(0, 20) };
  const estimating = await medianOf(() => estimatePolars(some));
  line(
    `estimatePolars, ${some.sailPlans.length} plans with bands`,
    `${(estimating * 1000).toFixed(0)} ms`,
    'under 2 s',
  );
  const polars = estimatePolars(boat);
  const crossing = await medianOf(() => crossoverOf(boat, polars));
  line(
    `crossoverOf, ${boat.sailPlans.length} plans beside the catalogue`,
    `${(crossing * 1000).toFixed(0)} ms`,
    'none set',
  );
}

async function benchHelp() {
  const bin = new URL('../../dist/cli/bin.js', import.meta.url).pathname;
  const help = await medianOf(() => spawnSync('node', [bin, '--help']));
  const bare = await medianOf(() => spawnSync('node', ['-e', '0']));
  line('--help', `${(help * 1000).toFixed(0)} ms, bare node ${(bare * 1000).toFixed(0)} ms`, 'under 150 ms');
}

try {
  console.log(`node ${process.version}; medians of ${REPEATS}\n`);
  for (const [name, layout] of Object.entries(LAYOUTS)) await benchReading(name, join(folder, `${name}.csv`), layout);
  console.log();
  const path = join(folder, 'plain.csv');
  const { forecast } = await readForecast(source(path));
  const inputs = await benchPassage();
  const { polars } = inputs;
  await benchChoice(inputs);
  console.log();
  benchStudy(line);
  console.log();
  await benchSampling(forecast, polars);
  benchMemory(path, forecast);
  await benchEstimate();
  await benchHelp();
  const kB = (size) => `${(size / 1000).toFixed(1)} kB`;
  for (const [entry, most] of Object.entries(GZIP_TARGET_BYTES)) {
    const { bytes, gzipBytes } = await bundle({ entry });
    line(`core bundle, minified, ${entry}:`, `${kB(bytes)}, gzip ${kB(gzipBytes)}`, `under ${kB(most)}`);
  }
} finally {
  rmSync(folder, { recursive: true });
}
