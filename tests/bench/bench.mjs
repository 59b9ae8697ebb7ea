// Measures the built library beside plain csv-parse in the same run. Compare ratios and medians: machines are noisy.
// Run: npm run bench [rows of the forecast in thousands, default 600]
import { spawnSync } from 'node:child_process';
import { createReadStream, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse';
import { planPassage, readBoat, readForecast, readPolars, readRoute, weatherAt } from 'windwardrobe';

const REPEATS = 5;
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
const line = (label, text) => console.log(`${label.padEnd(44)}${text}`);

/** A forecast on a 1° grid over the Atlantic trades, as many times as make the rows. */
function writeForecast(path) {
  const [lats, lons] = [28, 55];
  const times = Math.ceil(wantedRows / (lats * lons));
  const rows = ['time,lat,lon,u10,v10'];
  for (let t = 0; t < times; t += 1) {
    const time = new Date(Date.UTC(2027, 0, 10) + t * 3600_000).toISOString().replace('.000', '');
    for (let y = 0; y < lats; y += 1) {
      for (let x = 0; x < lons; x += 1) {
        rows.push(
          `${time},${32 - y},${x - 64},${(-7 - 2 * Math.sin(x / 9 + t / 30)).toFixed(2)},${(-2 + Math.cos(y / 5 - t / 40)).toFixed(2)}`,
        );
      }
    }
  }
  writeFileSync(path, `${rows.join('\n')}\n`);
  return rows.length - 1;
}

try {
  const path = join(folder, 'forecast.csv');
  const rows = writeForecast(path);
  console.log(
    `node ${process.version}; forecast of ${rows} rows, ${(statSync(path).size / 1e6).toFixed(1)} MB; medians of ${REPEATS}\n`,
  );

  const plain = await medianOf(async () => {
    let sum = 0;
    const parser = createReadStream(path).pipe(parse({ from_line: 2 }));
    parser.on('readable', () => {
      for (let record = parser.read(); record !== null; record = parser.read()) sum += +record[3];
    });
    await new Promise((resolve, reject) => parser.on('end', resolve).on('error', reject));
    return sum;
  });
  const open = () => createReadStream(path, { highWaterMark: 1 << 18 });
  const ours = await medianOf(() => readForecast({ name: 'forecast.csv', open }));
  line('csv-parse, its own stream', `${(rows / plain / 1e6).toFixed(2)} M rows/s`);
  line(
    'readForecast, whole file kept',
    `${(rows / ours / 1e6).toFixed(2)} M rows/s, ${((100 * plain) / ours).toFixed(0)} % of csv-parse`,
  );

  const { forecast } = await readForecast({ name: 'forecast.csv', open });
  const at = weatherAt(forecast);
  const samples = 1_000_000;
  const { fromEpochSeconds: from, toEpochSeconds: to } = forecast.covers;
  const sampling = await medianOf(() => {
    let sum = 0;
    for (let i = 0; i < samples; i += 1) {
      const share = i / samples;
      sum += at(6 + 25 * ((i * 0.618) % 1), -63 + 52 * ((i * 0.414) % 1), from + (to - from) * share).wind.eastKn;
    }
    return sum;
  });
  line('weatherAt, wind at a place and time', `${(samples / sampling / 1e6).toFixed(2)} M samples/s`);

  const text = (name) => readFileSync(new URL(`../../data-samples/${name}`, import.meta.url), 'utf8');
  const boat = readBoat(text('boat.json'));
  const csv = text('forecast.csv');
  const inputs = {
    boat,
    route: readRoute(text('route.csv')),
    polars: readPolars(text('polars.csv'), { boat }),
    forecast: (await readForecast({ name: 'forecast.csv', open: () => [csv] })).forecast,
  };
  const passage = await timed(() => planPassage(inputs, { departure: '2027-01-11T12:00Z' }));
  const planning = await medianOf(() => planPassage(inputs, { departure: '2027-01-11T12:00Z' }));
  line(
    `planPassage, sample: ${boat.sailPlans.length} plans, ${passage.result.hours.length} hours`,
    `${(planning * 1000).toFixed(0)} ms a passage (the first ${(passage.seconds * 1000).toFixed(0)} ms)`,
  );

  // Memory in processes of their own: the peak of reading, less that of Node with the library loaded.
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
  );

  const help = await medianOf(() =>
    spawnSync('node', [new URL('../../dist/cli/bin.js', import.meta.url).pathname, '--help']),
  );
  const bare = await medianOf(() => spawnSync('node', ['-e', '0']));
  line('--help', `${(help * 1000).toFixed(0)} ms (bare node ${(bare * 1000).toFixed(0)} ms)`);
} finally {
  rmSync(folder, { recursive: true });
}
