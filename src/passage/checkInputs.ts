import { type Boat, checkCompleteBoat } from '../boat/boat.js';
import { type FaultList, faultList } from '../errors.js';
import { checkTypes, isGiven } from '../given.js';
import { checkPolars, type PolarSet } from '../polar/polar.js';
import type { Route } from '../route/route.js';
import { checkClimatology, checkForecast } from '../weather/weather.js';
import { says } from '../wording.js';
import type { SkyInputs } from './sky.js';

// Records made in memory pass no reader's door: they are checked here, so that no number of the log can be none.

interface Voyage {
  readonly route: Route;
  readonly boat: Boat;
  readonly polars: PolarSet;
}

/** Checks all that a passage is planned from. */
export function checkInputs(inputs: Voyage & SkyInputs): void {
  checkTypes(inputs, {}, 'inputs');
  const faults = faultList();
  addVoyage(inputs, faults);
  addWeather(inputs, faults);
  faults.throwIfAny();
}

/** Checks route, boat and polars. */
export function checkVoyage(voyage: Voyage): void {
  checkTypes(voyage, {}, 'voyage');
  const faults = faultList();
  addVoyage(voyage, faults);
  faults.throwIfAny();
}

/** Checks a forecast, a climatology, or both. */
export function checkWeather(weather: SkyInputs): void {
  checkTypes(weather, {}, 'weather');
  const faults = faultList();
  addWeather(weather, faults);
  faults.throwIfAny();
}

function addVoyage({ route, boat, polars }: Voyage, faults: FaultList): void {
  isGiven(route, 'waypoints', 'route', 'readRoute', faults);
  checkCompleteBoat(boat, 'boat', faults);
  checkPolars(polars, 'polars', faults);
}

function addWeather({ forecast, climatology }: SkyInputs, faults: FaultList): void {
  if (forecast !== undefined) checkForecast(forecast, faults);
  if (climatology !== undefined) checkClimatology(climatology, faults);
  if (forecast === undefined && climatology === undefined) faults.add({ file: 'inputs', ...says.noWeather() });
}
