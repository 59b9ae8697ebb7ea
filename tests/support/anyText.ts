import fc from 'fast-check';

/** What no format expects anywhere, and all must survive. */
const STRANGE = [
  ...['\u0000', '\ufeff', '\r', '\n', '\r\n', '\u2028', '\u0085', '\u202e', '\ud800', '😀', '\t', ' ', '"', '""', "'"],
  ...['__proto__', 'constructor', 'toString', 'null', 'NaN', 'Infinity', '-0', '1e999', '-1e-999', '0x10', '1_000', ''],
  ...['9'.repeat(400), '9007199254740993', '1e308', '-999', '180.00001', '360', '1,5', '1e5', '.5', '5.', '+1'],
];
/** Beginnings and pieces of the formats, to be put into each other. */
const FOREIGN = [
  ...[
    '<gpx>',
    '</gpx>',
    '<rte>',
    '<!--',
    '-->',
    '<![CDATA[',
    ']]>',
    '<?xml version="1.0"?>',
    '<!DOCTYPE a>',
    '&lt;',
    '&#0;',
  ],
  ...['{', '}', '[', ']', '{"a":', '"type":"Point"', ',', ':', ';', '\\u0000', '\\', 'true', '{"__proto__":{"a":1}}'],
  ...[
    'time,lat,lon,u10,v10\n',
    'name,lat,lon\n',
    'sail_plan,tws_kn,twa_deg,stw_kn\n',
    'UTC,degrees_north,degrees_east,m s-1',
  ],
  ...[
    '2027-01-10T00:00Z',
    '2027-02-30T00:00Z',
    '"2018-10-06 18:00:00"',
    "16°52.8'N",
    ',,,,,,,,',
    '\n\n\n',
    '-90',
    '91',
  ],
];
const LONG_UNITS = [...STRANGE, ...FOREIGN].filter((unit) => unit.length > 0 && unit.length < 20);

/** One way to damage a text; `at` and `to` are shares of its length. */
interface Damage {
  readonly way: Way;
  readonly at: number;
  readonly to: number;
  readonly piece: string;
  readonly value: string;
  readonly times: number;
}
/** Ways after which a text is often still valid, and others. */
const GENTLE_WAYS = ['value', 'value', 'token', 'swap lines', 'copy line', 'drop line'] as const;
const ROUGH_WAYS = ['cut', 'twice', 'splice', 'number', 'word', 'repeat', 'nest', 'end'] as const;
type Way = (typeof GENTLE_WAYS)[number] | (typeof ROUGH_WAYS)[number];

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const value = fc.oneof(
  fc.integer({ min: -1, max: 2 }).map(String),
  fc.integer({ min: -180, max: 360 }).map(String),
  fc.double({ min: -30, max: 30, noNaN: true }).map((number) => number.toFixed(3)),
  fc.double({ min: -1, max: 1, noNaN: true }).map(String),
  fc.constantFrom(
    '-0',
    '-0.0',
    '0e0',
    '1e1',
    '1e-320',
    '5e-1',
    '00',
    '89.99999',
    '179.99999',
    '-180',
    '1e400',
    '-1e400',
  ),
);
const damageOf = (ways: readonly Way[]): fc.Arbitrary<Damage> =>
  fc.record({
    way: fc.constantFrom(...ways),
    at: share,
    to: share,
    piece: fc.constantFrom(...STRANGE, ...FOREIGN),
    value,
    times: fc.integer({ min: 1, max: 2000 }),
  });
const damages = fc.oneof(
  fc.array(damageOf(GENTLE_WAYS), { minLength: 1, maxLength: 3 }),
  fc.array(damageOf([...GENTLE_WAYS, ...ROUGH_WAYS]), { minLength: 1, maxLength: 3 }),
);

const NUMBER = /-?\d+(?:\.\d+)?/g;
const TOKEN = /[\w.+-]+/g;

function damaged(text: string, { way, at, to, piece, value, times }: Damage): string {
  const from = Math.floor(at * text.length);
  // Most cuts are small: long ones leave little to read.
  const size = Math.floor(to ** 3 * (text.length - from)) + 1;
  const [before, part, behind] = [text.slice(0, from), text.slice(from, from + size), text.slice(from + size)];
  const lines = text.split('\n');
  const [i, j] = [Math.floor(at * lines.length), Math.floor(to * lines.length)];
  switch (way) {
    case 'value':
      return replaced(text, NUMBER, at, value);
    case 'token':
      return replaced(text, TOKEN, at, tokenAt(text, to));
    case 'swap lines':
      return lines.map((line, k) => (k === i ? lines[j] : k === j ? lines[i] : line)).join('\n');
    case 'copy line':
      return [...lines.slice(0, j), lines[i], ...lines.slice(j)].join('\n');
    case 'drop line':
      return lines.filter((_, k) => k !== i).join('\n');
    case 'cut':
      return before + behind;
    case 'twice':
      return before + part + part + behind;
    case 'splice':
      return before + piece + part + behind;
    case 'number':
      return replaced(text, NUMBER, at, piece);
    case 'word':
      return replaced(text, TOKEN, at, piece);
    case 'repeat':
      return before + piece.slice(0, 20).repeat(times) + part + behind;
    case 'nest':
      return before + (times % 2 === 0 ? '[' : '{"a":').repeat(times) + part + behind;
    case 'end':
      return before;
  }
}

