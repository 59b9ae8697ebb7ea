import { readFile } from 'node:fs/promises';
import { planPassage, readBoat, readForecast, readPolars, readRoute, totalsOf } from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const route = readRoute(await text('route.csv'));
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const forecastCsv = await text('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });
const passage = planPassage({ route, forecast, boat, polars }, { departure: '2027-01-11T12:00Z' });
const { arrival, sailChanges, sails } = totalsOf(passage, boat);
const [{ sailPlan, awaDeg, awsKn }] = passage.hours;
console.log(`${sailPlan} first, wind ${awsKn.toFixed(1)} kn at ${awaDeg.toFixed(0)} off the bow; there at ${arrival}`);
console.log(`${sailChanges} sail changes; ${sails.map(({ id, hours }) => `${id} ${hours.toFixed(1)} h`).join(', ')}`);
