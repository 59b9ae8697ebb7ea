// Files to a plan under a house rule of the program's, what it adds up to, and the report for people.
import { fileURLToPath } from 'node:url';
import { planPassage, totalsOf, wearOf } from 'windwardrobe';
import { loadInputs, worldLand } from 'windwardrobe/node';
import { planReport } from 'windwardrobe/report';

const at = (name) => fileURLToPath(new URL(`../data-samples/${name}`, import.meta.url));
const paths = { route: at('route.csv'), forecast: at('forecast.csv'), boat: at('boat.json') };
const { inputs, digests, warnings } = await loadInputs(paths); // the boat file names her polars
const { route, boat } = inputs;
const passage = planPassage(inputs, { departure: '2027-01-11T12:00Z', house: { pricePerChangeMinutes: 45 } });
const totals = totalsOf(passage, boat);
console.log(`${warnings.length} warnings; there at ${totals.arrival} with ${totals.sailChanges} sail changes`);
const plan = { passage, totals, wear: wearOf(passage, boat), route, boat, inputs: digests };
console.log(planReport(plan, { land: await worldLand() }).slice(0, 15)); // write all of it to report.html
