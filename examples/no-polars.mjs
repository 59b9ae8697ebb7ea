// Speeds of a boat without polars, from her kinds of sail, rig, hull and one known speed; and where each sail belongs.
import { readFile, writeFile } from 'node:fs/promises';
import { answersOf, crossoverOf, estimatePolars, polarSpeed, readBoat } from 'windwardrobe';
import { crossoverSvg } from 'windwardrobe/report';

const boat = readBoat(await readFile(new URL('../data-samples/kinds.json', import.meta.url), 'utf8'));
const polars = estimatePolars(boat);
console.log(polars.basis[0]);
for (const plan of ['main+jib', 'main+gennaker', 'vented']) {
  const at = (set) => polarSpeed(set[plan])(16, 135).toFixed(1);
  console.log(`${plan} at TWS 16, TWA 135: ${at(polars.plans)} kn, from ${at(polars.low)} to ${at(polars.high)}`);
}
const crossover = crossoverOf(boat, polars);
const { staysInTheBag, noSail } = answersOf(crossover);
console.log(['Which of my sails stays in the bag?', ...staysInTheBag].join('\n  '));
console.log(['Where have I no sail?', ...noSail].join('\n  '));
const [folder] = process.argv.slice(2);
if (folder !== undefined) await writeFile(`${folder}/crossover.svg`, crossoverSvg(crossover));
