import { type Boat, settingOf } from '../boat/boat.js';
import { type Band, kindOf } from '../catalogue/catalogue.js';
import { checkTypes } from '../given.js';
import type { Hour, IncompleteReason, Passage } from '../passage/passage.js';
import { isOnKnifeEdge, type OperationCounts, type Sums, sumsOf } from '../totals/totals.js';
import type { Wear, WearCause } from '../wear/wear.js';
import { UNSTEADY_UNDER } from '../weather/weather.js';

/** What a sail did in one passage of a study. */
export interface SailRecord {
  readonly id: string;
  readonly hours: number;
  /** Days by the UTC date on which it was set. */
  readonly days: number;
  readonly nightHours: number;
  readonly distanceNm: number;
  readonly nearLimitHours: number;
  readonly operations: OperationCounts;
  readonly tacks: number;
  readonly gybes: number;
  /** Share of its life that the passage takes; null where nobody knows. Mid by load, ultraviolet and handling. */
  readonly wear: Band | null;
  readonly wearBy: Readonly<Record<WearCause, number>> | null;
  /** That share of the price of a new one; null without a price. */
  readonly money: Band | null;
}

/** Hours in a band of true wind and of its angle: from 5 kn to 5 kn and from 20° to 20°. */
export interface WindHours {
  readonly twsFromKn: number;
  readonly twaFromDeg: number;
  readonly hours: number;
}

/** Hours under a plan, and in which wind. */
export interface PlanRecord {
  readonly id: string;
  readonly hours: number;
  readonly winds: readonly WindHours[];
}

/** One passage of a study: what it was, and what it adds up to. */
export interface PassageRecord {
  readonly n: number;
  readonly route: string;
  readonly boat: string;
  readonly weather: string;
  readonly member: string | null;
  /** Which drawing of a climatology, from 1. */
  readonly draw: number | null;
  readonly departure: string;
  readonly complete: boolean;
  readonly reason: IncompleteReason | null;
  readonly distanceToGoNm: number;
  readonly arrival: string | null;
  /** Of an incomplete passage: the distance left at the mean speed so far. */
  readonly arrivalEstimate: string | null;
  /** From departure to arrival or to where it broke off. */
  readonly hours: number;
  readonly distanceNm: number;
  readonly meanSpeedKn: number | null;
  readonly sailChanges: number;
  readonly nightChanges: number;
  readonly wakingChanges: number;
  readonly reefChanges: number;
  readonly operations: OperationCounts;
  /** Hands times hours of all sail changes. */
  readonly handHours: number;
  readonly tacks: number;
  readonly gybes: number;
  /** Hours under sail without a main. */
  readonly withoutMainHours: number;
  /** Hours whose plan would not stand in most of the winds near the one met; null where that was not asked for. */
  readonly knifeEdgeHours: number | null;
  readonly motorHours: number;
  readonly fuelLitres: number;
  readonly hoveToHours: number;
  readonly noPlanHours: number;
  /** Hours in gusts over four fifths of what some sail that is set allows. */
  readonly nearLimitHours: number;
  readonly strongWind: Sums['strongWind'];
  /** The most of the passage: mean wind over the water, limit gust, AWS in the gust, waves; null where none are known. */
  readonly twsMaxKn: number;
  readonly gustMaxKn: number;
  readonly gustAwsMaxKn: number;
  readonly waveMaxM: number | null;
  /** Hours by a climatology, those of them whose wind is unsteady, and the mean steadiness in them; null without such hours. */
  readonly climatologyHours: number;
  readonly unsteadyHours: number;
  readonly steadiness: number | null;
  /** Best and worst day's run, noon to noon; null where no day was whole. */
  readonly bestRunNm: number | null;
  readonly worstRunNm: number | null;
  readonly offTrackNm: number;
  /** What the passage takes of all sails that have a price, in the boat's currency; null where none has. */
  readonly wearMoney: Band | null;
  /** Hours of light air under sail in which nobody knows whether a sea was running: no slatting is counted in them. */
  readonly slattingUnknownHours: number;
  readonly sails: readonly SailRecord[];
  /** Hours under each plan that was set, and without one. */
  readonly sailPlans: readonly PlanRecord[];
}

type Named = Pick<PassageRecord, 'n' | 'route' | 'boat' | 'weather' | 'member' | 'draw'>;

