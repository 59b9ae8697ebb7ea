import { answersOf, type Crossover } from '../../crossover/crossover.js';
import { CAUTION } from '../../output/output.js';
import type { Block } from '../drawing/block.js';
import { paragraph } from '../drawing/paragraph.js';
import { rounded } from '../drawing/svg.js';
import { SIZE } from '../drawing/type.js';

/** What stands above the chart: whose it is, what its speeds are, the two questions and their answers, and what was assumed. */
export function headingOf(crossover: Crossover, left: number, top: number, width: number): Block {
  const parts: string[] = [];
  let bottom = top;
  const say = (text: string, size: number, gap: number, { bold = false, indent = 0 } = {}) => {
    const at = { left: left + indent, top: bottom + gap, width: width - indent, size, bold };
    const block = paragraph(text, at);
    parts.push(block.markup);
    bottom = block.bottom;
  };
  say(titleOf(crossover), SIZE.title, 0, { bold: true });
  say(CAUTION, SIZE.text, 2, { bold: true });
  say(statusOf(crossover), SIZE.text, 2, { bold: crossover.status === 'estimated' });
  for (const { question, answers } of questionsOf(crossover)) {
    say(question, SIZE.question, 10, { bold: true });
    for (const answer of answers) say(answer, SIZE.text, 2, { indent: 14 });
  }
  say(assumedIn(crossover), SIZE.small, 12);
  return { markup: parts.join(''), bottom };
}

/** The same in words alone, for who cannot see the chart. */
export function describedIn(crossover: Crossover): string {
  const questions = questionsOf(crossover).flatMap(({ question, answers }) => [question, ...answers]);
  return [CAUTION, statusOf(crossover), ...questions, assumedIn(crossover)].join(' ');
}

/** Whose chart it is. */
export const titleOf = ({ boat }: Crossover) => `Crossover chart: ${boat}`;

export function statusOf({ status, basis }: Crossover): string {
  if (status === 'measured') return 'Speeds are measured.';
  if (status === 'designed') return 'Speeds are designed: nobody measured them.';
  const [sentence = ''] = (basis[0] ?? '').split(/(?<=[.!?])\s/);
  return `SPEEDS ARE ESTIMATED. ${sentence}`;
}

function questionsOf(crossover: Crossover) {
  const { staysInTheBag, noSail } = answersOf(crossover);
  return [
    { question: 'Which of my sails stays in the bag?', answers: staysInTheBag },
    { question: 'Where have I no sail?', answers: noSail },
  ];
}

export function assumedIn({ options }: Crossover): string {
  const { gustFactor, night, skipperFactor, without } = options;
  return [
    `Gust factor ${rounded(gustFactor)}: every sail is in its window in gusts of ${rounded(gustFactor)} times the mean wind.`,
    `Skipper factor ${rounded(skipperFactor)}: so much of the full speeds is counted on.`,
    night ? 'By night: sails for daylight only are left out.' : 'By day: sails for daylight only are counted.',
    `Sails left out: ${without.length === 0 ? 'none' : without.join(', ')}.`,
  ].join(' ');
}
