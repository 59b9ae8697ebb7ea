import { parseHTML } from 'linkedom';

/** A report as a document, by a parser that is not ours. */
export const documentIn = (html: string): Document => parseHTML(html).document as unknown as Document;

/** What stands at a path of a JSON; undefined where there is nothing. */
export const at = (json: unknown, path: string): unknown =>
  path
    .split(/[.[\]]+/)
    .filter((key) => key !== '')
    .reduce<unknown>((value, key) => (value as Record<string, unknown> | null | undefined)?.[key], json);

/** Whether a text tells a value of a JSON: a number as far as its digits go, an instant to the minute, a duration, a word. */
export function tells(text: string, value: unknown): boolean {
  if (value === null || value === undefined)
    return text === '' || text === 'hove to' || text === 'none' || text === 'null';
  if (typeof value === 'boolean' || typeof value === 'object') return text === JSON.stringify(value);
  if (typeof value === 'string') {
    if (text === value || text === value.replace('T', ' ').slice(0, 16)) return true;
    // A name of a month, or a text of an input in which nothing is unseen.
    return /^\d\d$/.test(value) && text === MONTHS[Number(value) - 1];
  }
  if (typeof value !== 'number') return false;
  const spent = /^(?:(\d+) d )?(\d+) h (\d\d) min$/.exec(text);
  if (spent !== null) {
    const [, days = '0', hours = '0', minutes = '0'] = spent;
    return Math.abs(Number(days) * 1440 + Number(hours) * 60 + Number(minutes) - value * 60) <= 0.5 + 1e-3;
  }
  const number = /[-+]?\d+(?:\.(\d+))?(?:e-?\d+)?/.exec(text);
  if (number === null) return false;
  const digits = number[1]?.length ?? 0;
  const [told, scaled] = [Number(number[0]), / %$/.test(text) ? value * 100 : value];
  return Math.abs(told - scaled) <= 0.5 * 10 ** -digits + 1e-6;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** What of a report does not tell what its JSON has at the place it names, and how many figures were looked at. */
export function figuresAgainst(
  html: string,
  json: unknown,
): { readonly wrong: readonly string[]; readonly figures: number } {
  const document = documentIn(html);
  const wrong: string[] = [];
  let figures = 0;
  const look = (path: string, text: string) => {
    figures += 1;
    const value = at(json, path);
    if (!tells(text, value)) wrong.push(`${path}: the report has "${text}", the JSON ${JSON.stringify(value)}`);
  };
  for (const datum of document.querySelectorAll('data')) {
    const path = datum.getAttribute('data-of') ?? '';
    look(path, datum.textContent ?? '');
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
        look(pathOf(of, key, field), cell.textContent ?? '');
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
