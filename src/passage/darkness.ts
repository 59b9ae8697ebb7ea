import type { TrackPoint } from '../route/route.js';
import { daylightAt } from '../sun/sun.js';

/** The sun is asked at this distance: it sets within 40 s of what it does in between. */
const SUN_NM = 20;

/** Whether it is dark so many minutes after the start of a stage, at a distance along the track. */
export type IsDark = (stage: number, minutes: number, distanceNm: number) => boolean;

interface DarknessParts {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly lengthNm: number;
  readonly stageEpochSeconds: Float64Array;
}

/** Day and night along the track, remembered: the search asks for the same again and again. */
export function darknessOf({ trackAt, lengthNm, stageEpochSeconds }: DarknessParts): IsDark {
  const sunBins = Math.ceil(lengthNm / SUN_NM) + 1;
  // 0 not known, 1 light, 2 dark; by the minutes after a stage's start that are asked for.
  const darkness = new Map<number, Uint8Array>();

  return (stage, minutes, distanceNm) => {
    let dark = darkness.get(minutes);
    if (dark === undefined) {
      dark = new Uint8Array(stageEpochSeconds.length * sunBins);
      darkness.set(minutes, dark);
    }
    const bin = Math.round(Math.min(lengthNm, Math.max(0, distanceNm)) / SUN_NM);
    const at = stage * sunBins + bin;
    if (dark[at] === 0) {
      const { latDeg, lonDeg } = trackAt(bin * SUN_NM);
      dark[at] = daylightAt(stageEpochSeconds[stage]! + minutes * 60, latDeg, lonDeg) ? 1 : 2;
    }
    return dark[at] === 2;
  };
}