/** The record of a passage, with what it takes of the sails. */
export function recordOf(passage: Passage, boat: Boat, wear: Wear, named: Named): PassageRecord {
  const sums = sumsOf(passage, boat);
  const { hours } = passage;
  const sets = clothsOf(boat);
  const most = (value: (hour: Hour) => number) => hours.reduce((high, hour) => Math.max(high, value(hour)), 0);
  return {
    ...named,
    departure: passage.departure,
    complete: passage.complete,
    reason: passage.reason,
    distanceToGoNm: passage.distanceToGoNm,
    arrival: sums.arrival,
    arrivalEstimate: sums.arrivalEstimate,
    hours: sums.hours,
    distanceNm: sums.distanceNm,
    meanSpeedKn: sums.meanSpeedKn,
    sailChanges: sums.sailChanges,
    nightChanges: sums.changesAt.night,
    wakingChanges: sums.changesAt.wakingWatch,
    reefChanges: sums.reefChanges,
    operations: sums.operations,
    handHours: hours.reduce((sum, { hands, changeMinutes }) => sum + (hands * changeMinutes) / 60, 0),
    tacks: sums.tacks,
    gybes: sums.gybes,
    withoutMainHours: hoursWithoutMain(passage, boat),
    knifeEdgeHours: hours.some(({ standsShare }) => standsShare !== null) ? hoursOf(hours.filter(isOnKnifeEdge)) : null,
    motorHours: sums.motorHours,
    fuelLitres: sums.fuelLitres,
    hoveToHours: sums.hoveToHours,
    noPlanHours: sums.noPlanHours,
    nearLimitHours: sums.sailPlans.reduce((sum, { nearLimitHours }) => sum + nearLimitHours, 0),
    strongWind: sums.strongWind,
    twsMaxKn: most(({ twsKn }) => twsKn),
    gustMaxKn: most(({ gustKn }) => gustKn),
    gustAwsMaxKn: most(({ gustAwsKn }) => gustAwsKn),
    waveMaxM: hours.some(({ waveHeightM }) => waveHeightM !== null)
      ? most(({ waveHeightM }) => waveHeightM ?? 0)
      : null,
    ...byClimatology(hours),
    bestRunNm: sums.bestRun?.distanceNm ?? null,
    worstRunNm: sums.worstRun?.distanceNm ?? null,
    offTrackNm: sums.offTrackNm,
    wearMoney: wear.money.passage,
    slattingUnknownHours: wear.slattingUnknownHours,
    sails: sums.sails.map(({ id, hours: set, nightHours, distanceNm, nearLimitHours, operations, tacks, gybes }) => ({
      id,
      hours: set,
      days: daysOf(hours.filter(({ sailPlan }) => sets.get(sailPlan)?.has(id) === true)),
      nightHours,
      distanceNm,
      nearLimitHours,
      operations,
      tacks,
      gybes,
      ...wearIn(wear, id),
    })),
    sailPlans: sums.sailPlans
      .filter(({ hours: under }) => under > 0)
      .map(({ id, hours: under }) => ({
        id,
        hours: under,
        winds: windsOf(hours.filter(({ sailPlan }) => sailPlan === id)),
      })),
  };
}

/** The cloths of every sail plan. */
const clothsOf = (boat: Boat): ReadonlyMap<string | null, ReadonlySet<string>> =>
  new Map(boat.sailPlans.map(({ id, sails }) => [id, new Set(sails.map((text) => settingOf(boat, text)!.cloth))]));

const hoursOf = (rows: readonly Hour[]) => rows.reduce((sum, { minutes }) => sum + minutes / 60, 0);

const daysOf = (rows: readonly Hour[]) => new Set(rows.map(({ time }) => time.slice(0, 10))).size;

function hoursWithoutMain({ hours }: Passage, boat: Boat): number {
  const isMain = new Set(boat.sails.flatMap(({ id, kind }) => (kindOf(kind).place === 'mast' ? [id] : [])));
  const without = new Set(
    boat.sailPlans.flatMap(({ id, sails }) =>
      sails.length > 0 && !sails.some((text) => isMain.has(settingOf(boat, text)!.sail.id)) ? [id] : [],
    ),
  );
  return hoursOf(hours.filter(({ sailPlan }) => without.has(sailPlan ?? '')));
}

const TWS_BAND_KN = 5;
const TWA_BAND_DEG = 20;
const WIDEST_BAND_DEG = 160;

/** Hours by true wind and its angle; what has no heading is in none. */
function windsOf(rows: readonly Hour[]): readonly WindHours[] {
  const cells = new Map<string, { twsFromKn: number; twaFromDeg: number; hours: number }>();
  for (const { twsKn, twaDeg, minutes } of rows) {
    if (twaDeg === null) continue;
    const twsFromKn = Math.floor(twsKn / TWS_BAND_KN) * TWS_BAND_KN;
    const twaFromDeg = Math.min(WIDEST_BAND_DEG, Math.floor(Math.abs(twaDeg) / TWA_BAND_DEG) * TWA_BAND_DEG);
    const key = `${twsFromKn} ${twaFromDeg}`;
    const cell = cells.get(key) ?? { twsFromKn, twaFromDeg, hours: 0 };
    cell.hours += minutes / 60;
    cells.set(key, cell);
  }
  return [...cells.values()].sort((a, b) => a.twsFromKn - b.twsFromKn || a.twaFromDeg - b.twaFromDeg);
}

function wearIn({ sails }: Wear, id: string): Pick<SailRecord, 'wear' | 'wearBy' | 'money'> {
  const { total, load, ultraviolet, handling, money } = sails.find(({ sail }) => sail === id)!;
  const by =
    load === null || ultraviolet === null || handling === null
      ? null
      : { load: load.mid, ultraviolet: ultraviolet.mid, handling: handling.mid };
  return { wear: total, wearBy: by, money };
}

function byClimatology(
  hours: readonly Hour[],
): Pick<PassageRecord, 'climatologyHours' | 'unsteadyHours' | 'steadiness'> {
  let climatologyHours = 0;
  let unsteadyHours = 0;
  let sum = 0;
  for (const { steadiness, minutes } of hours) {
    if (steadiness === null) continue;
    climatologyHours += minutes / 60;
    sum += (steadiness * minutes) / 60;
    if (steadiness < UNSTEADY_UNDER) unsteadyHours += minutes / 60;
  }
  return { climatologyHours, unsteadyHours, steadiness: climatologyHours > 0 ? sum / climatologyHours : null };
}

/**
 * The sails of all boats, each name once, in the order they are met.
 * @example
 * sailNamesOf(sample.study.boats) // ['main', 'jib', …]
 */
export function sailNamesOf(boats: readonly { readonly boat: Pick<Boat, 'sails'> }[]): readonly string[] {
  checkTypes({ boats }, { boats: 'object[]' }, 'study');
  const cloths = boats.flatMap(({ boat }) => boat.sails.filter(({ clothOf }) => clothOf === undefined));
  return [...new Set(cloths.map(({ id }) => id))];
}
