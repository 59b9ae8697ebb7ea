import { planned } from './plan.js';

// A large forecast takes seconds to read: in a page of your own do this in a worker, the records cross as they are.
const names = ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'];
const read = async (name) => [name, await (await fetch(`data-samples/${name}`)).text()];
const output = document.querySelector('pre');
try {
  output.textContent = await planned(Object.fromEntries(await Promise.all(names.map(read))), '2027-01-11T12:00Z');
} catch (error) {
  // Of an InputError every fault on a line of its own.
  output.textContent = String(error.message);
}
output.dataset.done = 'true';
