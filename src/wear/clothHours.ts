import { type Boat, type Sail, type SailPlan, settingOf } from '../boat/boat.js';
import { kindOf, WEAR } from '../catalogue/catalogue.js';
import { changeOf } from '../change/change.js';
import type { Hour, Passage } from '../passage/passage.js';
import { uvIndexHours } from '../sun/sun.js';
import { parseInstant } from '../time.js';
import { gustAwsMet } from './gustMet.js';
import type { ClothHour } from './sums.js';

/** The log as each cloth lived it, by its id. */
export function clothHoursOf(passage: Passage, boat: Boat, ozoneDu: number): ReadonlyMap<string, ClothHour[]> {
  const { hours } = passage;
  const sun = hours.map(({ time, minutes, latDeg, lonDeg }) =>
    uvIndexHours(parseInstant(time) as number, minutes / 60, latDeg, lonDeg, ozoneDu),
  );
  const gusts = hours.map((hour) => gustAwsMet(hour, passage.options.house));
  const none: ReadonlyMap<string, number> = new Map();
  const byPlan = new Map(boat.sailPlans.map((plan) => [plan.id, sharesSet(boat, plan)]));
  const set = hours.map(({ sailPlan }) => byPlan.get(sailPlan ?? '') ?? none);
  const flogging = floggingOf(passage, boat, set);
  const cloths = boat.sails.filter(({ clothOf }) => clothOf === undefined);
  return new Map(
    cloths.map((sail) => {
      const inTheOpen = liesInTheOpen(
        sail,
        set.some((shares) => shares.has(sail.id)),
      );
      return [
        sail.id,
        hours.map((hour, i): ClothHour => {
          const areaShare = set[i]!.get(sail.id) ?? null;
          return {
            minutes: hour.minutes,
            times: 1,
            areaShare,
            gustAwsKn: gusts[i]!,
            uvIndexHours: sun[i]!,
            inTheOpen,
            floggingMinutes: flogging[i]!.get(sail.id) ?? 0,
            slattingMinutes: areaShare !== null && slats(hour) === true ? hour.minutes : 0,
          };
        }),
      ];
    }),
  );
}

/** Cloths that a plan sets, with the share of their area. */
function sharesSet(boat: Boat, { sails }: SailPlan): ReadonlyMap<string, number> {
  return new Map(
    sails.map((text) => {
      const { cloth, sail, reef } = settingOf(boat, text)!;
      return [cloth, reef === 0 ? 1 : sail.reefs![reef - 1]!.areaShare];
    }),
  );
}

/**
 * Whether a sail lies in the open when it is not set: a main on its boom, a headsail furled on its stay, a code sail furled on its
 * luff rope throughout a passage in which it is set at all. Others lie below in their bags.
 */
export function liesInTheOpen(
  { kind, setBy = kindOf(kind).setBy }: Pick<Sail, 'kind' | 'setBy'>,
  isUsed: boolean,
): boolean {
  const { place } = kindOf(kind);
  if (place === 'mast') return true;
  return setBy === 'furler' && (place !== 'flying' || isUsed);
}

/** Whether sails slat in an hour: light air with a sea running; undefined where the waves are not known. */
export function slats({ awsKn, waveHeightM }: Pick<Hour, 'awsKn' | 'waveHeightM'>): boolean | undefined {
  if (awsKn >= WEAR.slattingAwsKn.value) return false;
  return waveHeightM === null ? undefined : waveHeightM >= WEAR.slattingWaveM.value;
}

/** Minutes in which each cloth flogs, hour by hour: in sail changes at the start of the hour, tacks and gybes. */
function floggingOf(
  { hours, options, complete }: Passage,
  boat: Boat,
  set: readonly ReadonlyMap<string, number>[],
): ReadonlyMap<string, number>[] {
  const { tackEveryHours, gybeEveryHours } = options.house;
  const known = new Set(boat.sailPlans.map(({ id }) => id));
  const planOf = (plan: string | null) => (plan !== null && known.has(plan) ? plan : null);
  const minutesOf = WEAR.floggingMinutes;
  return hours.map((hour, i) => {
    const before = hours[i - 1];
    const minutes = new Map<string, number>();
    const add = (cloth: string, more: number) => minutes.set(cloth, (minutes.get(cloth) ?? 0) + more);
    const change = (from: string | null, to: string | null) => {
      if (from === to) return;
      for (const { operation, cloth } of changeOf(boat, planOf(from), planOf(to))) {
        add(cloth, minutesOf[operation].value);
      }
    };
    change(before === undefined ? options.planSet : before.sailPlan, hour.sailPlan);
    // She comes in under bare poles.
    if (complete && i === hours.length - 1) change(hour.sailPlan, null);
    const through = Math.abs(hour.twaDeg ?? 0) < 90 ? 'tack' : 'gybe';
    const turned = before?.manner === 'direct' && hour.manner === 'direct' && before.tack !== hour.tack;
    const board = { tacking: tackEveryHours, gybing: gybeEveryHours }[hour.manner as 'tacking' | 'gybing'];
    const turns = board === undefined ? 0 : hour.minutes / 60 / board;
    for (const cloth of set[i]!.keys()) {
      if (turned && set[i - 1]!.has(cloth)) add(cloth, minutesOf[through].value);
      if (turns > 0) add(cloth, turns * minutesOf[through].value);
    }
    return minutes;
  });
}
