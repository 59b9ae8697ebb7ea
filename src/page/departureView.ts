import { byId } from './dom.js';

const field = () => byId<HTMLInputElement>('departure');

/** The file whose first instant the field holds; undefined where a person filled it in. */
let from: string | undefined;

/** The departure that a forecast begins with, unless a person set another. */
export function offerDeparture(time: string, file: string): void {
  if (field().value !== '' && from !== file) return;
  field().value = time.slice(0, 16);
  from = file;
}

/** The file was taken away, and its departure goes with it. */
export function withdrawDeparture(file: string): void {
  if (from === file) field().value = '';
}

/** What a person says stays. */
export function setDeparture(time = field().value): void {
  field().value = time;
  from = undefined;
}
