import { shown } from './svg.js';

/** A text cut into lines that are no wider than so many units at a size of type: at spaces, and in words where one is too long. */
export function wrapped(text: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of shown(text)
    .split(' ')
    .flatMap((long) => pieces(long, width, size))) {
    const longer = line === '' ? word.text : `${line}${word.isRest ? '' : ' '}${word.text}`;
    if (line === '' || widthOf(longer, size) <= width) {
      line = longer;
    } else {
      lines.push(line);
      line = word.text;
    }
  }
  return line === '' ? lines : [...lines, line];
}

/**
 * About how wide a text is. No font can be measured here: the widths are those of a wide sans-serif, in parts of its size, so that a
 * line in a narrower one ends early instead of running out of the page.
 */
export function widthOf(text: string, size: number): number {
  let width = 0;
  for (const mark of text) width += /[ -~]/.test(mark) ? widthOfAscii(mark) : WIDEST;
  return width * size;
}

const WIDEST = 1;

function widthOfAscii(mark: string): number {
  if (/[ijl.,:;'|!]/.test(mark)) return 0.34;
  if (/[ ftrI()[\]/\\-]/.test(mark)) return 0.4;
  if (/[mwMW@%+=<>~^#]/.test(mark)) return 0.92;
  return /[A-Z&]/.test(mark) ? 0.75 : 0.63;
}

interface Piece {
  readonly text: string;
  /** Whether it goes on with the piece before, without a space. */
  readonly isRest: boolean;
}

function pieces(word: string, width: number, size: number): readonly Piece[] {
  if (widthOf(word, size) <= width) return [{ text: word, isRest: false }];
  // Ids of plans join sails by a plus and words by a hyphen: a line ends best behind one.
  const parts = word.split(/(?<=[+-])/).flatMap((part) => (widthOf(part, size) <= width ? part : [...part]));
  return parts.map((text, i) => ({ text, isRest: i > 0 }));
}
