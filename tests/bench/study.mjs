// Many passages of the sample's size. Each run is a process of its own, so that its peak of memory is its own.
import { spawnSync } from 'node:child_process';
import { availableParallelism } from 'node:os';

const FEW = 200;
const MANY = 1000;
const FIRST = Date.UTC(2027, 0, 10, 12) / 1000;

/** Seconds and peak memory in MB of a study of so many passages, by hand with so many threads; none of both is the library loaded. */
function run(passages, threads) {
  const script = `
import { startsOf } from 'windwardrobe';
import { loadStudy, runStudy } from 'windwardrobe/node';
const sample = (name) => 'data-samples/' + name;
const { study } = await loadStudy({ routes: [sample('route.csv')], boats: [sample('boat.json')], forecasts: [sample('forecast.csv')] });
const whole = { ...study, starts: startsOf(${FIRST}, ${FIRST} + 360 * ${passages - 1}, 0.1), options: { labels: 1 } };
const started = process.hrtime.bigint();
let lines = 0;
if (${threads} > 0) for await (const line of runStudy(whole, { threads: ${threads} })) lines += line.length > 0 ? 1 : 0;
const seconds = Number(process.hrtime.bigint() - started) / 1e9;
console.log(JSON.stringify({ seconds, lines, megabytes: process.resourceUsage().maxRSS / 1024 }));`;
  const { stdout, stderr } = spawnSync('node', ['--input-type=module', '-e', script], {
    cwd: new URL('../..', import.meta.url),
    encoding: 'utf8',
  });
  if (stdout === '') throw new Error(stderr);
  return JSON.parse(stdout);
}

/** Time of a passage, passages by threads, and memory by passages. */
export function benchStudy(line) {
  const cores = availableParallelism();
  const loaded = run(1, 0);
  console.log(`study, passages of the sample's size, one label; ${cores} cores`);
  const one = run(FEW, 1);
  const oneByOne = one.seconds / FEW;
  line(`  ${FEW} passages, 1 thread`, `${(1000 * oneByOne).toFixed(0)} ms each, start of the thread among it`, '20 ms');
  let most = one;
  for (let threads = 2; threads <= cores; threads *= 2) {
    most = run(MANY, threads);
    line(
      `  ${MANY} passages, ${threads} threads`,
      `${most.seconds.toFixed(1)} s, ${((oneByOne * MANY) / most.seconds).toFixed(2)} times as fast as one`,
      threads === 2 ? '10 s' : undefined,
    );
  }
  for (const [passages, { megabytes }] of [
    [FEW, one],
    [MANY, run(MANY, 1)],
  ]) {
    const before = `${loaded.megabytes.toFixed(0)} MB with all files read`;
    line(`  peak memory, ${passages} passages, 1 thread`, `${megabytes.toFixed(0)} MB, of which ${before}`);
  }
}
