import { KN_PER_MPS, M_PER_FOOT } from '../units.js';

/** A quantity as a forecast file holds it, by its name in the plain layout. */
export type Quantity =
  | 'u10'
  | 'v10'
  | 'wind_speed'
  | 'wind_from_direction'
  | 'gust'
  | 'current_u'
  | 'current_v'
  | 'current_speed'
  | 'current_to_direction'
  | 'wave_height'
  | 'wave_period'
  | 'wave_from_direction';

export type Dimension = 'speed' | 'direction' | 'length' | 'time';

/** Range in the library's unit, and the unit meant where nothing states one; without one it must be stated. */
export interface QuantityRule {
  readonly dimension: Dimension;
  readonly min: number;
  readonly max: number;
  readonly unit?: string;
  /** The quantity that must stand beside it. */
  readonly with?: Quantity;
}

export const RULES: Readonly<Record<Quantity, QuantityRule>> = {
  u10: { dimension: 'speed', min: -200, max: 200, unit: 'mps', with: 'v10' },
  v10: { dimension: 'speed', min: -200, max: 200, unit: 'mps', with: 'u10' },
  wind_speed: { dimension: 'speed', min: 0, max: 200, with: 'wind_from_direction' },
  wind_from_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg', with: 'wind_speed' },
  // Metres a second beside u10, whose publishers give it so; beside wind_speed the unit must be stated.
  gust: { dimension: 'speed', min: 0, max: 200 },
  current_u: { dimension: 'speed', min: -20, max: 20, unit: 'mps', with: 'current_v' },
  current_v: { dimension: 'speed', min: -20, max: 20, unit: 'mps', with: 'current_u' },
  current_speed: { dimension: 'speed', min: 0, max: 20, with: 'current_to_direction' },
  current_to_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg', with: 'current_speed' },
  wave_height: { dimension: 'length', min: 0, max: 40, unit: 'm' },
  wave_period: { dimension: 'time', min: 0, max: 60, unit: 's' },
  wave_from_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg' },
};

export const QUANTITIES = Object.keys(RULES) as Quantity[];

const KN_PER_KMH = 1 / 1.852;
const KN_PER_MPH = 1609.344 / 1852;

/** Units by dimension: what each is in the library's unit. The names are suffixes of columns. */
export const UNITS: Readonly<Record<Dimension, Readonly<Record<string, number>>>> = {
  speed: {
    kn: 1,
    kt: 1,
    kts: 1,
    knots: 1,
    mps: KN_PER_MPS,
    m_s: KN_PER_MPS,
    cmps: KN_PER_MPS / 100,
    kmh: KN_PER_KMH,
    km_h: KN_PER_KMH,
    mph: KN_PER_MPH,
  },
  direction: { deg: 1, degrees: 1 },
  length: { m: 1, ft: M_PER_FOOT },
  time: { s: 1 },
};

/** What publishers write in a row of units, in brackets behind a name, or a person behind `--column`, by our name for it. */
const SPELLINGS: Readonly<Record<string, string>> = {
  'm s-1': 'mps',
  'm s^-1': 'mps',
  'm s**-1': 'mps',
  'm.s-1': 'mps',
  'm/s': 'mps',
  'm/sec': 'mps',
  'meter/sec': 'mps',
  'meter second-1': 'mps',
  'meters/second': 'mps',
  'metres per second': 'mps',
  'meters per second': 'mps',
  'cm s-1': 'cmps',
  'cm/s': 'cmps',
  knot: 'kn',
  'km h-1': 'kmh',
  'km/h': 'kmh',
  degree: 'deg',
  degrees_true: 'deg',
  degree_true: 'deg',
  degt: 'deg',
  '°': 'deg',
  meter: 'm',
  meters: 'm',
  metre: 'm',
  metres: 'm',
  feet: 'ft',
  second: 's',
  seconds: 's',
  sec: 's',
};

/** The name among `UNITS` that a text means for a dimension; undefined where it means none. */
export function unitNamed(text: string, dimension: Dimension): string | undefined {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const name = Object.hasOwn(SPELLINGS, plain) ? SPELLINGS[plain]! : plain;
  return Object.hasOwn(UNITS[dimension], name) ? name : undefined;
}
