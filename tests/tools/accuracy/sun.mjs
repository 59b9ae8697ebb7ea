import { Body, MakeTime, Observer, SearchRiseSet } from 'astronomy-engine';
import { sunTimesAt } from 'windwardrobe';
import manifest from '../../../package.json' with { type: 'json' };
import sun from '../../truth/sun.json' with { type: 'json' };
import { secondsOf } from './compare.mjs';

const ALMANAC = `astronomy-engine ${manifest.devDependencies['astronomy-engine']}`;
const SUN_YEARS = 21;
const SUN_DATES_A_YEAR = 5;

/** Sunrise and sunset against a reference library through the years, and against printed tables. */
export function sunRows() {
  const places = [-145, -30, -175, 85].flatMap((lonDeg) =>
    [-60, -50, -40, -30, -20, -10, 0, 10, 20, 30, 40, 50, 60]
      .filter((latDeg) => lonDeg !== 85 || latDeg <= 10)
      .map((latDeg) => ({ latDeg, lonDeg })),
  );
  const from = { strength: 'reference library', comparedWith: `${ALMANAC}, 2020 to 2040` };
  const within = (south, north) =>
    places.filter(({ latDeg }) => Math.abs(latDeg) >= south && Math.abs(latDeg) <= north).flatMap(offTheAlmanac);
  const why =
    'formulas good to 0.01° (2.4 s) and one size of the sun for the year (1 s), more where it sinks at a slant';
  const ofDay = (row) =>
    offTheTable(sunTimesAt((secondsOf(row.sunrise) + secondsOf(row.sunset)) / 2, row.latDeg, row.lonDeg), row);
  return [
    {
      id: 'sun-to-30',
      quantity: 'Sunrise and sunset at sea, to 30° of latitude',
      ...from,
      unit: 's',
      errors: within(0, 30),
      ceiling: 6,
      why,
    },
    {
      id: 'sun-40-to-60',
      quantity: 'Sunrise and sunset at sea, 40° to 60° of latitude',
      ...from,
      unit: 's',
      errors: within(40, 60),
      ceiling: 10,
      why,
    },
    {
      id: 'sun-printed-seconds',
      quantity: 'Sunrise and sunset, printed to a tenth of a second',
      comparedWith: 'NREL/TP-560-34302, table A2.1 (Reda & Andreas 2004)',
      strength: sun.spaTable.about.strength,
      unit: 's',
      errors: sun.spaTable.rows.flatMap(ofDay),
      ceiling: 5,
      why: 'as for the reference library',
    },
    {
      id: 'sun-worked-example',
      quantity: 'Sunrise and sunset, worked example',
      comparedWith: 'NREL/TP-560-34302, table A5.1, at second hand',
      strength: sun.spaExample.about.strength,
      unit: 's',
      errors: sun.spaExample.rows.flatMap(ofDay),
      ceiling: 5,
      why: 'as for the reference library, and printed to 3.6 s',
    },
    {
      id: 'sun-printed-minutes',
      quantity: 'Sunrise, table for 64°S to 50°N',
      comparedWith: 'aa.quae.nl, Position of the Sun: Tables, table 1',
      strength: sun.quae.about.strength,
      unit: 's',
      errors: sun.quae.rows.map((row) => {
        const times = sunTimesAt(secondsOf(`${sun.quae.date}T12:00Z`), row.latDeg, 0);
        return times.sunriseEpochSeconds - secondsOf(`${sun.quae.date}T${row.sunrise}Z`);
      }),
      ceiling: 35,
      why: 'printed to a whole minute, and as for the reference library',
    },
    {
      id: 'sun-observed',
      quantity: 'Sunset, seen from a deck 10 ft above the sea',
      comparedWith: 'one observation published in a navigation blog',
      strength: sun.observed.about.strength,
      unit: 's',
      errors: sun.observed.rows.map((row) => {
        const sunset = secondsOf(row.sunset);
        return sunTimesAt(sunset - 3600, row.latDeg, row.lonDeg).sunsetEpochSeconds - sunset;
      }),
      ceiling: 40,
      why: 'a dip of 3′ is left out (20 s); refraction at the horizon varies from day to day by a few minutes of arc',
    },
  ];
}

/** Sunrises and sunsets of one place through the years, less those of the almanac, in seconds. */
function offTheAlmanac({ latDeg, lonDeg }) {
  const observer = new Observer(latDeg, lonDeg, 0);
  return Array.from({ length: SUN_YEARS * SUN_DATES_A_YEAR }, (_, k) => {
    // 73 days are a fifth of a year; the rest spreads the places over the days between.
    const day = k * 73 + (((latDeg + 60) * 7 + Math.abs(lonDeg)) % 73);
    const midnight = Date.UTC(2020, 0, 1 + day) - lonDeg * 240_000;
    const crossing = (way) =>
      SearchRiseSet(Body.Sun, observer, way, MakeTime(new Date(midnight)), 1).date.toISOString();
    return offTheTable(sunTimesAt(midnight / 1000 + 43_200, latDeg, lonDeg), {
      sunrise: crossing(1),
      sunset: crossing(-1),
    });
  }).flat();
}

function offTheTable(times, { sunrise, sunset }) {
  return [times.sunriseEpochSeconds - secondsOf(sunrise), times.sunsetEpochSeconds - secondsOf(sunset)];
}
