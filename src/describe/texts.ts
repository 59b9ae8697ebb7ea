import { type Boat, wardrobeWarnings } from '../boat/boat.js';
import { describeFault, type Fault, withoutUnseen } from '../errors.js';
import { positionText, sailingBetween } from '../geo/geo.js';
import type { PlanFile } from '../output/output.js';
import type { PolarSet } from '../polar/polar.js';
import { layTrack, legKindOf, type Route } from '../route/route.js';
import { isoUtc } from '../time.js';
import { wrapLon } from '../units.js';
import {
  type Climatology,
  describeClimatology,
  describeForecast,
  type Forecast,
  type QuantitySummary,
  UNSTEADY_UNDER,
} from '../weather/weather.js';

/** A route: its legs with kind, course at the start and distance. */
export function routeText(path: string, route: Route, warnings: readonly Fault[]): string {
  const { waypoints } = route;
  const legs = waypoints.slice(1).map((to, i) => {
    const from = waypoints[i]!;
    const kind = legKindOf(from, to);
    const { courseDeg, distanceNm } = sailingBetween(from, to, kind);
    return `leg ${i + 1}: ${visible(from.name)} to ${visible(to.name)}, ${kind}, ${courseDeg.toFixed(1)}°, ${distanceNm.toFixed(1)} Nm; from ${positionText(from.latDeg, from.lonDeg)} to ${positionText(to.latDeg, to.lonDeg)}`;
  });
  const lengthNm = layTrack(route).distanceNm.at(-1)!;
  return section(
    `${path}: a route of ${counted(waypoints.length, 'waypoint')}, ${lengthNm.toFixed(1)} Nm`,
    legs,
    warnings,
  );
}

/** A boat: her sails with their windows, and her sail plans. */
export function boatText(path: string, boat: Boat): string {
  const sails = boat.sails.map(({ id, kind, areaM2, window, reefs = [], derived = {} }) => {
    const area = areaM2 === undefined ? '' : `, ${areaM2} m²`;
    const reefed =
      reefs.length === 0
        ? ''
        : `, ${counted(reefs.length, 'reef')}${'reefs[0].areaShare' in derived ? ' by its kind' : ''}`;
    return `sail ${id}: ${kind}${area}, AWA ${window.awaMinDeg} to ${window.awaMaxDeg}°${reefed}`;
  });
  const followed = boat.sailPlans.every(({ derived }) => derived === true) ? ' (they follow from the sails)' : '';
  const plans = `sail plans${followed}: ${boat.sailPlans.map(({ id }) => id).join(', ')}`;
  const polars = boat.polars === undefined ? [speedsLine(boat)] : [];
  return section(
    `${path}: ${visible(boat.name)}, a ${boat.hull.type}`,
    [...sails, plans, ...polars],
    wardrobeWarnings(boat, path),
  );
}

/** Where speeds come from that no polars give. */
function speedsLine({ boatPolar, knownSpeeds = [] }: Boat): string {
  if (boatPolar !== undefined) return `speeds: estimated, and split from the one polar ${visible(boatPolar)}`;
  return `speeds: no polars are named, so they are estimated, ${knownSpeeds.length === 0 ? 'fitted to nothing' : `fitted to ${counted(knownSpeeds.length, 'known speed')}`}`;
}

/** Polars: for each plan its winds and angles, and its fastest speed. */
export function polarsText(path: string, { plans }: PolarSet): string {
  const lines = Object.entries(plans).map(
    ([id, { twsKn, twaDeg, stwKn, windHeightM = 10, twaReference = 'course' }]) => {
      const most = stwKn.reduce((fastest, kn) => Math.max(fastest, kn), 0);
      return `${visible(id)}: TWS ${twsKn[0]} to ${twsKn.at(-1)} kn at ${windHeightM} m, TWA ${twaDeg[0]} to ${twaDeg.at(-1)}° to the ${twaReference}, up to ${most} kn`;
    },
  );
  return section(`${path}: polars of ${counted(lines.length, 'sail plan')}`, lines, []);
}

/** A plan: when, how long, and whether it is complete. */
export function planFileText(path: string, plan: PlanFile): string {
  const { complete, reason, departure, end, totals, warnings } = plan;
  return section(
    `${path}: a plan of ${counted(plan.hours.length, 'row')}, ${complete ? 'complete' : `incomplete (${reason})`}`,
    [
      `${visible(plan.boat)}, ${departure} to ${end}, ${totals.distanceNm.toFixed(1)} Nm, ${counted(totals.sailChanges, 'sail change')}`,
      `made from ${plan.inputs.map(({ role, file }) => `${role} ${visible(file)}`).join(', ')}`,
    ],
    warnings,
  );
}

