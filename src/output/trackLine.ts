import type { Passage } from '../passage/passage.js';
import { layTrack, type Route, trackAt } from '../route/route.js';
import { parseInstant } from '../time.js';

/** A place of the passage at an instant. */
export interface LinePoint {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly epochSeconds: number;
}

/**
 * The line sailed, an entry an hour of the log: from the start of the hour to its end, by way of the waypoints passed
 * in it, forwards or driven back, so that no corner is cut. Times between are by distance.
 */
export function hourLines({ hours }: Passage, route: Route): readonly (readonly LinePoint[])[] {
  const track = layTrack(route);
  const at = trackAt(track);
  const corners = [...track.leg.keys()].flatMap((i) =>
    track.leg[i + 1] === track.leg[i]! + 1 ? [track.distanceNm[i]!] : [],
  );
  return hours.map((hour) => {
    const start = parseInstant(hour.time) as number;
    const [fromNm, toNm] = [hour.distanceNm, hour.distanceNm + hour.runNm];
    const [lowNm, highNm] = [Math.min(fromNm, toNm) + 1e-6, Math.max(fromNm, toNm) - 1e-6];
    const between = corners.filter((cornerNm) => cornerNm > lowNm && cornerNm < highNm);
    if (toNm < fromNm) between.reverse();
    return [fromNm, ...between, toNm].map((distanceNm, i) => {
      const { latDeg, lonDeg } = at(distanceNm);
      const share = i === 0 ? 0 : hour.runNm === 0 ? 1 : (distanceNm - fromNm) / hour.runNm;
      return { latDeg, lonDeg, epochSeconds: start + share * hour.minutes * 60 };
    });
  });
}
