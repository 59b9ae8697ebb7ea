// What a passage takes of every sail, and how much of that has no source.
import { readFile } from 'node:fs/promises';
import { planPassage, readBoat, readForecast, readPolars, readRoute, wearOf } from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const forecastCsv = await text('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });
const route = readRoute(await text('route.csv'));
const passage = planPassage({ route, forecast, boat, polars }, { departure: '2027-01-11T12:00Z', choice: 'fastest' });
const { sails, first, constants } = wearOf(passage, boat);
const percent = ({ low, mid, high }) => [mid, low, high].map((share) => Number((share * 100).toPrecision(1)));
for (const { sail, hours, total, cause } of sails.filter((one) => one.hours > 0)) {
  const [middle, least, most] = percent(total);
  console.log(`${sail}: ${hours.toFixed(0)} h take ${middle} % (${least} to ${most}) of its life, most by ${cause}`);
}
console.log(`first wears ${first.sail}${first.orElse.map((id) => `, or ${id}`).join('')}`);
const placeholders = constants.filter(({ status }) => status === 'placeholder').length;
console.log(`${placeholders} of ${constants.length} constants are placeholders`);
