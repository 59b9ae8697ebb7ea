// House rules of your own: functions that bar a sail plan at a place and time, each under the name it is told by.
import { readFile } from 'node:fs/promises';
import { planPassage, readBoat, readForecast, readPolars, readRoute, totalsOf } from 'windwardrobe';
import { kindOf } from 'windwardrobe/sails';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const route = readRoute(await text('route.csv'));
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const forecastCsv = await text('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });

const flying = new Set(boat.sails.flatMap(({ id, kind }) => (kindOf(kind).place === 'flying' ? [id] : [])));
const setsFlying = ({ sails }) => sails.some((id) => flying.has(id));
const departs = Date.UTC(2027, 0, 11, 12) / 1000;
const rules = [
  {
    name: 'nothing flying in the first two days',
    bars: (plan, { epochSeconds }) => setsFlying(plan) && epochSeconds < departs + 48 * 3600,
  },
  {
    name: 'two reefs by night in gusts over 28 kn',
    bars: ({ sails }, { daylight, gustKn }) =>
      !daylight && gustKn > 28 && sails.some((id) => id === 'main' || id === 'main:1'),
  },
];

const tell = (passage) => {
  const { arrival, sailChanges, sails } = totalsOf(passage, boat);
  const hours = sails.filter(({ id }) => flying.has(id)).map((sail) => `${sail.id} ${sail.hours.toFixed(0)} h`);
  console.log(`there at ${arrival}, ${sailChanges} sail changes; ${hours.join(', ')}`);
};
const options = { departure: '2027-01-11T12:00Z' };
tell(planPassage({ route, forecast, boat, polars }, options));
const passage = planPassage({ route, forecast, boat, polars }, options, { rules });
tell(passage);
for (const name of passage.ownRules) {
  const barred = passage.hours.filter((hour) => hour.barred.some(({ rule }) => rule === name));
  console.log(`${name}: bars something in ${barred.length} hours, first at ${barred[0].time}`);
}
