/**
 * A value as an example claims it: `// { awsKn: 13.41…, awaDeg: … }`. It is written as in the language, but that `…` stands for what is
 * not told: after digits for further ones, at an end of a text for more of it, in a list or record for more members, alone for any
 * value but undefined. Numbers without it are exact. Gives a function that tells how a value differs, undefined where it does not.
 */
export function readClaim(text) {
  let at = 0;
  const fail = (expected) => {
    throw new Error(`claim ${JSON.stringify(text)}: expected ${expected} at ${JSON.stringify(text.slice(at))}`);
  };
  const skip = () => {
    while (/\s/.test(text[at] ?? '')) at += 1;
  };
  const take = (pattern) => {
    skip();
    const found = new RegExp(pattern, 'y');
    found.lastIndex = at;
    const match = found.exec(text);
    if (match !== null) at = found.lastIndex;
    return match;
  };
  const need = (pattern, expected) => take(pattern) ?? fail(expected);

  const members = (close, member) => {
    const list = [];
    let open = false;
    while (take(close) === null) {
      if (open) fail('the end after …');
      if (take(/…(?=\s*[\]}])/) === null) list.push(member());
      else open = true;
      if (take(',') === null) {
        need(close, 'a comma or the end');
        break;
      }
    }
    return { list, open };
  };

  const value = () => {
    if (take('…') !== null) return (got) => (got === undefined ? 'expected a value, got undefined' : undefined);
    if (take('\\[') !== null) return listClaim(members('\\]', value));
    if (take('\\{') !== null) {
      return recordClaim(
        members('\\}', () => {
          const [, quoted, bare] = need(/(?:'([^']*)'|([\w$]+))\s*:/, 'a key');
          return [quoted ?? bare, value()];
        }),
      );
    }
    const string = take(/'((?:[^'\\]|\\.)*)'/);
    if (string !== null) return textClaim(unescaped(string[1]));
    const number = take(/(-?\d+(?:\.\d+)?)(…?)/);
    if (number !== null) return numberClaim(number[1], number[2] === '…');
    const [word] = need(/(?:true|false|null|undefined|NaN|-?Infinity)\b/, 'a value');
    return exactClaim(WORDS.get(word));
  };

  const claim = value();
  skip();
  if (at < text.length) fail('the end');
  return claim;
}

const WORDS = new Map([
  ['true', true],
  ['false', false],
  ['null', null],
  ['undefined', undefined],
  ['NaN', Number.NaN],
  ['Infinity', Number.POSITIVE_INFINITY],
  ['-Infinity', Number.NEGATIVE_INFINITY],
]);

const unescaped = (text) => text.replaceAll('\\n', '\n').replaceAll('\\t', '\t').replaceAll("\\'", "'");
const shown = (value) => (typeof value === 'string' ? JSON.stringify(value) : String(value));
const differs = (expected, got) => `expected ${expected}, got ${shown(got)}`;

const exactClaim = (expected) => (got) => (Object.is(got, expected) ? undefined : differs(shown(expected), got));

/** `12.5…` is what is cut there: 12.5 to below 12.6, and below zero alike. */
const numberClaim = (digits, isCut) => (got) => {
  if (!isCut) return Object.is(got, Number(digits)) ? undefined : differs(digits, got);
  if (typeof got !== 'number' || !Number.isFinite(got)) return differs(`${digits}…`, got);
  const decimals = digits.split('.')[1]?.length ?? 0;
  const [size, claimed] = [Math.abs(got), Math.abs(Number(digits))];
  const isSameSide = got < 0 === digits.startsWith('-');
  const isWithin = size >= claimed && size < Number((claimed + 10 ** -decimals).toFixed(decimals));
  return isSameSide && isWithin ? undefined : differs(`${digits}…`, got);
};

const textClaim = (claimed) => {
  const [more, yetMore] = [claimed.startsWith('…'), claimed.endsWith('…')];
  const part = claimed.slice(more ? 1 : 0, yetMore ? -1 : undefined);
  return (got) => {
    if (typeof got !== 'string') return differs(shown(claimed), got);
    const holds =
      more && yetMore ? got.includes(part) : more ? got.endsWith(part) : yetMore ? got.startsWith(part) : got === part;
    return holds ? undefined : differs(shown(claimed), got);
  };
};

const listClaim =
  ({ list, open }) =>
  (got) => {
    if (!Array.isArray(got) && !ArrayBuffer.isView(got)) return differs('a list', got);
    if (open ? got.length < list.length : got.length !== list.length)
      return differs(`${open ? 'at least ' : ''}${list.length} members`, got.length);
    return firstDifference(list.map((claim, i) => [`[${i}]`, claim(got[i])]));
  };

const recordClaim =
  ({ list, open }) =>
  (got) => {
    if (typeof got !== 'object' || got === null || Array.isArray(got)) return differs('a record', got);
    const keys = list.map(([key]) => key);
    const others = open ? [] : Object.keys(got).filter((key) => got[key] !== undefined && !keys.includes(key));
    if (others.length > 0) return `expected no ${others.join(', ')}`;
    return firstDifference(list.map(([key, claim]) => [`.${key}`, claim(got[key])]));
  };

function firstDifference(told) {
  const [first] = told.filter(([, difference]) => difference !== undefined);
  return first && `${first[0]}: ${first[1]}`;
}
