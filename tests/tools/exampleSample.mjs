// What examples in doc comments start from: what the files of data-samples hold, read, planned and sailed once.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  boatWith,
  casesIn,
  crossoverOf,
  estimatePolars,
  nextSailOf,
  planPassage,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
  startsOf,
  studySailer,
  summaryOf,
  totalsOf,
  wearOf,
  worthOf,
} from 'windwardrobe';

const path = (name) => fileURLToPath(new URL(`../../data-samples/${name}`, import.meta.url));
const text = (name) => readFileSync(path(name), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-examples-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const routeCsv = text('route.csv');
const forecastCsv = text('forecast.csv');
const climatologyCsv = text('climatology.csv');
const boatJson = text('boat.json');
const polarsCsv = text('polars.csv');

const route = readRoute(routeCsv);
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });
const { climatology } = await readClimatology({ name: 'climatology.csv', open: () => [climatologyCsv] });
const boat = readBoat(boatJson);
const polars = readPolars(polarsCsv, { boat });
const departure = '2027-01-11T12:00Z';
const passage = planPassage({ route, forecast, boat, polars }, { departure });
const totals = totalsOf(passage, boat);
const plan = { passage, totals, boat, route, inputs: [], wear: wearOf(passage, boat) };

const kinds = readBoat(text('kinds.json'));
const kindsPolars = estimatePolars(kinds);
const crossover = crossoverOf(boat, polars);

const starts = startsOf(Date.parse(departure) / 1000, Date.parse(departure) / 1000 + 86400, 24);
const around = {
  routes: [{ name: 'route', route }],
  weathers: [{ name: 'forecast', weather: { forecast } }],
  starts,
  options: {},
};
const study = { ...around, boats: [{ name: 'boat', boat, polars }] };
const sail = (studied) => Array.from({ length: casesIn(studied) }, (_, n) => studySailer(studied)(n));
const records = sail(study);
const studied = {
  digest: '',
  routes: ['route'],
  boats: ['boat'],
  weathers: ['forecast'],
  starts,
  options: {},
  inputs: [],
  warnings: [],
  summary: summaryOf(records),
};

const before = readBoat(text('no-downwind.json'));
const beforePolars = estimatePolars(before);
const vented = boatWith(before, beforePolars, { kind: 'vented-downwind', areaM2: 140, price: 9000 });
const sailed = (one) => ({ ...one, records: sail({ ...around, boats: [one] }) });
const without = sailed({ name: 'without', boat: before, polars: beforePolars });
const withVented = sailed({ name: 'with', boat: vented.boat, polars: vented.polars });
const tried = { ...withVented, kind: 'vented-downwind', sail: vented, turned: [] };
const prices = { hourValue: 10, years: 5, milesPerYear: 6000 };

export const sample = {
  path,
  folder,
  routeCsv,
  forecastCsv,
  climatologyCsv,
  boatJson,
  polarsCsv,
  route,
  forecast,
  climatology,
  boat,
  polars,
  passage,
  plan,
  kinds,
  kindsPolars,
  crossover,
  study,
  records,
  studied,
  without,
  vented,
  withVented,
  tried,
  worth: worthOf(without, withVented, { ...prices, price: 9000 }),
  next: nextSailOf(without, [tried], prices, crossoverOf(before, beforePolars)),
};
