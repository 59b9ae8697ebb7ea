// Is a sail worth its price: the same passages without and with it, and with its speeds off either way.
import { readFile } from 'node:fs/promises';
import {
  boatWith,
  caseOf,
  casesIn,
  estimatePolars,
  readBoat,
  readForecast,
  readRoute,
  startsOf,
  studySailer,
  turnedBoats,
  worthCases,
  worthOf,
} from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(await text('no-downwind.json'));
const polars = estimatePolars(boat);
const forecastCsv = await text('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });
const vented = boatWith(boat, polars, { kind: 'vented-downwind', areaM2: 140, price: 9000 });

const from = Date.UTC(2027, 0, 10, 12) / 1000;
const voyage = {
  routes: [{ name: 'route', route: readRoute(await text('route.csv')) }],
  weathers: [{ name: 'forecast', weather: { forecast } }],
  starts: startsOf(from, from + 2 * 86400, 24),
};
const a = { name: 'without', boat, polars };
const b = { name: 'with', boat: vented.boat, polars: vented.polars };
const turned = turnedBoats(a, b).filter(({ input }) => input === 'speed-band');
const study = { ...voyage, ...worthCases(voyage, [a, b], turned, 2), options: {} };

// In a program of your own, sail them in threads: runStudy in windwardrobe/node.
const sail = studySailer(study);
const sailed = new Map(study.boats.map(({ name }) => [name, []]));
for (let n = 0; n < casesIn(study); n += 1) sailed.get(study.boats[caseOf(study, n).boat].name).push(sail(n));

const worth = worthOf(
  { ...a, records: sailed.get(a.name) },
  { ...b, records: sailed.get(b.name) },
  { price: 9000, hourValue: 10, years: 5, milesPerYear: 6000 },
  {
    turned: turned.map(({ input, end, text: told, a: ofA, b: ofB }) => ({
      input,
      end,
      text: told,
      a: ofA && sailed.get(ofA.name),
      b: sailed.get(ofB.name),
    })),
  },
);
const { differences, money, flown, verdict, turns } = worth;
console.log(`${verdict.answer}, by ${verdict.by}; speeds are ${verdict.estimated ? 'estimated' : 'measured'}`);
console.log(
  `hours: ${differences.hours.mid.toFixed(1)}, night changes: ${differences['night-changes'].mid.toFixed(1)}`,
);
console.log(`flew ${flown[0].hours.mean.toFixed(0)} h of a passage, in ${100 * flown[0].shareOfPassages} % of them`);
console.log(`saved ${money.savedPerPassage.mid.toFixed(0)} a passage; net ${money.net.mid.toFixed(0)} in 5 years`);
const speed = turns.find(({ input }) => input === 'speed-band');
for (const end of [speed.low, speed.high]) console.log(`${end.text}: ${end.hours.toFixed(1)} h`);
