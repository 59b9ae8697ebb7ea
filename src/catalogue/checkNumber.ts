import { InputError } from '../errors.js';
import { says } from '../wording.js';

/** Refuses a number outside a range, or none at all: a ratio given in percent, say. */
export function checkNumber(name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) throw new InputError([{ file: name, ...says.number(min, max, `${value}`) }]);
}
