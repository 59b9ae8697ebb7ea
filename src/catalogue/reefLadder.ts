import { checkNumber } from './checkNumber.js';
import { gustOf } from './figure.js';

/** Up to which wind a main is carried with so many reefs. */
export interface LadderStep {
  /** 0 for the full main. */
  readonly reef: number;
  readonly meanMaxKn: number;
  /** The same in the gust. */
  readonly gustMaxKn: number;
}

/** First reef by day: Cruising World 2018, reefing a catamaran. By night the crew of S13 takes it 3 kn earlier. */
const FIRST_REEF_KN = 18;
const NIGHT_EARLIER_KN = 3;
/** Each further reef: 18, 24, 30, 36 kn; common practice, no source. */
const STEP_KN = 6;
const MOST_REEFS = 20;

/**
 * The reef ladder of a catamaran, which heels too little to warn: by wind speed, apparent upwind and true downwind. Full main
 * to 18 kn, then 6 kn more for each reef; the last step is where the main comes down. By night everything 3 kn earlier: the source
 * has it of the first reef, of the others it is a placeholder.
 * @throws InputError for more than 20 reefs
 * @example
 * reefLadder(2) // [{ reef: 0, meanMaxKn: 18, gustMaxKn: 23.4 }, …]
 * reefLadder(2, 'night') // [{ reef: 0, meanMaxKn: 15, gustMaxKn: 19.5 }, …]
 */
export function reefLadder(reefs: number, by: 'day' | 'night' = 'day'): readonly LadderStep[] {
  checkNumber('reefs', reefs, 0, MOST_REEFS);
  const first = FIRST_REEF_KN - (by === 'night' ? NIGHT_EARLIER_KN : 0);
  return Array.from({ length: reefs + 1 }, (_, reef) => {
    const meanMaxKn = first + STEP_KN * reef;
    return { reef, meanMaxKn, gustMaxKn: gustOf(meanMaxKn) };
  });
}
