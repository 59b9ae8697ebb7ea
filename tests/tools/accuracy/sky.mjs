import { Body, Illumination, MakeTime, Observer, SearchAltitude, SearchRiseSet } from 'astronomy-engine';
import { moonAt, moonTimesAt, twilightAt } from 'windwardrobe';
import manifest from '../../../package.json' with { type: 'json' };

const ALMANAC = `astronomy-engine ${manifest.devDependencies['astronomy-engine']}`;
const CIVIL_DEG = -6;
const DAYS = 7671;
const DAY_SECONDS = 86_400;

/** Civil twilight and the moon against a reference library through the years. */
export function skyRows() {
  const from = { strength: 'reference library', comparedWith: `${ALMANAC}, 2020 to 2040` };
  const near = placesBetween(0, 30);
  const far = placesBetween(40, 60);
  const whyMoon = 'series good to 0.01° (2.4 s), more where she rises at a slant';
  return [
    {
      id: 'twilight-to-30',
      quantity: 'Civil dawn and dusk at sea, to 30° of latitude',
      ...from,
      unit: 's',
      errors: near.flatMap(twilightsOff),
      ceiling: 6,
      why: 'formulas good to 0.01° (2.4 s), more where the sun sinks at a slant',
    },
    {
      id: 'twilight-40-to-60',
      quantity: 'Civil dawn and dusk at sea, 40° to 60° of latitude',
      ...from,
      unit: 's',
      errors: far.flatMap(twilightsOff),
      ceiling: 10,
      why: 'as above; in 60° the midsummer sun hardly sinks so far',
    },
    {
      id: 'moon-lit',
      quantity: 'Moon: share of the disc that is lit',
      ...from,
      unit: '',
      errors: everyDays(1.3).map(
        (epochSeconds) =>
          moonAt(epochSeconds, 0, 0).illuminatedShare -
          Illumination(Body.Moon, new Date(epochSeconds * 1000)).phase_fraction,
      ),
      ceiling: 0.00015,
      why: 'the angle between sun and earth seen from the moon is good to 0.015°',
    },
    {
      id: 'moon-to-30',
      quantity: 'Moonrise and moonset at sea, to 30° of latitude',
      ...from,
      unit: 's',
      errors: near.flatMap(moonsOff),
      ceiling: 3,
      why: whyMoon,
    },
    {
      id: 'moon-40-to-60',
      quantity: 'Moonrise and moonset at sea, 40° to 60° of latitude',
      ...from,
      unit: 's',
      errors: far.flatMap(moonsOff),
      ceiling: 7,
      why: whyMoon,
    },
  ];
}

function placesBetween(south, north) {
  return [-145, -30, 85].flatMap((lonDeg) =>
    [-60, -50, -40, -30, -20, -10, 0, 10, 20, 30, 40, 50, 60]
      .filter((latDeg) => Math.abs(latDeg) >= south && Math.abs(latDeg) <= north)
      .map((latDeg) => ({ latDeg, lonDeg })),
  );
}

function everyDays(step, offset = 0) {
  const first = Date.UTC(2020, 0, 1) / 1000;
  return Array.from(
    { length: Math.floor((DAYS - offset) / step) },
    (_, k) => first + (offset + k * step) * DAY_SECONDS,
  );
}

/** Local mean midnights of a place, 73 days apart; places are spread over the days between. */
function midnights({ latDeg, lonDeg }) {
  return everyDays(73, ((latDeg + 60) * 7 + Math.abs(lonDeg)) % 73).map((day) => day - lonDeg * 240);
}

/** Dawns and dusks less those of the almanac, in seconds. */
function twilightsOff(place) {
  const observer = new Observer(place.latDeg, place.lonDeg, 0);
  return midnights(place).flatMap((midnight) => {
    const times = twilightAt(midnight + DAY_SECONDS / 2, place.latDeg, place.lonDeg);
    // From midday backwards and forwards: a dusk may fall after midnight.
    const midday = MakeTime(new Date((midnight + DAY_SECONDS / 2) * 1000));
    return [
      times.dawnEpochSeconds - secondsAt(SearchAltitude(Body.Sun, observer, 1, midday, -0.6, CIVIL_DEG)),
      times.duskEpochSeconds - secondsAt(SearchAltitude(Body.Sun, observer, -1, midday, 0.6, CIVIL_DEG)),
    ];
  });
}

/** Moonrises and moonsets less those of the almanac, in seconds; NaN, which passes no ceiling, where only one has any. */
function moonsOff(place) {
  const observer = new Observer(place.latDeg, place.lonDeg, 0);
  return midnights(place).flatMap((midnight) => {
    const times = moonTimesAt(midnight + DAY_SECONDS / 2, place.latDeg, place.lonDeg);
    const pairs = [
      [times.moonriseEpochSeconds, 1],
      [times.moonsetEpochSeconds, -1],
    ].map(([ours, way]) => [ours, SearchRiseSet(Body.Moon, observer, way, MakeTime(new Date(midnight * 1000)), 1)]);
    return pairs
      .filter(([ours, theirs]) => ours !== undefined || theirs !== null)
      .map(([ours, theirs]) => (ours ?? Number.NaN) - secondsAt(theirs));
  });
}

const secondsAt = (time) => (time === null ? Number.NaN : time.date.getTime() / 1000);
