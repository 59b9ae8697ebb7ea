import type { Figure, Origin } from '../catalogue/catalogue.js';
import type { LimitByAngle } from '../sail/sail.js';

/** Letters that stand behind numbers, and what they mean. */
export const STATUS_LETTERS = { source: 's', derived: 'd', 'common-practice': 'c', placeholder: 'p' } as const;

export const LEGEND =
  's a source, d derived from one or from practice, c common practice (no source), p placeholder (no authority: put your own in the boat file).';

/** A limit as text: a number, or `16 at 65° to 22 at 140°`. */
export function limitText(limit: number | LimitByAngle): string {
  if (typeof limit === 'number') return `${limit}`;
  return limit.map(([angle, kn]) => `${kn} at ${angle}°`).join(' to ');
}

/** A limit as it stands in a table: `16-22`. */
export function limitRange(limit: number | LimitByAngle): string {
  if (typeof limit === 'number') return `${limit}`;
  const all = limit.map(([, kn]) => kn);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  return least === most ? `${most}` : `${least}-${most}`;
}

/** Where a value comes from, in brackets. */
export function originText({ status, source, basis }: Origin): string {
  const what = {
    source: 'source',
    derived: 'derived',
    'common-practice': 'common practice, no source',
    placeholder: 'placeholder',
  }[status];
  return `(${[source === undefined ? what : `${what} ${source}`, basis].filter((part) => part !== undefined).join('; ')})`;
}

/** A value with its letter. */
export const lettered = (figure: Figure<unknown>, text = `${figure.value}`) =>
  behind(text, STATUS_LETTERS[figure.status]);

/** A letter close behind a number, and apart behind a word. */
export const behind = (text: string, letter: string) =>
  letter !== '' && /[a-z]$/i.test(text) ? `${text} ${letter}` : `${text}${letter}`;
