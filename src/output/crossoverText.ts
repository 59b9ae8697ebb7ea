import { answersOf, type BestAngle, type Crossover } from '../crossover/crossover.js';
import { withoutUnseen } from '../errors.js';
import { CAUTION } from './caution.js';
import { fixed } from './format.js';

/**
 * A crossover in words: the two questions answered, how much of the chart each plan has, the best angles.
 * @example
 * crossoverText(sample.crossover) // '…Which of my sails stays in the bag?…'
 */
export function crossoverText(crossover: Crossover): string {
  const { boat, status, basis, options, cells, bestAngles } = crossover;
  const { staysInTheBag, noSail } = answersOf(crossover);
  const undecided = cells.filter((cell) => cell.undecided).length;
  const sailed = cells.filter(({ sailPlan }) => sailPlan !== null).length;
  const lines = [
    CAUTION,
    ...(status === 'estimated' ? [`SPEEDS ARE ESTIMATED. ${basis[0] ?? ''}`] : []),
    '',
    `${boat}: the fastest sail plan over true wind and angle${options.night ? ', by night' : ''}`,
    `steady, in flat water; limit gust mean × ${options.gustFactor}; speeds × ${options.skipperFactor}, the skipper's factor${options.without.length === 0 ? '' : `; without ${options.without.join(', ')}`}`,
    '',
    'Which of my sails stays in the bag?',
    ...staysInTheBag.map((line) => `  ${line}`),
    '',
    'Where have I no sail?',
    ...noSail.map((line) => `  ${line}`),
    '',
    'Fastest plan, share of the chart',
    ...shareLines(crossover),
    ...(status === 'estimated'
      ? [
          `The estimate cannot decide ${undecided} of ${sailed} winds and angles: another plan is the fastest if one assumption is moved within its band.`,
        ]
      : []),
    '',
    'Best angles',
    '  TWS   up: TWA, speed made good, plan            down: TWA, speed made good, plan',
    ...bestAngles.map(({ twsKn, up, down }) =>
      `  ${fixed(twsKn, 0).padStart(3)}   ${angle(up).padEnd(42)}${angle(down)}`.trimEnd(),
    ),
    ...(basis.length > 1 ? ['', ...basis.slice(1)] : []),
  ];
  return `${lines.map((line) => withoutUnseen(line, ' ')).join('\n')}\n`;
}

const angle = (best: BestAngle | null) =>
  best === null
    ? 'none'
    : `${fixed(best.twaDeg, 0).padStart(3)}° ${fixed(best.vmgKn, 1).padStart(4)} kn  ${best.sailPlan}`;

function shareLines({ cells }: Crossover): string[] {
  const counts = new Map<string, number>();
  for (const { sailPlan } of cells) if (sailPlan !== null) counts.set(sailPlan, (counts.get(sailPlan) ?? 0) + 1);
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([id, count]) => `  ${fixed((100 * count) / cells.length, 1).padStart(5)} %  ${id}`);
}
