export { daylightAt, nightAround, type SunTimes, sunTimesAt } from './daylight.js';
export { MOON_PHASES, type Moon, type MoonPhase, moonAt } from './moon.js';
export { type MoonTimes, moonTimesAt } from './moonTimes.js';
export { type Twilight, twilightAt } from './twilight.js';
export { sunHeightDeg, uvIndexAt, uvIndexHours } from './ultraviolet.js';
