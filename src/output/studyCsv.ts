import type { PassageRecord } from '../study/study.js';
import { amount, flag, inTwoDigits, rounded, text, twoDigits } from './format.js';

/** Columns of a passage in their order; the hours on every sail follow. */
const COLUMNS: readonly (readonly [name: string, cell: (record: PassageRecord) => string])[] = [
  ['passage', ({ n }) => `${n}`],
  ['route', ({ route }) => text(route)],
  ['boat', ({ boat }) => text(boat)],
  ['weather', ({ weather }) => text(weather)],
  ['member', ({ member }) => text(member)],
  ['draw', ({ draw }) => (draw === null ? '' : `${draw}`)],
  ['departure', ({ departure }) => departure],
  ['complete', ({ complete }) => flag(complete)],
  ['reason', ({ reason }) => text(reason)],
  ['arrival', ({ arrival }) => text(arrival)],
  ['arrival_estimate', ({ arrivalEstimate }) => text(arrivalEstimate)],
  ['distance_to_go_nm', ({ distanceToGoNm }) => amount(distanceToGoNm)],
  ['hours', ({ hours }) => amount(hours)],
  ['distance_nm', ({ distanceNm }) => amount(distanceNm)],
  ['mean_speed_kn', ({ meanSpeedKn }) => amount(meanSpeedKn)],
  ['sail_changes', ({ sailChanges }) => `${sailChanges}`],
  ['night_changes', ({ nightChanges }) => `${nightChanges}`],
  ['waking_changes', ({ wakingChanges }) => `${wakingChanges}`],
  ['reef_changes', ({ reefChanges }) => `${reefChanges}`],
  ['reefs', ({ operations }) => `${operations.reef}`],
  ['tacks', ({ tacks }) => `${tacks}`],
  ['gybes', ({ gybes }) => `${gybes}`],
  ['motor_hours', ({ motorHours }) => amount(motorHours)],
  ['fuel_l', ({ fuelLitres }) => amount(fuelLitres)],
  ['hove_to_hours', ({ hoveToHours }) => amount(hoveToHours)],
  ['no_plan_hours', ({ noPlanHours }) => amount(noPlanHours)],
  ['near_limit_hours', ({ nearLimitHours }) => amount(nearLimitHours)],
  ...[28, 34, 48].map(
    (kn) =>
      [
        `over_${kn}_kn_hours`,
        ({ strongWind }: PassageRecord) => amount(strongWind.find(({ overKn }) => overKn === kn)!.hours),
      ] as const,
  ),
  ['tws_max_kn', ({ twsMaxKn }) => amount(twsMaxKn)],
  ['gust_max_kn', ({ gustMaxKn }) => amount(gustMaxKn)],
  ['gust_aws_max_kn', ({ gustAwsMaxKn }) => amount(gustAwsMaxKn)],
  ['wave_max_m', ({ waveMaxM }) => amount(waveMaxM)],
  ['climatology_hours', ({ climatologyHours }) => amount(climatologyHours)],
  ['unsteady_hours', ({ unsteadyHours }) => amount(unsteadyHours)],
  ['steadiness', ({ steadiness }) => amount(steadiness)],
  ['best_run_nm', ({ bestRunNm }) => amount(bestRunNm)],
  ['worst_run_nm', ({ worstRunNm }) => amount(worstRunNm)],
  ['off_track_nm', ({ offTrackNm }) => amount(offTrackNm)],
  ['wear_money', ({ wearMoney }) => share(wearMoney)],
  ['hand_hours', ({ handHours }) => amount(handHours)],
  ['without_main_hours', ({ withoutMainHours }) => amount(withoutMainHours)],
  ['knife_edge_hours', ({ knifeEdgeHours }) => amount(knifeEdgeHours)],
];

/** The middle of a range, to two digits, which is more than its constants deserve. */
const share = (range: { readonly mid: number } | null) => (range === null ? '' : `${twoDigits(range.mid)}`);

/**
 * The header of `passages.csv`, with a column of hours and one of wear for every sail.
 * @example
 * passagesCsvHeader(['main', 'jib']) // 'passage,route,boat,weather,member,draw,d…'
 */
export const passagesCsvHeader = (sails: readonly string[]): string =>
  [
    ...COLUMNS.map(([name]) => name),
    ...sails.map((id) => text(`hours_${id}`)),
    ...sails.map((id) => text(`wear_${id}`)),
  ].join(',');

/**
 * A row of `passages.csv`; the hours of a sail that the boat has not are empty.
 * @example
 * passagesCsvRow(sample.records[0], ['main', 'jib']) // '0,route,boat,forecast,,,2027-01-11T12:00…'
 */
export function passagesCsvRow(record: PassageRecord, sails: readonly string[]): string {
  const own = new Map(record.sails.map((sail) => [sail.id, sail]));
  return [
    ...COLUMNS.map(([, cell]) => cell(record)),
    ...sails.map((id) => amount(own.get(id)?.hours ?? null)),
    ...sails.map((id) => share(own.get(id)?.wear ?? null)),
  ].join(',');
}

/**
 * A line of `passages.jsonl`. Numbers are rounded to 6 decimals, so that the same passage is the same bytes everywhere.
 * @example
 * JSON.parse(passageJsonLine(sample.records[0])) // { n: 0, route: 'route', departure: '2027-01-11T12:00:00Z', … }
 */
export const passageJsonLine = (record: PassageRecord): string =>
  JSON.stringify(
    {
      ...record,
      wearMoney: inTwoDigits(record.wearMoney),
      sails: record.sails.map((sail) => ({
        ...sail,
        wear: inTwoDigits(sail.wear),
        wearBy: inTwoDigits(sail.wearBy),
      })),
    },
    rounded,
  );
