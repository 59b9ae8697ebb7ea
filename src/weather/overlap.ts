import type { FaultList } from '../errors.js';
import { lastAtMost } from '../rising.js';
import { isoUtc } from '../time.js';
import { wrapLon } from '../units.js';
import { says } from '../wording.js';
import { SAME_LINE_DEG, shownDeg } from './axis.js';
import type { Field, Grid } from './forecast.js';

/** What two files may differ by at one point and time and still agree: what printing to two decimals rounds, and a bit. */
const AGREEING = 0.03;

/** A file and its grids. */
interface Part {
  readonly file: string;
  readonly grids: readonly Grid[];
}

/**
 * Adds a fault for every two files that give one quantity different values at one point and time, where not both say
 * which run they are of: nobody could tell which is right. Where both say, the newer run is taken and nothing is wrong.
 */
export function checkOverlaps(parts: readonly Part[], faults: FaultList): void {
  const rivals = parts.map(({ grids }) => rivalsAmong(grids));
  parts.forEach(({ file, grids }, i) => {
    parts.slice(0, i).forEach((other, j) => {
      const told = new Set<Field>();
      for (const grid of grids) {
        for (const earlier of rivals[j]!(grid)) compare(grid, earlier, file, other.file, told, faults);
      }
    });
  });
}

/**
 * Finds those grids that must agree with another: of its run and member, or where not both say so. Looked up, because a
 * file may have as many runs and members as rows.
 */
function rivalsAmong(grids: readonly Grid[]): (grid: Grid) => readonly Grid[] {
  const byMember = new Map<string | undefined, Map<number | undefined, Grid[]>>();
  for (const grid of grids) {
    const byRun = byMember.get(grid.member) ?? new Map<number | undefined, Grid[]>();
    byMember.set(grid.member, byRun);
    byRun.set(grid.runEpochSeconds, [...(byRun.get(grid.runEpochSeconds) ?? []), grid]);
  }
  const ofKeyOrUnsaid = <Key, Value>(map: ReadonlyMap<Key | undefined, Value>, key: Key | undefined): Value[] =>
    key === undefined ? [...map.values()] : [key, undefined].flatMap((one) => map.get(one) ?? []);
  return ({ member, runEpochSeconds }) =>
    ofKeyOrUnsaid(byMember, member).flatMap((byRun) => ofKeyOrUnsaid(byRun, runEpochSeconds).flat());
}

function compare(a: Grid, b: Grid, file: string, otherFile: string, told: Set<Field>, faults: FaultList): void {
  const times = shared(a.epochSeconds, b.epochSeconds, 0.5);
  const lats = shared(a.lats, b.lats, SAME_LINE_DEG);
  const lons = shared(a.lons, b.lons, SAME_LINE_DEG, [0, 360, -360]);
  for (const field of Object.keys(a.fields) as Field[]) {
    const [x, y] = [a.fields[field]!, b.fields[field]];
    if (y === undefined || told.has(field)) continue;
    let points = 0;
    let first:
      | { readonly place: readonly [string, number, number]; readonly got: number; readonly other: number }
      | undefined;
    for (const [time, otherTime] of times) {
      for (const [lat, otherLat] of lats) {
        for (const [lon, otherLon] of lons) {
          const got = x[(time * a.lats.length + lat) * a.lons.length + lon]!;
          const other = y[(otherTime * b.lats.length + otherLat) * b.lons.length + otherLon]!;
          if (!(Math.abs(got - other) > AGREEING)) continue;
          points += 1;
          first ??= {
            place: [isoUtc(a.epochSeconds[time]!), shownDeg(a.lats[lat]!), shownDeg(wrapLon(a.lons[lon]!))],
            got,
            other,
          };
        }
      }
    }
    if (first === undefined) continue;
    told.add(field);
    faults.add({ file, path: field, ...says.filesDisagree(otherFile, points, ...first.place, first.got, first.other) });
  }
}

/** Index pairs of the values two rising axes share. The shorter is gone through: a file may have a grid for each time. */
function shared(
  one: Float64Array,
  other: Float64Array,
  tolerance: number,
  turns: readonly number[] = [0],
): [number, number][] {
  if (one.length > other.length) {
    return shared(other, one, tolerance, turns).map(([i, j]) => [j, i]);
  }
  return Array.from(one).flatMap((value, i): [number, number][] => {
    const found = turns
      .map((turn) => [value + turn, lastAtMost(other, value + turn + tolerance)] as const)
      .find(([turned, j]) => j >= 0 && Math.abs(other[j]! - turned) < tolerance);
    return found === undefined ? [] : [[i, found[1]]];
  });
}
