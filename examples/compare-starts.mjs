// The same passage from every start that the forecast allows, side by side: when to go. A study (many-passages.mjs) weighs them for you.
import { readFile } from 'node:fs/promises';
import {
  mayDepart,
  passagesFrom,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  startsOf,
  totalsOf,
} from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const route = readRoute(await text('route.csv'));
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const forecastCsv = await text('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });

const options = { crew: 4 };
const whyNot = mayDepart(route, { forecast }, options);
const sail = passagesFrom({ route, boat, polars }, options);
const starts = startsOf(Date.UTC(2027, 0, 9, 12) / 1000, Date.UTC(2027, 0, 15, 12) / 1000, 24);
console.log('departure         arrival           days  changes  by night  gust kn');
for (const departure of starts) {
  const [fault] = whyNot(departure);
  if (fault !== undefined) {
    console.log(`${departure.slice(0, 16)}  no: ${fault.expected}`);
    continue;
  }
  const passage = sail({ forecast }, departure);
  const { arrival, arrivalEstimate, hours, sailChanges, changesAt } = totalsOf(passage, boat);
  const gustKn = Math.max(...passage.hours.map((hour) => hour.gustKn));
  const there = passage.complete ? arrival.slice(0, 16) : `(${arrivalEstimate?.slice(0, 16) ?? passage.reason})`;
  const cells = [(hours / 24).toFixed(1), sailChanges, changesAt.night, gustKn.toFixed(0)];
  console.log(
    `${departure.slice(0, 16)}  ${there}  ${cells.map((cell, i) => String(cell).padStart([4, 7, 8, 7][i])).join('  ')}`,
  );
}
