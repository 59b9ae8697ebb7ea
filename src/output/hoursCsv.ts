import type { Hour, Passage } from '../passage/passage.js';
import { amount, direction, flag, latitude, longitude, offBow, text } from './format.js';

/** The columns of the hour log in their order. */
const COLUMNS: readonly (readonly [name: string, cell: (hour: Hour) => string])[] = [
  ['time', (hour) => hour.time],
  ['lat', (hour) => latitude(hour.latDeg)],
  ['lon', (hour) => longitude(hour.lonDeg)],
  ['leg', (hour) => `${hour.leg}`],
  ['distance_nm', (hour) => amount(hour.distanceNm)],
  ['course_deg', (hour) => direction(hour.courseDeg)],
  ['weather', (hour) => hour.weather],
  ['twd_deg', (hour) => direction(hour.twdDeg)],
  ['tws_kn', (hour) => amount(hour.twsKn)],
  ['gust_kn', (hour) => amount(hour.gustKn)],
  ['set_deg', (hour) => direction(hour.setDeg)],
  ['drift_kn', (hour) => amount(hour.driftKn)],
  ['manner', (hour) => hour.manner],
  ['heading_deg', (hour) => direction(hour.headingDeg)],
  ['twa_deg', (hour) => offBow(hour.twaDeg)],
  ['stw_kn', (hour) => amount(hour.stwKn)],
  ['awa_deg', (hour) => offBow(hour.awaDeg)],
  ['aws_kn', (hour) => amount(hour.awsKn)],
  ['smg_kn', (hour) => amount(hour.smgKn)],
  ['sail_plan', (hour) => text(hour.sailPlan)],
  ['sail_change', (hour) => flag(hour.sailChange)],
  ['runner_up', (hour) => text(hour.runnerUp)],
  ['margin_kn', (hour) => amount(hour.marginKn)],
  ['barred', (hour) => text(hour.barred.map(({ sailPlan, reason }) => `${sailPlan}:${reason}`).join(';'))],
  ['daylight', (hour) => flag(hour.daylight)],
  ['ground_twd_deg', (hour) => direction(hour.groundTwdDeg)],
  ['ground_tws_kn', (hour) => amount(hour.groundTwsKn)],
  ['gust_from', (hour) => hour.gustFrom],
  ['gust_aws_kn', (hour) => amount(hour.gustAwsKn)],
  ['beam_reach_aws_kn', (hour) => amount(hour.beamReachAwsKn)],
  ['tack', (hour) => text(hour.tack)],
  ['wave_height_m', (hour) => amount(hour.waveHeightM)],
  ['wave_period_s', (hour) => amount(hour.wavePeriodSeconds)],
  ['wave_from_deg', (hour) => direction(hour.waveFromDeg)],
  ['bridged', (hour) => flag(hour.bridged)],
  ['run_nm', (hour) => amount(hour.runNm)],
  ['minutes', (hour) => amount(hour.minutes)],
  ['off_track_nm', (hour) => amount(hour.offTrackNm)],
  ['leeway_deg', (hour) => offBow(hour.leewayDeg)],
  ['zone_hours', (hour) => `${hour.zoneHours}`],
  ['change_minutes', (hour) => amount(hour.changeMinutes)],
  ['hands', (hour) => `${hour.hands}`],
  ['stands_share', (hour) => amount(hour.standsShare)],
  ['gust_limit_kn', (hour) => amount(hour.gustLimitKn)],
  ['over_gust', (hour) => text(hour.overGust)],
  ['awa_from_deg', (hour) => amount(hour.awaFromDeg)],
  ['awa_to_deg', (hour) => amount(hour.awaToDeg)],
  ['over_angle', (hour) => text(hour.overAngle)],
  ['steadiness', (hour) => amount(hour.steadiness)],
];

/**
 * The hour log as CSV: one row an hour from departure, values at the start of the hour.
 * @example
 * hoursCsv(sample.passage).split('\n')[0] // 'time,lat,lon,leg,distance_nm,course_deg,…'
 */
export function hoursCsv(passage: Passage): string {
  const rows = passage.hours.map((hour) => COLUMNS.map(([, cell]) => cell(hour)).join(','));
  return `${[COLUMNS.map(([name]) => name).join(','), ...rows].join('\n')}\n`;
}
