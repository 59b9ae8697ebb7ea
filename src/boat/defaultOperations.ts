import {
  type Figure,
  type KindOfSail,
  kindOf,
  NIGHT_OVER_DAY,
  type Operation,
  type SetBy,
} from '../catalogue/catalogue.js';
import type { OperationsGiven, Sail, SailGiven } from './boat.js';
import type { Defaults } from './fill.js';
import { MOST_MINUTES } from './schema.js';

/**
 * Operations of a sail by its kind, or of such as are set by the means the file names; one that only the file names is taken
 * from another kind. Where the file gives the day alone, the night is as many hands, half as long again, and keeps as much speed.
 */
export function operationsOf(entry: KindOfSail, { setBy, operations = {} }: SailGiven, reefs: Sail['reefs']): Defaults {
  const { reef, shakeOut, ...plain } =
    setBy === undefined || setBy === entry.setBy ? entry.operations : otherOperations(entry, setBy);
  const reefing = { reef: reef ?? REEFED.reef, shakeOut: shakeOut ?? REEFED.shakeOut };
  const usual: Record<string, unknown> = { ...plain, ...((reefs?.length ?? 0) > 0 ? reefing : {}) };
  for (const [name, own] of Object.entries(operations) as [Operation, OperationsGiven[Operation]][]) {
    const known = usual[name] ?? LIKE[name];
    usual[name] = nightByDay(known as NonNullable<KindOfSail['operations'][Operation]>, own);
  }
  return usual as Defaults;
}

/** A sail that is reefed by hand is reefed as a main is. */
const REEFED = kindOf('pin-head-main').operations;
const LIKE = { ...kindOf('self-tacking-jib').operations, ...kindOf('heavy-weather-jib').operations };

function nightByDay(known: NonNullable<KindOfSail['operations'][Operation]>, own: OperationsGiven[Operation]) {
  const { minutes, hands, keptShare } = own?.day ?? {};
  const byDay = (value: number, basis = 'as by day'): Figure => ({ value, status: 'placeholder', basis });
  return {
    day: known.day,
    night: {
      minutes:
        minutes === undefined
          ? known.night.minutes
          : byDay(Math.min(MOST_MINUTES, minutes * NIGHT_OVER_DAY), `${NIGHT_OVER_DAY} × by day`),
      hands: hands === undefined ? known.night.hands : byDay(hands),
      keptShare: keptShare === undefined ? known.night.keptShare : byDay(keptShare),
    },
  };
}

function otherOperations({ place }: KindOfSail, setBy: SetBy): KindOfSail['operations'] {
  const like = {
    furler: place === 'flying' ? 'code-zero' : 'self-tacking-jib',
    snuffer: 'gennaker',
    halyard: 'heavy-weather-jib',
    track: 'pin-head-main',
  } as const;
  return kindOf(like[setBy]).operations;
}
