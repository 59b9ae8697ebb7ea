/** The smallest inputs that make a whole passage; tests break them one at a time. */

/** Two waypoints, 66 Nm apart. */
export const ROUTE = `name,lat,lon,to_next
Start,11.5,-60.5,rhumb
End,11,-61.5,
`;

/** Midnight, 06, 12 and 18 h and the next midnight. */
export const TIMES: readonly string[] = [
  '2027-01-10T00:00Z',
  '2027-01-10T06:00Z',
  '2027-01-10T12:00Z',
  '2027-01-10T18:00Z',
  '2027-01-11T00:00Z',
];

/** Cells after time, latitude and longitude at a grid point. */
export type CellsAt = (time: string, latDeg: number, lonDeg: number) => readonly (string | number)[];

/** A forecast over 10 to 12 N and 62 to 60 W: for each time four rows, (10, -62), (10, -60), (12, -62), (12, -60). */
export function forecastCsv(columns: string, cellsAt: CellsAt, times: readonly string[] = TIMES): string {
  const rows = times.flatMap((time) =>
    [10, 12].flatMap((lat) => [-62, -60].map((lon) => [time, lat, lon, ...cellsAt(time, lat, lon)].join(','))),
  );
  return `${[`time,lat,lon,${columns}`, ...rows].join('\n')}\n`;
}

/** The same cells at every point and time. */
export const always =
  (...cells: readonly (string | number)[]): CellsAt =>
  () =>
    cells;

/** A steady easterly of about 16 kn with everything a forecast may have: 20 rows. */
export const FORECAST = forecastCsv(
  'u10,v10,gust,current_u,current_v,wave_height,wave_period,wave_from_direction',
  always(-8, 1, 10.5, -0.25, 0.125, 1.75, 8, 80),
);

/** Only the wind of it. */
export const WIND = forecastCsv('u10,v10', always(-8, 1));

export const BOAT = `{
  "name": "Test boat",
  "currency": "EUR",
  "crew": 3,
  "hull": { "type": "catamaran", "waterlineM": 13.1, "hullCentresM": 6 },
  "polars": "polars.csv",
  "sails": [
    {
      "id": "main", "kind": "square-top-main", "areaM2": 78,
      "window": { "awaMinDeg": 28, "awaMaxDeg": 180, "awsMinKn": 2, "awsMaxKn": [[60, 50], [180, 45]] },
      "reefs": [{ "areaShare": 0.78 }, { "areaShare": 0.58 }]
    },
    { "id": "jib", "kind": "self-tacking-jib", "areaM2": 42, "window": { "awaMinDeg": 28, "awaMaxDeg": 120 } },
    { "id": "poled-jib", "kind": "poled-out-headsail", "clothOf": "jib", "window": { "awaMinDeg": 135, "awaMaxDeg": 180 } }
  ],
  "sailPlans": [
    { "id": "main", "sails": ["main"] },
    { "id": "reef1+jib", "sails": ["main:1", "jib"] }
  ],
  "house": { "gustFactor": 1.3 }
}
`;

export const POLARS = `sail_plan,tws_kn,twa_deg,stw_kn
main,6,40,3
main,6,180,3.5
main,30,40,8
main,30,180,9
reef1+jib,6,40,2.5
reef1+jib,6,180,3
reef1+jib,30,40,7.5
reef1+jib,30,180,8.5
`;

/** A text with one piece changed. Fails where the piece is not there or there twice: the test would break something else. */
export function changed(text: string, from: string, to: string): string {
  const places = text.split(from).length - 1;
  if (places !== 1) throw new Error(`${JSON.stringify(from)} stands ${places} times in the text`);
  return text.replace(from, () => to);
}
