type LonLat = readonly [lonDeg: number, latDeg: number];

/**
 * A line of [longitude, latitude] in degrees, cut where it crosses the date line as RFC 7946 section 3.1.9 asks: the part
 * before ends on exactly +180 or −180, the next one begins on the other, at the latitude that is linear in longitude, and
 * no part crosses. Between points more than 180° of longitude apart the line is taken to go the other way round; points
 * may lie outside ±180 (170, 190). A point on ±180 is a cut only where the line goes on to the other side. An empty line
 * gives no parts.
 *
 * @example cutAtDateLine([[179, 10], [-179, 12]]) // [[[179, 10], [180, 11]], [[-180, 11], [-179, 12]]]
 */
export function cutAtDateLine(line: readonly LonLat[]): [number, number][][] {
  // Each longitude carried on past 180 is lon + 360 × turns; kept apart, so that longitudes come out as they went in.
  const turnsAt = turnsAlong(line);
  const lonIn = (turn: number, i: number) => line[i]![0] + 360 * (turnsAt[i]! - turn);
  let turn = firstTurn(line.map((_, i) => lonIn(0, i)));
  const parts: [number, number][][] = [];
  let part: [number, number][] = [];
  line.forEach(([, latDeg], i) => {
    while (i > 0 && Math.abs(lonIn(turn, i)) > 180) {
      const [fromDeg, toDeg, fromLatDeg] = [lonIn(turn, i - 1), lonIn(turn, i), line[i - 1]![1]];
      const edgeDeg = toDeg > 0 ? 180 : -180;
      const cutDeg = (fromLatDeg * (toDeg - edgeDeg) + latDeg * (edgeDeg - fromDeg)) / (toDeg - fromDeg);
      if (part.at(-1)![0] !== edgeDeg) part.push([edgeDeg, cutDeg]);
      part = [[-edgeDeg, part.at(-1)![1]]];
      parts.push(part);
      turn += Math.sign(edgeDeg);
    }
    if (i === 0) parts.push(part);
    part.push([lonIn(turn, i), latDeg]);
  });
  return parts;
}

/**
 * How many turns eastwards to add to the longitude of each point of a line, so that none is more than 180° from the one
 * before it: `lon + 360 × turns` then runs on across the date line.
 */
export function turnsAlong(line: readonly LonLat[]): readonly number[] {
  let turns = 0;
  return line.map(([lonDeg], i) => {
    const stepDeg = i === 0 ? 0 : lonDeg - line[i - 1]![0];
    if (Math.abs(stepDeg) > 180) turns -= Math.round(stepDeg / 360);
    return turns;
  });
}

/** The turn a line begins in. On the date line itself it is that of the side the line leaves to, if it leaves at all. */
function firstTurn(lonsDeg: readonly number[]): number {
  const startDeg = lonsDeg[0] ?? 0;
  const turn = Math.abs(startDeg) <= 180 ? 0 : Math.floor((startDeg + 180) / 360);
  const isOnEdge = Math.abs(startDeg - 360 * turn) === 180;
  const leavingDeg = isOnEdge ? lonsDeg.find((lonDeg) => lonDeg !== startDeg) : undefined;
  return leavingDeg === undefined ? turn : Math.floor(((startDeg + leavingDeg) / 2 + 180) / 360);
}
