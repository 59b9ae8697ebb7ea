import { describeFault } from '../errors.js';
import type { Comparison, Difference, Turn, Worth } from '../worth/worth.js';
import { fixed } from './format.js';
import { visible } from './markdown.js';
import type { StudyBehind } from './studyJson.js';
import { passagesText } from './studyText.js';
import { moneyText, verdictText } from './verdictText.js';
import {
  endsText,
  endText,
  flownText,
  INPUTS,
  isByClimatology,
  nameIn,
  signed,
  TOLD,
  unfinishedLines,
  worthFirstLine,
} from './worthParts.js';

/**
 * The answer on a terminal.
 * @example
 * worthText(sample.worth, sample.studied) // '…The vented does not pay on these passages…'
 */
export function worthText(worth: Worth, study: StudyBehind): string {
  const { a, b, passages, differences, flown, rivals, turns } = worth;
  const lines = [
    worthFirstLine(worth, isByClimatology(worth)),
    '',
    ...wrapped(verdictText(worth, study.warnings)),
    '',
    `${visible(b)} against ${visible(a)}, ${passagesText(passages.both)} of ${fixed(passages.milesNm, 0)} Nm${passages.both === 1 ? '' : `, which count as ${fixed(passages.independent, 0)}`}: mean, and between what it lies by their number (95 %)`,
    ...TOLD.flatMap((told) => differenceLine(nameIn(told, worth), differences[told[0]], told[2])),
    ...flown.flatMap((one) => ['', ...wrapped(flownText(one))]),
    ...unfinishedLines(worth),
    ...(rivals.length === 0
      ? []
      : ['', 'Beside it', ...rivals.map((rival) => `  ${visible(rival.b)}: ${rivalText(rival)}`)]),
    ...(turns.length === 0 || worth.alike
      ? []
      : ['', 'What turns the answer most', ...turns.slice(0, TURNS_TOLD).map((turn) => `  ${turnText(turn, worth)}`)]),
    ...(study.warnings.length === 0
      ? []
      : ['', 'Warnings', ...study.warnings.map((warning) => `  ${describeFault(warning)}`)]),
  ];
  return `${lines.join('\n')}\n`;
}

const TURNS_TOLD = 5;
const WIDTH = 120;

/** A paragraph in lines of a terminal. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of visible(text).split(' ')) {
    if (line !== '' && line.length + word.length + 1 > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

function differenceLine(name: string, one: Difference | null, decimals: number): string[] {
  if (one === null || (one.a === 0 && one.b === 0)) return [];
  const ends = endsText(one, decimals);
  return [
    `  ${name.padEnd(26)}${signed(one.mid, decimals).padStart(8)}${ends === '' ? '' : `  (${ends})`}  ${fixed(one.a, decimals)} → ${fixed(one.b, decimals)}`,
  ];
}

function rivalText({ differences, flown, money, currency }: Comparison): string {
  const hours = differences.hours!;
  const nights = differences['night-changes']!;
  const flew =
    flown.length === 0
      ? ''
      : `, flew ${fixed(
          flown.reduce((sum, one) => sum + one.hours.mean, 0),
          1,
        )} h`;
  const price = money.prices.price?.mid ?? null;
  const cost =
    price === null
      ? 'price not known'
      : `${moneyText(price, currency)}${money.prices.from.price === 'placeholder' ? ' (a placeholder)' : ''}, net ${moneyText(money.net?.mid ?? 0, currency)}`;
  return `${signed(hours.mid, 1)} h, ${signed(differences.changes!.mid, 1)} changes, ${signed(nights.mid, 1)} by night${flew}; ${cost}`;
}

function turnText(turn: Turn, worth: Worth): string {
  const told = (end: Turn['low']) => (end === null ? [] : [`${end.text}: ${endText(end, worth)}`]);
  const { both } = worth.passages;
  // Of a sample the answer as it is is another than that of all.
  const on = turn.passages === both ? '' : ` (on ${turn.passages} of ${both} passages)`;
  return `${INPUTS[turn.input]}${on}: ${endText(turn.usual, worth)} as it is; ${[...told(turn.low), ...told(turn.high)].join('; ')}`;
}
