import type { Land } from '../../land/land.js';
import { layTrack, type Route, trackAt } from '../../route/route.js';
import type { Chart } from '../document/figure.js';
import { type Box, boxRound, overlapOf } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { widthOf } from '../drawing/wrapped.js';
import { coastOf } from './coast.js';
import { mapFrameOf } from './mapFrame.js';
import { tip } from './plot.js';

/** A route and what it is called. */
export interface NamedRoute {
  readonly name: string;
  readonly route: Route;
}

/** The routes of many passages on a map. */
export function routesMap(routes: readonly NamedRoute[], land: Land | undefined): Chart {
  const coast = land === undefined ? undefined : coastOf(land);
  const ends = routes.map(
    ({ name, route: { waypoints } }) => `${name}, from ${waypoints[0]!.name} to ${waypoints.at(-1)!.name}`,
  );
  const lines = routes.map(({ route }) => {
    const track = layTrack(route);
    const at = trackAt(track);
    return [...track.distanceNm].map((distanceNm) => at(distanceNm));
  });
  return {
    title: 'Map of the routes',
    says: `${ends.map((text) => text.trim()).join('; ')}. ${coast === undefined ? 'No coast is drawn.' : 'The coast is coarse (1:50 million): no chart.'}`,
    draw(width) {
      const frame = mapFrameOf(
        routes.flatMap(({ route }) => route.waypoints),
        width,
      );
      const taken: Box[] = [];
      const names = routes.flatMap(({ route: { waypoints } }) =>
        [waypoints[0]!, waypoints.at(-1)!].flatMap((place) => {
          const [x, y] = frame.at(place);
          const wide = widthOf(place.name, 11) + 4;
          const spot = [
            [x, y + 18],
            [x, y - 10],
            [x - wide / 2 - 8, y + 4],
            [x + wide / 2 + 8, y + 4],
          ]
            .map(([cx = 0, cy = 0]) => ({ cx, cy, box: boxRound(cx, cy - 4, wide, 14) }))
            .find(({ box }) => frame.isInside(box) && taken.every((other) => overlapOf(box, other) === 0));
          if (spot === undefined) return [];
          taken.push(spot.box);
          return [textAt(spot.cx, spot.cy, place.name, { class: 'place-name', 'text-anchor': 'middle' })];
        }),
      );
      return {
        markup: [
          frame.ground,
          ...(coast === undefined ? [] : [element('path', { class: 'land', d: frame.path(coast) })]),
          ...lines.map((line, i) =>
            element(
              'path',
              {
                class: 'course',
                d: frame.path({ type: 'LineString', coordinates: line.map(({ lonDeg, latDeg }) => [lonDeg, latDeg]) }),
                'stroke-dasharray': DASHES[i % DASHES.length],
              },
              tip(ends[i]!),
            ),
          ),
          ...routes.flatMap(({ route: { waypoints } }) =>
            [waypoints[0]!, ...waypoints.slice(1, -1).slice(0, MOST_MARKED), waypoints.at(-1)!].map((place) => {
              const [x, y] = frame.at(place);
              return element('rect', { class: 'waypoint', x: x - 3, y: y - 3, width: 6, height: 6 }, tip(place.name));
            }),
          ),
          ...names,
          frame.border,
        ].join(''),
        height: frame.height,
      };
    },
  };
}

/** Points of a recorded track are its line. */
const MOST_MARKED = 30;

const DASHES = [undefined, '8 4', '2 3', '12 4 2 4'];
