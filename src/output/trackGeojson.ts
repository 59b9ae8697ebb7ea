import { cutAtDateLine } from '../geo/geo.js';
import type { Hour } from '../passage/passage.js';
import { isoUtc } from '../time.js';
import { latitude, longitude } from './format.js';
import type { PlanToPrint } from './planParts.js';
import { hourLines, type LinePoint } from './trackLine.js';

/**
 * The plan as GeoJSON (RFC 7946): a line for each hour, with the numbers of the log that a map can style by, and points for
 * the waypoints, each sail change and the end. `what` tells them apart. Lines are cut at the date line.
 * @example
 * JSON.parse(trackGeojson(sample.plan)) // { type: 'FeatureCollection', … }
 */
export function trackGeojson({ passage, route }: PlanToPrint): string {
  const lines = hourLines(passage, route);
  const hours = passage.hours.map((hour, i) => {
    const points = lines[i]!.map(lonLat);
    // An hour hove to may stay where it is: a line of one place twice.
    const parts = cutAtDateLine(points);
    const geometry =
      parts.length === 1
        ? { type: 'LineString', coordinates: parts[0] }
        : { type: 'MultiLineString', coordinates: parts };
    return { type: 'Feature', geometry, properties: { what: 'hour', ...propertiesOf(hour) } };
  });
  const changes = passage.hours.flatMap((hour, i) =>
    i === 0 || hour.sailChange ? [point(hour, { what: i === 0 ? 'start' : 'sail-change', ...propertiesOf(hour) })] : [],
  );
  const waypoints = route.waypoints.map((waypoint) => point(waypoint, { what: 'waypoint', name: waypoint.name }));
  const last = lines.at(-1)?.at(-1);
  const end =
    last === undefined
      ? []
      : [
          point(last, {
            what: 'end',
            time: isoUtc(last.epochSeconds),
            complete: passage.complete,
            reason: passage.reason,
          }),
        ];
  const features = [...waypoints, ...hours, ...changes, ...end].map((feature) => JSON.stringify(feature));
  return `{"type":"FeatureCollection","features":[\n${features.join(',\n')}\n]}\n`;
}

function point(place: Pick<LinePoint, 'latDeg' | 'lonDeg'>, properties: Readonly<Record<string, unknown>>) {
  return { type: 'Feature', geometry: { type: 'Point', coordinates: lonLat(place) }, properties };
}

const lonLat = ({ latDeg, lonDeg }: Pick<LinePoint, 'latDeg' | 'lonDeg'>): readonly [number, number] => [
  Number(longitude(lonDeg)),
  Number(latitude(latDeg)),
];

const rounded = (value: number | null) => (value === null ? null : Number(value.toFixed(3)) + 0);

/** Named as in the hour log. */
function propertiesOf(hour: Hour) {
  return {
    time: hour.time,
    sail_plan: hour.sailPlan,
    sail_change: hour.sailChange,
    manner: hour.manner,
    daylight: hour.daylight,
    tws_kn: rounded(hour.twsKn),
    twd_deg: rounded(hour.twdDeg),
    gust_kn: rounded(hour.gustKn),
    twa_deg: rounded(hour.twaDeg),
    aws_kn: rounded(hour.awsKn),
    awa_deg: rounded(hour.awaDeg),
    smg_kn: rounded(hour.smgKn),
    run_nm: rounded(hour.runNm),
    margin_kn: rounded(hour.marginKn),
    runner_up: hour.runnerUp,
    wave_height_m: rounded(hour.waveHeightM),
  };
}
