import type { Boat } from '../boat/boat.js';
import { isNearWatchChange } from '../change/change.js';
import type { Change, Changes } from './changes.js';
import type { Waters } from './hour.js';
import type { RouteTable } from './routeTable.js';
import { likelyMinutesOfDay } from './shipsClock.js';

/** A change at the start of a stage at a distance, as the light there and the watches have it. */
export type ChangeAt = (stage: number, before: number, after: number, fromNm: number) => Change;

interface ChangeParts {
  readonly boat: Boat;
  readonly waters: Waters;
  readonly changes: Changes;
  readonly table: Pick<RouteTable, 'isDark'>;
  readonly stageEpochSeconds: Float64Array;
}

/** Changes on the way: in the dark where they begin or end in it, by both watches near a change of watch. */
export function changesOnWay(parts: ChangeParts): ChangeAt {
  const { changes, table } = parts;
  const bothWatches = watchesAbout(parts);
  return (stage, before, after, fromNm) => {
    const about = bothWatches(stage, fromNm);
    const { minutes } = changes(before, after, about ? LIGHT_BOTH : LIGHT);
    const dark = table.isDark(stage, 0, fromNm) || (minutes > 0 && table.isDark(stage, upToTen(minutes), fromNm));
    return changes(before, after, dark ? (about ? DARK_BOTH : DARK) : about ? LIGHT_BOTH : LIGHT);
  };
}

const LIGHT = { dark: false, bothWatches: false };
const LIGHT_BOTH = { dark: false, bothWatches: true };
const DARK = { dark: true, bothWatches: false };
const DARK_BOTH = { dark: true, bothWatches: true };

/** Whether both watches are about at the start of a stage, at a distance; asked at the same places again and again. */
function watchesAbout({
  boat,
  waters,
  stageEpochSeconds,
}: ChangeParts): (stage: number, distanceNm: number) => boolean {
  const { watches } = boat;
  if (watches === undefined) return () => false;
  const known = new Map<number, boolean>();
  return (stage, distanceNm) => {
    const mile = Math.round(distanceNm);
    const key = stage * 100_000 + mile;
    let about = known.get(key);
    if (about === undefined) {
      const at = { epochSeconds: stageEpochSeconds[stage]!, distanceNm: mile };
      about = isNearWatchChange(watches, likelyMinutesOfDay(waters.trackAt, at));
      known.set(key, about);
    }
    return about;
  };
}

/** The sun is asked at whole tens of minutes, so that the answers can be kept. */
export const upToTen = (minutes: number): number => Math.ceil(minutes / 10) * 10;
