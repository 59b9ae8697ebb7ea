import { parseHTML } from 'linkedom';

/** A report as a document, by a parser that is not ours. */
export const documentIn = (html: string): Document => parseHTML(html).document as unknown as Document;

/** What stands at a path of a JSON; null below what is null, undefined where there is no such place. */
export const at = (json: unknown, path: string): unknown =>
  path
    .split(/[.[\]]+/)
    .filter((key) => key !== '')
    .reduce<unknown>(
      (value, key) => (value === null ? null : (value as Record<string, unknown> | undefined)?.[key]),
      json,
    );

/**
 * Whether a text tells a value of a JSON: a number as far as its digits go, an instant to the minute, a duration, a place to a tenth of a
 * minute, a word. What is not there is told by nothing.
 */
export function tells(text: string, value: unknown): boolean {
  if (value === undefined) return false;
  if (value === null) return ['', 'hove to', 'none', 'null'].includes(text);
  if (typeof value === 'boolean') return text === `${value}` || text === (value ? 'yes' : 'no');
  if (typeof value === 'string') {
    if (text === value || text === value.replace('T', ' ').slice(0, 16)) return true;
    // A name of a month, or the day of a month.
    if (/^\d\d$/.test(value)) return text === MONTHS[Number(value) - 1];
    return (
      /^\d{4}-\d\d-\d\d$/.test(value) && text === `${Number(value.slice(8))} ${MONTHS[Number(value.slice(5, 7)) - 1]}`
    );
  }
  if (typeof value === 'object') {
    if ('latDeg' in value && 'lonDeg' in value) return tellsPlace(text, value);
    if (Array.isArray(value) && / at \d/.test(text))
      return text === value.map((corner: unknown) => `${at(corner, '1')} at ${at(corner, '0')}°`).join(', ');
    return text === JSON.stringify(value);
  }
  if (typeof value !== 'number') return false;
  const spent = /^(?:(\d+) d )?(\d+) h (\d\d) min$/.exec(text);
  if (spent !== null) {
    const [, days = '0', hours = '0', minutes = '0'] = spent;
    return Math.abs(Number(days) * 1440 + Number(hours) * 60 + Number(minutes) - value * 60) <= 0.5 + 1e-3;
  }
  const number = /^[^\d+-]*([-+]?\d+(?:\.(\d+))?(?:e-?\d+)?)\D*$/.exec(text);
  if (number === null) return false;
  const digits = number[2]?.length ?? 0;
  const [told, scaled] = [Number(number[1]), / %$/.test(text) ? value * 100 : value];
  return Math.abs(told - scaled) <= 0.5 * 10 ** -digits + 1e-6;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `16°52.8'N 024°58.8'W` */
function tellsPlace(text: string, value: object): boolean {
  const parts = [...text.matchAll(/(\d+)°(\d+\.\d)'([NSEW])/g)].map(
    ([, deg, minutes, side]) => (Number(deg) + Number(minutes) / 60) * (/[SW]/.test(side!) ? -1 : 1),
  );
  return (
    parts.length === 2 &&
    ['latDeg', 'lonDeg'].every((key, i) => Math.abs((at(value, key) as number) - parts[i]!) <= 0.05 / 60 + 1e-5)
  );
}

/** What a mark of a figure says: a path, before it `-` less than nothing, `%` in percent, `~` to its first digits, behind it `+5` so much more. */
const MARK = /^(-?)(%?)(~?)(.*?)(\+\d+)?$/;

function tellsMarked(text: string, mark: string, json: unknown): boolean {
  const [, minus, percent, loose, path = '', more = '0'] = MARK.exec(mark) ?? [];
  const value = at(json, path);
  if (typeof value !== 'number') return tells(text, value);
  const shown = (minus === '-' ? -1 : 1) * (percent === '%' ? 100 : 1) * (value + Number(more));
  return loose === '~' ? tellsFirstDigits(text, shown, percent === '%' ? 6e-5 : 6e-7) : tells(text, shown);
}

/** Of what is told to one or two digits, the noughts behind them say nothing; it is rounded twice, and the JSON has six decimals. */
function tellsFirstDigits(text: string, value: number, rounding: number): boolean {
  if (!/^[-+]?\d+(?:\.\d+)?$/.test(text)) return false;
  const [whole = '', ends = ''] = text.split('.');
  const decimals = ends.replace(/0+$/, '');
  const noughts = Number(text) === 0 || decimals !== '' ? 0 : /0*$/.exec(whole)![0].length;
  return Math.abs(Number(text) - value) <= 0.55 * 10 ** (noughts - decimals.length) + rounding;
}

/** What of a report does not tell what its JSON has at the place it names, and how many figures were looked at. */
export function figuresAgainst(
  html: string,
  json: unknown,
): { readonly wrong: readonly string[]; readonly figures: number } {
  const document = documentIn(html);
  const wrong: string[] = [];
  let figures = 0;
  for (const datum of document.querySelectorAll('data')) {
    figures += 1;
    const mark = datum.getAttribute('data-of') ?? '';
    const path = MARK.exec(mark)?.[4] ?? '';
    const text = datum.textContent ?? '';
    if (!tellsMarked(text, mark, json))
      wrong.push(`${mark}: the report has "${text}", the JSON ${JSON.stringify(at(json, path))}`);
    if (datum.getAttribute('value') !== `${at(json, path)}`)
      wrong.push(`${path}: value ${datum.getAttribute('value')}`);
  }
  for (const table of document.querySelectorAll('table[data-of]')) {
    const of = table.getAttribute('data-of') ?? '';
    const fields = [...table.querySelectorAll('thead th')].map((head) => head.getAttribute('data-field'));
    for (const row of table.querySelectorAll('tbody tr')) {
      const key = row.getAttribute('data-row') ?? '';
      [...row.children].forEach((cell, c) => {
        const field = fields[c];
        if (field === null || field === undefined) return;
        figures += 1;
        const path = pathOf(of, key, field);
        const text = cell.textContent ?? '';
        if (!tells(text, at(json, path)))
          wrong.push(`${path}: the report has "${text}", the JSON ${JSON.stringify(at(json, path))}`);
      });
    }
  }
  return { wrong, figures };
}

/** A field `+3.x` is that of the third record after the row's. */
function pathOf(of: string, key: string, field: string): string {
  const ahead = /^\+(\d+)\.(.+)$/.exec(field);
  if (ahead !== null) return `${of}.${Number(key) + Number(ahead[1])}.${ahead[2]}`;
  return `${of}.${key}${field === '' ? '' : `.${field}`}`;
}

/** Cells whose numbers are no figures of the JSON, by the caption of their table and the head of their column, with the reason. */
const UNTIED_CELLS: readonly (readonly [caption: RegExp, head: RegExp, why: string])[] = [
  [/^Sail changes, and why$/, /^no\.$/, 'counts the rows'],
  [/^Sail changes, and why$/, /^what and why/, 'sentences of the log, held against it by tests/why.test.ts'],
  [/^Hours on a knife's edge$/, /ship's clock$/, "the instant beside it by the ship's clock"],
  [
    /^(Options|Constants of wear|Filled in by kind and rig)$/,
    /^(option|mark|source|what|constant|of)$/,
    'names, and sources with their years',
  ],
  [/^Letter of the fastest plan/, /^TWA$/, 'the angle that the row is of, an option'],
];

/** Words of sentences and of names that have digits, with the reason. */
const UNTIED_WORDS: readonly (readonly [RegExp, string])[] = [
  [/\S+ \S+ by the ship's clock \(UTC[+-]?\d*\)/g, "the instant beside it by the ship's clock, held against it below"],
  [/\d+°\d+\.\d'[NSEW]/g, 'the places of waypoints, which are inputs'],
  [/\b\d+ [A-Z][a-z]{2}(?=[,.])/g, 'the day of the run beside it'],
  [/1:50 million/g, 'the scale of the coast'],
  [/\bFor each of \d+ sails\b/g, 'counts the drawings'],
  [/from 0° there to 180°/g, 'the circle'],
  [/\(95 %\)/g, 'how sure an interval is: always so'],
  [/\b(?:(?:h|some time) over \d\d kn)\b/g, 'the name of a metric'],
  [/\bin 100 h flown\b/g, 'the unit of a chance'],
  [/% of its life on a passage \([^)]*\), [\d.]+/g, 'the share beside it times the price'],
];

/** Numbers in the answer, in captions and in tables of a report that no place of its JSON is named for. */
export function untiedIn(html: string, json: unknown): readonly string[] {
  const document = documentIn(html);
  for (const datum of document.querySelectorAll('data')) datum.textContent = '';
  const names = namesIn(json).sort((a, b) => b.length - a.length);
  const numbersIn = (text: string) => {
    let left = names.reduce((rest, name) => rest.replaceAll(name, ''), text);
    for (const [words] of UNTIED_WORDS) left = left.replace(words, '');
    return /(?<![\p{L}\d.+-])\d/u.test(left);
  };
  const found: string[] = [];
  for (const line of document.querySelectorAll('.answer li'))
    if (numbersIn(line.textContent ?? '')) found.push(`answer: ${line.textContent}`);
  for (const caption of document.querySelectorAll('figcaption > p'))
    if (numbersIn(caption.textContent ?? '')) found.push(`caption: ${caption.textContent}`);
  for (const table of document.querySelectorAll('table')) {
    // Held against the log by a test of its own.
    if (table.closest('#watches') !== null) continue;
    const caption = table.querySelector('caption')?.textContent ?? '';
    const heads = [...table.querySelectorAll('thead tr > *')];
    for (const row of table.querySelectorAll('tbody tr'))
      [...row.children].forEach((cell, c) => {
        const head = heads[c]?.textContent ?? '';
        if (heads[c]?.getAttribute('data-field') != null && table.hasAttribute('data-of')) return;
        if (UNTIED_CELLS.some(([of, column]) => of.test(caption) && column.test(head))) return;
        if (numbersIn(cell.textContent ?? '')) found.push(`${caption} / ${head}: ${cell.textContent}`);
      });
  }
  return found;
}

/** Texts of a JSON in which a digit stands, but for instants. */
function namesIn(json: unknown): string[] {
  if (typeof json === 'string')
    return /\d/.test(json) && !/^\d{4}-\d\d/.test(json) && /\p{L}/u.test(json) ? [json] : [];
  return json !== null && typeof json === 'object' ? [...new Set(Object.values(json).flatMap(namesIn))] : [];
}
