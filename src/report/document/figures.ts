import { duration } from '../../output/output.js';
import { escaped } from '../drawing/svg.js';
import { tag } from './html.js';
import { valueAt } from './valueAt.js';

/** Figures of a report: what is shown of a record, each with the place it has in the JSON of that record. */
export interface Figures {
  /** A number or an instant in a sentence, as it is told; `path` is where the JSON has it: `totals.hours`, `curve[3].hours`. */
  readonly told: (path: string, text: string) => string;
  /**
   * A sentence or a cell that is worded elsewhere, as markup: each of its figures that one of these places has, with its place. A path may
   * say how it is told: `%` before it in percent, `~` to its first digits only, `+5` behind it so much more. What none of them has stays as
   * it is.
   */
  readonly tied: (text: string, ...paths: readonly string[]) => string;
}

/**
 * Figures read from a JSON that is written beside the report, so that a reader can go from any of them to its place there, and a test can hold
 * the two against each other.
 */
export function figuresOf(json: unknown): Figures {
  const marked = (path: string, value: unknown, text: string) =>
    tag('data', { value: `${value}`, 'data-of': path }, text);
  return {
    /** @throws Error where the JSON has no such place: a figure that no file holds is not to be shown */
    told(path, text) {
      const value = valueAt(json, path);
      if (typeof value !== 'number' && typeof value !== 'string') throw new Error(`the JSON has no figure at ${path}`);
      return marked(path, value, escaped(text));
    },
    tied(text, ...paths) {
      const places = paths.flatMap((path) => placesAt(json, path));
      const left = [...places];
      const whole = escaped(text);
      const words = places.flatMap(({ value }) => (typeof value === 'string' ? literally(escaped(value)) : []));
      return whole.replace(new RegExp([...words, FIGURE].join('|'), 'gu'), (figure, ...rest: unknown[]) => {
        const at = rest.find((one) => typeof one === 'number') as number;
        const isShare = whole.startsWith(' %', at + figure.length);
        const isOf = (place: Place) => isTold(figure, place, isShare);
        const place = left.find(isOf) ?? places.find(isOf);
        if (place === undefined) return figure;
        if (left.includes(place)) left.splice(left.indexOf(place), 1);
        const { value, mark, isNegative, isPercent } = place;
        const percent = isShare && !isPercent && typeof value === 'number' && !isInPercent(mark) ? '%' : '';
        return marked(`${isNegative ? '-' : ''}${percent}${mark}`, value, figure);
      });
    },
  };
}

/** Instants and durations are one figure, a number has its sign, and digits within a name are none. */
const FIGURE =
  '\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d|(?:\\d+ d )?\\d+ h \\d\\d min|(?<![\\p{L}\\d.+-])[-+]?\\d+(?:\\.\\d+)?(?![\\p{L}\\d]|[-.+]\\p{L})';

const literally = (text: string) => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');

/** What a figure may be of. */
interface Place {
  /** As it was given. */
  readonly mark: string;
  readonly value: number | string;
  /** What is shown of a number: it, less than nothing, or so much more. */
  readonly shown: number;
  readonly isNegative: boolean;
  readonly isPercent: boolean;
  readonly isLoose: boolean;
}

function placesAt(json: unknown, mark: string): readonly Place[] {
  const [, percent, digits, path = '', more = '0'] = /^(%?)(~?)(.*?)(\+\d+)?$/.exec(mark) ?? [];
  const value = valueAt(json, path);
  if (typeof value !== 'number' && typeof value !== 'string') return [];
  const how = { mark, value, isPercent: percent !== '', isLoose: digits !== '' };
  if (typeof value === 'string') return [{ ...how, shown: Number.NaN, isNegative: false }];
  const shown = (value + Number(more)) * (how.isPercent ? 100 : 1);
  return [
    { ...how, shown, isNegative: false },
    { ...how, shown: -shown, isNegative: true },
  ];
}

const isInPercent = (mark: string) => mark.endsWith('Percent');

function isTold(figure: string, { mark, value, shown, isPercent, isLoose }: Place, isShare: boolean): boolean {
  if (typeof value === 'string') return figure === escaped(value) || figure === value.slice(0, 16).replace('T', ' ');
  if (figure.endsWith('min')) return duration(shown) === figure;
  const off = Math.abs(Number(figure) - (isShare && !isPercent && !isInPercent(mark) ? 100 * shown : shown));
  if (!isLoose) return off <= 0.5 * 10 ** -(figure.split('.')[1]?.length ?? 0) + 1e-6;
  // Told to its first digits: the noughts behind them say nothing. What is rounded twice may be off by a little more.
  const short = figure.includes('.') ? figure.replace(/\.?0+$/, '') : figure;
  const [, noughts = ''] = /^-?\d*[1-9](0*)$/.exec(short) ?? [];
  // The JSON has six decimals.
  return off <= 0.55 * 10 ** (noughts.length - (short.split('.')[1]?.length ?? 0)) + 6e-7 * (isPercent ? 100 : 1);
}