/** The text with one of what a pattern finds replaced. */
function replaced(text: string, pattern: RegExp, at: number, by: string): string {
  const found = [...text.matchAll(pattern)];
  const match = found[Math.floor(at * found.length)];
  return match === undefined ? text + by : text.slice(0, match.index) + by + text.slice(match.index + match[0].length);
}

function tokenAt(text: string, at: number): string {
  const tokens = text.match(TOKEN) ?? [''];
  return tokens[Math.floor(at * tokens.length)]!;
}

/** Valid texts with some damage. */
export const damagedOf = (valid: readonly string[]) =>
  fc.tuple(fc.constantFrom(...valid), damages).map(([text, all]) => all.reduce(damaged, text));

/** A piece of a valid text, something thousands of times, and the rest: what makes a careless pattern or loop take for ever. */
export const longOf = (valid: readonly string[], words: readonly string[]) =>
  fc
    .record({
      text: fc.constantFrom(...valid),
      at: share,
      unit: fc
        .array(fc.constantFrom(...LONG_UNITS, ...words), { minLength: 1, maxLength: 3 })
        .map((unit) => unit.join('')),
      times: fc.integer({ min: 5_000, max: 20_000 }),
      goesOn: fc.boolean(),
    })
    .map(({ text, at, unit, times, goesOn }) => {
      const from = Math.floor(at * text.length);
      return text.slice(0, from) + unit.repeat(times) + (goesOn ? text.slice(from) : '');
    });

/** Words of a format in any order, mostly its own, by themselves or within a valid text. */
export const wordsOf = (valid: readonly string[], words: readonly string[]) => {
  const word = fc.oneof(
    { weight: 20, arbitrary: fc.constantFrom(...words) },
    { weight: 1, arbitrary: fc.oneof(fc.constantFrom(...STRANGE, ...FOREIGN), value) },
  );
  return fc
    .record({
      text: fc.constantFrom('', ...valid),
      at: share,
      all: fc.oneof(fc.array(word, { maxLength: 5 }), fc.array(word, { maxLength: 60 })),
      goesOn: fc.boolean(),
    })
    .map(({ text, at, all, goesOn }) => {
      const from = Math.floor(at * (text.length + 1));
      return text.slice(0, from) + all.join('') + (goesOn ? text.slice(from) : '');
    });
};

/** Anything, behind a beginning that leads it to a reader. */
export const noiseOf = (beginnings: readonly string[]) =>
  fc
    .tuple(
      fc.constantFrom('', ...beginnings),
      fc.oneof(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.string({ unit: 'binary-ascii', maxLength: 200 }),
        fc.uint8Array({ maxLength: 200 }).map((bytes) => new TextDecoder('utf-8').decode(bytes)),
      ),
    )
    .map(([beginning, noise]) => beginning + noise);

/** How a text comes as bytes or text, and where it is cut. */
export interface Delivery {
  readonly as: 'text' | 'utf-8' | 'utf-16le' | 'utf-16be';
  readonly flips: readonly (readonly [at: number, bit: number])[];
  readonly cuts: readonly number[];
}

export const delivery: fc.Arbitrary<Delivery> = fc.record({
  as: fc.oneof({ weight: 9, arbitrary: fc.constantFrom('text', 'utf-8') }, fc.constantFrom('utf-16le', 'utf-16be')),
  flips: fc.oneof({ weight: 9, arbitrary: fc.constant([]) }, fc.array(fc.tuple(share, fc.nat(7)), { maxLength: 3 })),
  cuts: fc.array(share, { maxLength: 8 }),
});

/** A text delivered whole: a text, or the bytes of one with some bits flipped. */
export function delivered(text: string, { as, flips }: Delivery): string | Uint8Array {
  if (as === 'text') return text;
  const bytes = as === 'utf-8' ? new TextEncoder().encode(text) : utf16(text, as === 'utf-16le');
  for (const [at, bit] of flips) {
    const i = Math.floor(at * bytes.length);
    if (i < bytes.length) bytes[i] = bytes[i]! ^ (1 << bit);
  }
  return bytes;
}

/** The same in pieces. */
export function inPieces(whole: string | Uint8Array, { cuts }: Delivery): (string | Uint8Array)[] {
  const ends = [...cuts.map((at) => Math.floor(at * whole.length)), whole.length].sort((a, b) => a - b);
  return ends.map((end, i) => whole.slice(ends[i - 1] ?? 0, end));
}

function utf16(text: string, isLittle: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  for (const [i, unit] of [0xfeff, ...Array.from({ length: text.length }, (_, j) => text.charCodeAt(j))].entries()) {
    view.setUint16(2 * i, unit, isLittle);
  }
  return new Uint8Array(view.buffer);
}