/** A forecast file: for each quantity its grid, times, gaps and range. */
export function forecastText(path: string, forecast: Forecast, warnings: readonly Fault[]): string {
  const grids = forecast.grids.filter((grid) => grid.file === path);
  const lines = describeForecast({ ...forecast, grids }).flatMap(quantityLines);
  return section(
    `${path}: a forecast`,
    lines,
    warnings.filter(({ file }) => file === path),
  );
}

function quantityLines(summary: QuantitySummary): string[] {
  const { quantity, unit, min, max, times, stepHours, gaps, runs, members } = summary;
  const range = min === null || max === null ? '' : `, ${min.toFixed(2)} to ${max.toFixed(2)} ${unit}`;
  const step = stepHours === null ? '' : `, every ${number(stepHours)} h`;
  const span = `${isoUtc(summary.fromEpochSeconds)} to ${isoUtc(summary.toEpochSeconds)}`;
  const told = [...(runs > 0 ? [counted(runs, 'run')] : []), ...(members > 0 ? [counted(members, 'member')] : [])];
  const absent = summary.absentShare === 0 ? '' : `, ${(100 * summary.absentShare).toFixed(1)} % absent`;
  return [
    `${quantity}: ${gridText(summary)}${range}${absent}`,
    `  ${counted(times, 'time')}, ${span}${step}${told.map((part) => `, ${part}`).join('')}`,
    ...meanLine(summary),
    ...gaps.map(
      ({ fromEpochSeconds: from, toEpochSeconds: to }) =>
        `  gap of ${number((to - from) / 3600)} h from ${isoUtc(from)} to ${isoUtc(to)}`,
    ),
  ];
}

/** A climatology: its grid, wind, steadiness, and cells from which no spread follows. */
export function climatologyText(path: string, climatology: Climatology, warnings: readonly Fault[]): string {
  const summary = describeClimatology(climatology);
  const { cells, absentShare, steadiness, unsteadyShare, withoutSpread } = summary;
  const absent = absentShare === 0 ? '' : `, ${(100 * absentShare).toFixed(1)} % absent`;
  return section(
    `${path}: a climatology, mean wind of twelve months`,
    [
      `wind: ${gridText({ ...summary, grids: 1 })}, mean speed ${summary.meanSpeedMinKn.toFixed(2)} to ${summary.meanSpeedMaxKn.toFixed(2)} kn, ${cells} cells and months${absent}`,
      `steadiness: ${steadiness.toFixed(2)} on the mean, under ${UNSTEADY_UNDER} in ${(100 * unsteadyShare).toFixed(1)} % of them`,
      `without spread: ${withoutSpread}, whose mean vector is as long as the mean speed`,
    ],
    warnings,
  );
}

/** Which way it blows or sets on the mean: a file with its directions turned round is seen here. */
function meanLine({ quantity, meanDirectionDeg, steadiness }: QuantitySummary): string[] {
  if (meanDirectionDeg === null || steadiness === null) return [];
  const direction = `${(Math.round(meanDirectionDeg) % 360).toString().padStart(3, '0')}°`;
  return [`  on the mean ${quantity === 'wind' ? 'from' : 'to'} ${direction}, steadiness ${steadiness.toFixed(2)}`];
}

type GridOf = Pick<
  QuantitySummary,
  'lats' | 'lons' | 'latStepDeg' | 'lonStepDeg' | 'grids' | 'latMinDeg' | 'latMaxDeg' | 'lonWestDeg' | 'lonEastDeg'
>;

function gridText({ lats, lons, latStepDeg, lonStepDeg, grids, ...box }: GridOf): string {
  const step = latStepDeg === null || lonStepDeg === null ? '' : ` of ${number(latStepDeg)}° × ${number(lonStepDeg)}°`;
  const corners = `${positionText(box.latMinDeg, wrapLon(box.lonWestDeg))} to ${positionText(box.latMaxDeg, wrapLon(box.lonEastDeg))}`;
  const others = grids === 1 ? '' : ` (the finest of ${grids} grids)`;
  const round = box.lonEastDeg - box.lonWestDeg >= 360 ? ', all round' : '';
  return `${lats} × ${lons} points${step}${others}, ${corners}${round}`;
}

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;

const number = (value: number) => `${Number(value.toFixed(3))}`;

const visible = (text: string) => withoutUnseen(text, ' ');

/** Warnings by themselves. */
export function warningsText(warnings: readonly Fault[]): string {
  return warnings.map((warning) => `  warning: ${describeFault(warning)}\n`).join('');
}

function section(title: string, lines: readonly string[], warnings: readonly Fault[]): string {
  const all = [...lines, ...warnings.map((warning) => `warning: ${describeFault(warning)}`)];
  return `${visible(title)}\n${all.map((line) => `  ${line}\n`).join('')}`;
}
