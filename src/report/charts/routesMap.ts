import type { Land } from '../../land/land.js';
import { layTrack, type Route, trackAt } from '../../route/route.js';
import type { Chart } from '../document/figure.js';
import { boxRound } from '../drawing/box.js';
import { element } from '../drawing/svg.js';
import { coastOf } from './coast.js';
import { mapFrameOf } from './mapFrame.js';
import { namesOn } from './names.js';
import { tip } from './plot.js';

/** A route and what it is called. */
export interface NamedRoute {
  readonly name: string;
  readonly route: Route;
}

/** The routes of many passages on a map. */
export function routesMap(routes: readonly NamedRoute[], land: Land | undefined): Chart {
  const coast = land === undefined ? undefined : coastOf(land);
  const told = routes.map(
    ({ name, route: { waypoints } }) => `${name}, from ${waypoints[0]!.name} to ${waypoints.at(-1)!.name}`,
  );
  const lines = routes.map(({ route }) => {
    const track = layTrack(route);
    const at = trackAt(track);
    return [...track.distanceNm].map((distanceNm) => at(distanceNm));
  });
  return {
    title: 'Map of the routes',
    says: `${told.map((text) => text.trim()).join('; ')}. ${coast === undefined ? 'No coast is drawn.' : 'The coast is coarse (1:50 million): no chart.'}`,
    draw(width) {
      const frame = mapFrameOf(
        routes.flatMap(({ route }) => route.waypoints),
        width,
      );
      const names = namesOn(frame);
      for (const place of lines.flat()) names.take(boxRound(...frame.at(place), 7, 7));
      const ends = routes.flatMap(({ route: { waypoints } }) => [waypoints[0]!, waypoints.at(-1)!]);
      const named = [...new Set(ends.map(({ name }) => name))].map((name) =>
        names.put(frame.at(ends.find((place) => place.name === name)!), name, 'place-name'),
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
              tip(told[i]!),
            ),
          ),
          ...routes.flatMap(({ route: { waypoints } }) =>
            [waypoints[0]!, ...waypoints.slice(1, -1).slice(0, MOST_MARKED), waypoints.at(-1)!].map((place) => {
              const [x, y] = frame.at(place);
              return element('rect', { class: 'waypoint', x: x - 3, y: y - 3, width: 6, height: 6 }, tip(place.name));
            }),
          ),
          ...named,
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
