import type { Boat } from '../boat/boat.js';
import type { Fault } from '../errors.js';
import { says } from '../wording.js';
import type { Hour } from './log.js';

/** What the engine did in a passage. */
export interface Fuel {
  /** Hours under engine. */
  readonly motorHours: number;
  /** Burnt, litres: under engine, and for the batteries. */
  readonly motorLitres: number;
  readonly chargingLitres: number;
}

/** Fuel burnt in the hours of a log; none where the boat file tells of no engine. */
export function fuelOf(hours: readonly Hour[], { engine }: Pick<Boat, 'engine'>): Fuel {
  const { litresPerHour = 0, chargingHoursPerDay = 0 } = engine ?? {};
  const lasting = (some: readonly Hour[]) => some.reduce((sum, { minutes }) => sum + minutes / 60, 0);
  const motorHours = lasting(hours.filter(({ manner }) => manner === 'motor'));
  return {
    motorHours,
    motorLitres: motorHours * litresPerHour,
    chargingLitres: (lasting(hours) / 24) * chargingHoursPerDay * litresPerHour,
  };
}

/** A warning where the reserve is touched, be it by the batteries alone. */
export function fuelWarning(hours: readonly Hour[], boat: Pick<Boat, 'engine'>): Fault[] {
  const { fuelLitres = 0, reserveLitres = 0 } = boat.engine ?? {};
  const { motorLitres, chargingLitres } = fuelOf(hours, boat);
  const [most, burnt] = [fuelLitres - reserveLitres, motorLitres + chargingLitres];
  if (!(burnt > most + SMALL_LITRES)) return [];
  return [{ file: 'boat', path: 'engine', ...says.fuelReserve(most, reserveLitres, burnt, chargingLitres) }];
}

/** Rounding. */
const SMALL_LITRES = 1e-6;
