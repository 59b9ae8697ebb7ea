import { layTrack } from 'windwardrobe';
import { geodesicBetween, M_PER_NM, SPHERE } from './oracles.mjs';

/** How far a direction or longitude is off the true one, −180 ≤ x < 180. */
export const apartDeg = (actualDeg, truthDeg) => ((((actualDeg - truthDeg) % 360) + 540) % 360) - 180;

/** How far two places lie apart on the handbook sphere, metres. */
export const apartM = (from, to) => geodesicBetween(SPHERE, from, to).distanceNm * M_PER_NM;

export const percentOff = (actual, truth) => 100 * (actual / truth - 1);

export const secondsOf = (iso) => Date.parse(iso) / 1000;

/** A leg of one kind laid out. */
export const trackOf = (kind, { from, to }) =>
  layTrack({
    waypoints: [
      { ...from, name: 'from', toNext: kind },
      { ...to, name: 'to', toNext: kind },
    ],
  });
