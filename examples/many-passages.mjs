// Which start, and how many hours on each sail: many passages, in one forecast and in synthetic weather of the same season.
import { readFile } from 'node:fs/promises';
import {
  casesIn,
  drawnFrom,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
  startsOf,
  studySailer,
  summaryOf,
} from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const route = readRoute(await text('route.csv'));
const [forecastCsv, climatologyCsv] = [await text('forecast.csv'), await text('climatology.csv')];
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });
const { climatology } = await readClimatology({ name: 'climatology.csv', open: () => [climatologyCsv] });

const from = Date.UTC(2027, 0, 10, 12) / 1000;
const common = {
  routes: [{ name: 'route', route }],
  boats: [{ name: 'boat', boat, polars }],
  options: { labels: 1, crew: 4 },
};
const sail = (study) => {
  const passage = studySailer(study);
  return summaryOf(Array.from({ length: casesIn(study) }, (_, n) => passage(n)));
};

const inForecast = sail({
  ...common,
  weathers: [{ name: 'forecast', weather: { forecast } }],
  starts: startsOf(from, from + 4 * 86400, 24),
});
for (const { name, metrics, score } of inForecast.starts)
  console.log(
    `${name}: ${metrics.hours.mean.toFixed(0)} h, ${metrics.changes.mean} changes, score ${score.toFixed(1)}`,
  );
console.log(`best: ${inForecast.bestStarts[0]}`);

const drawn = [1, 2, 3, 4, 5, 6].map((seed) => drawnFrom(climatology, { seed, fromEpochSeconds: from }));
const { all } = sail({
  ...common,
  weathers: drawn.map((climatology, n) => ({ name: 'month', draw: n + 1, weather: { climatology } })),
  starts: startsOf(from, from, 24),
});
console.log(`${all.passages} drawings: ${all.hours.p5.toFixed(0)} to ${all.hours.p95.toFixed(0)} h`);
for (const { id, hours } of all.sails.filter(({ hours }) => hours.mean > 0))
  console.log(`${id}: ${hours.p5.toFixed(0)} to ${hours.p95.toFixed(0)} h`);
