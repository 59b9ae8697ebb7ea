import { withoutUnseen } from '../errors.js';
import type { Hour } from '../passage/passage.js';
import { isoUtc } from '../time.js';
import { CAUTION } from './caution.js';
import { fixed, latitude, longitude } from './format.js';
import type { PlanToPrint } from './planParts.js';
import { hourLines, type LinePoint } from './trackLine.js';

/**
 * The plan as GPX 1.1: a waypoint at each sail change, the route as it was drawn, and the line sailed with its times. A
 * line across the date line is not cut, as GPX has no rule for it; longitudes are −180 ≤ x < 180.
 * @example
 * trackGpx(sample.plan) // '<?xml version="1.0" encoding="UTF-8"?>…'
 */
export function trackGpx(plan: PlanToPrint): string {
  const { passage, route, boat } = plan;
  const { hours } = passage;
  const name = `${boat.name}: ${route.waypoints[0]!.name} to ${route.waypoints.at(-1)!.name}`;
  const changes = hours.flatMap((hour, i) => (i === 0 || hour.sailChange ? [changePoint(hour)] : []));
  const waypoints = route.waypoints.map(
    ({ latDeg, lonDeg, name: waypoint }) => `    <rtept ${at({ latDeg, lonDeg })}>${element('name', waypoint)}</rtept>`,
  );
  const lines = hourLines(passage, route);
  const points = lines.flatMap((line, i) => (i === lines.length - 1 ? line : line.slice(0, -1)));
  const state = passage.complete ? '' : `PLAN INCOMPLETE, ${fixed(passage.distanceToGoNm, 0)} Nm to go. `;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="windwardrobe" xmlns="http://www.topografix.com/GPX/1/1">',
    `  <metadata>${element('name', name)}${element('desc', `${state}${CAUTION}`)}</metadata>`,
    ...changes,
    `  <rte>${element('name', `${name}, as drawn`)}`,
    ...waypoints,
    '  </rte>',
    `  <trk>${element('name', `${name}, as planned`)}`,
    '    <trkseg>',
    ...points.map((point) => `      <trkpt ${at(point)}>${element('time', isoUtc(point.epochSeconds))}</trkpt>`),
    '    </trkseg>',
    '  </trk>',
    '</gpx>',
    '',
  ].join('\n');
}

function changePoint(hour: Hour): string {
  const sailed = hour.sailPlan ?? 'hove to';
  const felt = `TWS ${fixed(hour.twsKn, 0)} kn, AWS ${fixed(hour.awsKn, 0)} kn${hour.awaDeg === null ? '' : `, AWA ${fixed(Math.abs(hour.awaDeg), 0)}°`}`;
  return `  <wpt ${at(hour)}>${element('time', hour.time)}${element('name', sailed)}${element('desc', felt)}</wpt>`;
}

const at = ({ latDeg, lonDeg }: Pick<LinePoint, 'latDeg' | 'lonDeg'>) =>
  `lat="${latitude(latDeg)}" lon="${longitude(lonDeg)}"`;

const MARKS: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** What XML 1.0 has no place for beside controls: half a surrogate pair, and two code points that are no characters. */
const NOT_IN_XML = /[\p{Cs}\ufffe\uffff]/gu;

const element = (name: string, text: string) => {
  const plain = withoutUnseen(text, ' ').replace(NOT_IN_XML, ' ');
  return `<${name}>${plain.replace(/[&<>"']/g, (mark) => MARKS[mark]!)}</${name}>`;
};
