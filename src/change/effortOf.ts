import type { Effort } from '../catalogue/catalogue.js';
import type { Step } from './changeOf.js';

/**
 * What a change takes: minutes, the most hands at one time, and the share of her speed the boat keeps, in the mean over its
 * minutes (1 where it takes none).
 *
 * Steps are done in their order, at once those that follow each other while there are hands for all of them; what is done at once
 * takes the longest of its minutes and keeps the least of its shares. No cloth is handled twice at once: the second reef waits for
 * the first. A step that wants more hands than there are is done alone, in its own minutes. Of all ways to do it the quickest: to
 * begin all that can be begun is not always that (a short step would hold a long one up). Of equally quick ones that which begins more.
 *
 *     effortOf(changeOf(boat, 'vented', 'main+jib'), false, 4)
 */
export function effortOf(steps: readonly Step[], dark: boolean, handsAvailable: number): Effort {
  const efforts = steps.map((step) => (dark ? step.night : step.day));
  // From the last step back: the quickest way to do the rest is known for every later beginning.
  const waysFrom: Way[] = [];
  waysFrom[steps.length] = { minutes: 0, hands: 0, keptMinutes: 0 };
  for (let i = steps.length - 1; i >= 0; i -= 1) {
    const batch = { minutes: 0, hands: 0, keptShare: 1 };
    const cloths = new Set<string>();
    for (let end = i; end < steps.length; end += 1) {
      const { minutes, hands, keptShare } = efforts[end]!;
      const { cloth } = steps[end]!;
      if (end > i && (batch.hands + hands > handsAvailable || cloths.has(cloth))) break;
      cloths.add(cloth);
      batch.minutes = Math.max(batch.minutes, minutes);
      batch.hands += hands;
      batch.keptShare = Math.min(batch.keptShare, keptShare);
      const rest = waysFrom[end + 1]!;
      const total = batch.minutes + rest.minutes;
      if (waysFrom[i] !== undefined && waysFrom[i]!.minutes < total) continue;
      waysFrom[i] = {
        minutes: total,
        hands: Math.max(batch.hands, rest.hands),
        keptMinutes: batch.minutes * batch.keptShare + rest.keptMinutes,
      };
    }
  }
  const { minutes, hands, keptMinutes } = waysFrom[0]!;
  return { minutes, hands, keptShare: minutes === 0 ? 1 : keptMinutes / minutes };
}

/** The quickest way to do the rest of the steps. */
interface Way {
  readonly minutes: number;
  readonly hands: number;
  /** Minutes, each weighed with the share of the speed that is kept in it. */
  readonly keptMinutes: number;
}
