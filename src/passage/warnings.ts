import { type Boat, noPolarWarnings, plansWithout, polarFileOf, wardrobeWarnings } from '../boat/boat.js';
import type { Fault } from '../errors.js';
import type { Polar, PolarSet } from '../polar/polar.js';
import type { TrackPoint } from '../route/route.js';
import { isoUtc } from '../time.js';
import type { Forecast, TimeGap, Weather } from '../weather/weather.js';
import { windAtHeight } from '../wind/wind.js';
import { says } from '../wording.js';
import type { Moment, Run } from './hour.js';
import type { Hour } from './log.js';
import type { SettledOptions } from './options.js';
import type { Sky } from './sky.js';

/** What is noted hour by hour while a passage is sailed, for its warnings. */
export interface Flags {
  note(hour: Hour, run: Run, weather: Weather): void;
  readonly gaps: ReadonlyMap<number, TimeGap>;
  readonly hoursWithout: Readonly<Record<'current' | 'waves' | 'gust', number>>;
  readonly heldHours: ReadonlyMap<string, number>;
}

/** Nothing noted yet. */
export function noFlags(): Flags {
  const gaps = new Map<number, TimeGap>();
  const heldHours = new Map<string, number>();
  const hoursWithout = { current: 0, waves: 0, gust: 0 };
  return {
    gaps,
    hoursWithout,
    heldHours,
    note(hour, run, weather) {
      if (weather.bridged !== undefined) gaps.set(weather.bridged.fromEpochSeconds, weather.bridged);
      if (hour.driftKn === null) hoursWithout.current += 1;
      if (hour.waveHeightM === null) hoursWithout.waves += 1;
      if (hour.gustFrom === 'factor') hoursWithout.gust += 1;
      if (run.heldHours > 0 && hour.sailPlan !== null) {
        heldHours.set(hour.sailPlan, (heldHours.get(hour.sailPlan) ?? 0) + run.heldHours);
      }
    },
  };
}

/** Where and why the wind ended under way: in a gap too long to bridge, or at points without wind. */
export function windAbsent(
  { forecast: { file, grids }, climatology }: Sky,
  { latDeg, lonDeg }: TrackPoint,
  { epochSeconds }: Moment,
  { maxGapHours }: Pick<SettledOptions, 'maxGapHours'>,
): Fault {
  const times = grids.flatMap((grid) => (grid.fields.windEastKn === undefined ? [] : [...grid.epochSeconds]));
  const before = latest(times.filter((time) => time <= epochSeconds));
  const after = earliest(times.filter((time) => time >= epochSeconds));
  const hours = (after - before) / 3600;
  const why =
    climatology !== undefined
      ? 'the climatology has none there either (land, say, or outside its grid)'
      : hours > maxGapHours && Number.isFinite(hours)
        ? `in a gap of ${Number(hours.toFixed(2))} h in the forecast, more than the ${maxGapHours} h that are bridged`
        : "outside the forecast's grid or on points without wind (land, say)";
  return { file, ...says.windAbsent(`${latDeg.toFixed(2)}, ${lonDeg.toFixed(2)}`, isoUtc(epochSeconds), why) };
}

const latest = (times: readonly number[]) => times.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
const earliest = (times: readonly number[]) => times.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** What a navigator should know about a passage: gaps bridged, what the forecast lacks, polars missing or stretched. */
export function warningsOf(
  flags: Flags,
  boat: Boat,
  polars: PolarSet,
  forecast: Forecast,
  options: Omit<SettledOptions, 'departure'>,
): Fault[] {
  const { file } = forecast;
  const { current, waves, gust } = flags.hoursWithout;
  const lengthOf = (gap: TimeGap) => gap.toEpochSeconds - gap.fromEpochSeconds;
  const [longest] = [...flags.gaps.values()].sort((a, b) => lengthOf(b) - lengthOf(a));
  const withoutPolar = plansWithout(boat, options.without).filter(({ id }) => !Object.hasOwn(polars.plans, id));
  return [
    ...(longest === undefined
      ? []
      : [
          {
            file,
            ...says.bridged(
              options.maxGapHours,
              flags.gaps.size,
              Number((lengthOf(longest) / 3600).toFixed(2)),
              isoUtc(longest.fromEpochSeconds),
              isoUtc(longest.toEpochSeconds),
            ),
          },
        ]),
    ...(current > 0 ? [{ file, ...says.currentAbsent(current) }] : []),
    ...(waves > 0 ? [{ file, ...says.wavesAbsent(waves) }] : []),
    ...(gust > 0 ? [{ file, ...says.gustAbsent(options.house.gustFactor, gust) }] : []),
    ...wardrobeWarnings(boat),
    ...noPolarWarnings(boat, withoutPolar),
    ...[...flags.heldHours].map(([id, hours]) => ({
      file: polarFileOf(boat, id),
      path: id,
      ...says.polarHeld(id, Number(hours.toFixed(1)), highestWindKn(polars.plans[id]!)),
    })),
  ];
}

/** The highest true wind of a polar, at 10 m, to a tenth of a knot. */
function highestWindKn({ twsKn, windHeightM = 10 }: Polar): number {
  return Number((twsKn.at(-1)! / windAtHeight(1, windHeightM)).toFixed(1));
}
