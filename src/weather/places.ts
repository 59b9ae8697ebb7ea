import type { FaultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { type InstantFlaw, parseInstant, parseUtcInstant } from '../time.js';
import { wrap360, wrapLon } from '../units.js';
import { saidOfInstant, says } from '../wording.js';
import { type Axis, axisOf, longitudesOf, SAME_LINE_DEG } from './axis.js';
import { readPlace } from './cells.js';
import type { NamedColumn } from './columns.js';
import type { Coverage } from './forecast.js';
import type { NumberColumn } from './quantityColumns.js';
import { MAX_LINES } from './rowStore.js';

/** Where the rows of a file stand: numbers on its axes, and whether the crop keeps them. */
export interface Places {
  /**
   * The place of a row on the axes, in `time`, `lat` and `lon`; false where a cell is faulty, or the row is outside the crop.
   */
  find(timeCell: string, latCell: string, lonCell: string, line: number): boolean;
  readonly time: number;
  readonly lat: number;
  readonly lon: number;
  readonly axes: {
    readonly epochSeconds: readonly number[];
    readonly latDeg: readonly number[];
    readonly lonDeg: readonly number[];
  };
  /** The extent of all the rows, kept or not; undefined without rows. */
  covers(): Coverage | undefined;
  /** The widest step between neighbouring lines. */
  widestCellDeg(): number;
}

/** The columns of time and place. */
export interface PlaceColumns {
  readonly time: NamedColumn;
  readonly timeIsUtc: boolean;
  readonly lat: NumberColumn;
  readonly lon: NumberColumn;
}

/** Reads an instant of a file, by what its layout says of zones; undefined after a fault. */
export function readInstant(
  cell: string,
  isUtc: boolean,
  column: string,
  file: string,
  line: number,
  faults: FaultList,
): number | undefined {
  const instant: number | InstantFlaw = isUtc ? parseUtcInstant(cell) : parseInstant(cell);
  if (typeof instant === 'number') return instant;
  const said = instant === 'unzoned' ? says.timeUnzoned(column, cell) : saidOfInstant(instant, cell);
  faults.add({ file, line, column, ...said });
  return undefined;
}

/** The lines of the axes met so far, and which of them the crop keeps. */
export interface Lines {
  readonly time: Axis;
  readonly lat: Axis;
  readonly lon: Axis;
  readonly keepLat: boolean[];
  readonly keepLon: boolean[];
}

/** New, empty axes. Times nearer than half of their unit are one. */
export const newLines = (): Lines => ({
  time: axisOf(0.5),
  lat: axisOf(SAME_LINE_DEG),
  lon: axisOf(SAME_LINE_DEG),
  keepLat: [],
  keepLon: [],
});

/** How the places of a file are read otherwise than by instants and on lines of its own. */
export interface PlacesOptions {
  /** Those of files that share one grid. */
  readonly lines?: Lines;
  /** Reads a time's cell; undefined after a fault. Default: an instant. */
  readonly readTime?: (cell: string, line: number) => number | undefined;
}

/** The places of the rows of a file. */
export function placesOf(
  columns: PlaceColumns,
  box: CropBox | undefined,
  file: string,
  faults: FaultList,
  { lines = newLines(), readTime }: PlacesOptions = {},
): Places {
  const { keepLat, keepLon, ...axes } = lines;
  let tooMany = false;
  const found = { time: 0, lat: 0, lon: 0 };

  const instantOf = (cell: string, line: number) =>
    readInstant(cell, columns.timeIsUtc, columns.time.name, file, line, faults);
  const timeOf = (cell: string, line: number) => {
    const time = (readTime ?? instantOf)(cell, line);
    return time === undefined ? undefined : axes.time.add(cell, time);
  };
  const latOf = (cell: string, line: number) => {
    const latDeg = readPlace(cell, columns.lat, file, line, faults);
    if (Number.isNaN(latDeg)) return undefined;
    const number = axes.lat.add(cell, latDeg);
    keepLat[number] = box === undefined || (latDeg >= box.latMinDeg && latDeg <= box.latMaxDeg);
    return number;
  };
  const lonOf = (cell: string, line: number) => {
    const lonDeg = readPlace(cell, columns.lon, file, line, faults);
    if (Number.isNaN(lonDeg)) return undefined;
    const number = axes.lon.add(cell, wrapLon(lonDeg));
    keepLon[number] = box === undefined || wrap360(lonDeg - box.lonWestDeg) <= box.lonWidthDeg;
    return number;
  };

  return {
    find(timeCell, latCell, lonCell, line) {
      const time = axes.time.known(timeCell) ?? timeOf(timeCell, line);
      const lat = axes.lat.known(latCell) ?? latOf(latCell, line);
      const lon = axes.lon.known(lonCell) ?? lonOf(lonCell, line);
      if (time === undefined || lat === undefined || lon === undefined) return false;
      if (Math.max(time, lat, lon) >= MAX_LINES) {
        if (!tooMany) faults.add({ file, line, ...says.tooManyLines(MAX_LINES) });
        tooMany = true;
        return false;
      }
      [found.time, found.lat, found.lon] = [time, lat, lon];
      return keepLat[lat] === true && keepLon[lon] === true;
    },
    get time() {
      return found.time;
    },
    get lat() {
      return found.lat;
    },
    get lon() {
      return found.lon;
    },
    axes: { epochSeconds: axes.time.values, latDeg: axes.lat.values, lonDeg: axes.lon.values },
    covers: () => coverageOfAxes(axes),
    widestCellDeg: () => widestCell(axes),
  };
}

function coverageOfAxes(axes: { readonly time: Axis; readonly lat: Axis; readonly lon: Axis }): Coverage | undefined {
  const [times, lats] = [rising(axes.time.values), rising(axes.lat.values)];
  if (times.length === 0 || lats.length === 0 || axes.lon.values.length === 0) return undefined;
  const { west, widthDeg } = longitudesOf(axes.lon.values);
  return {
    fromEpochSeconds: times[0]!,
    toEpochSeconds: times.at(-1)!,
    latMinDeg: lats[0]!,
    latMaxDeg: lats.at(-1)!,
    lonWestDeg: west,
    lonEastDeg: west + widthDeg,
  };
}

function widestCell(axes: { readonly lat: Axis; readonly lon: Axis }): number {
  const lats = rising(axes.lat.values);
  // Not by spreading: a hostile file has more lines than a call takes arguments.
  return lats.reduce(
    (widest, latDeg, i) => Math.max(widest, i === 0 ? 0 : latDeg - lats[i - 1]!),
    longitudesOf(axes.lon.values).widestStepDeg,
  );
}

const rising = (values: readonly number[]) => [...values].sort((a, b) => a - b);
