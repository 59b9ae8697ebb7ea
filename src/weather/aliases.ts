import type { Quantity } from './quantities.js';

/** What a publisher calls a quantity, the unit it has there where none is stated, and a turn for directions the other way. */
export interface Alias {
  readonly quantity: Quantity;
  readonly unit?: string;
  /** Added to a direction: 180 where the publisher's says "to" and ours "from". */
  readonly turnDeg?: number;
}

/** A quantity, the unit that goes without saying, names in lower case, and a turn. */
type AliasRow = readonly [quantity: Quantity, unit: string | undefined, names: string, turnDeg?: number];

/**
 * Other names of the quantities. Where a file has several columns for one quantity, its plain name comes first and then
 * the order of this table; the rest are not used. Names of standards and data services, from their public documentation: CF
 * standard names first, then the NCEP, ECMWF, CMEMS and HYCOM variable names. A unit is left out where the dimension has only
 * one that is usual; CF's speeds by themselves need theirs stated, as in the plain layout.
 */
const ROWS: readonly AliasRow[] = [
  ['u10', 'mps', 'eastward_wind ugrd10m ugrd_10maboveground 10u u10m u10n u-component_of_wind_height_above_ground uas'],
  [
    'v10',
    'mps',
    'northward_wind vgrd10m vgrd_10maboveground 10v v10m v10n v-component_of_wind_height_above_ground vas',
  ],
  ['wind_speed', 'mps', 'si10 10si sfcwind'],
  ['wind_from_direction', undefined, 'wdir10 10wdir'],
  ['wind_from_direction', undefined, 'wind_to_direction', 180],
  ['gust', undefined, 'wind_speed_of_gust'],
  ['gust', 'mps', 'gustsfc gust_surface fg10 10fg 10fg3 fg310 10fg6 fg610 wind_speed_gust_surface i10fg'],
  [
    'current_u',
    'mps',
    'eastward_sea_water_velocity surface_eastward_sea_water_velocity water_u uo utotal uogrd ocu uoe ucurr',
  ],
  [
    'current_v',
    'mps',
    'northward_sea_water_velocity surface_northward_sea_water_velocity water_v vo vtotal vogrd ocv von vcurr',
  ],
  ['current_speed', undefined, 'sea_water_speed'],
  ['current_to_direction', undefined, 'sea_water_velocity_to_direction'],
  ['current_to_direction', undefined, 'sea_water_velocity_from_direction', 180],
  ['wave_height', undefined, 'sea_surface_wave_significant_height vhm0 swh htsgw htsgwsfc htsgw_surface'],
  // The period of the peak before the mean.
  [
    'wave_period',
    undefined,
    'sea_surface_wave_period_at_variance_spectral_density_maximum sea_surface_wave_mean_period vtpk pp1d perpw perpwsfc perpw_surface vtm10 vtm02 mwp',
  ],
  ['wave_from_direction', undefined, 'sea_surface_wave_from_direction'],
  ['wave_from_direction', undefined, 'sea_surface_wave_to_direction', 180],
  ['wave_from_direction', undefined, 'vmdr mwd dirpw dirpwsfc dirpw_surface'],
];

const byName = (rows: readonly AliasRow[]): Readonly<Record<string, Alias>> =>
  Object.fromEntries(
    rows.flatMap(([quantity, unit, names, turnDeg]) =>
      names.split(' ').map((name) => {
        const turn = turnDeg === undefined ? {} : { turnDeg };
        return [name, { quantity, ...(unit === undefined ? {} : { unit }), ...turn }] as const;
      }),
    ),
  );

/** Each other name of a quantity, in the order of preference. */
export const ALIASES: Readonly<Record<string, Alias>> = byName(ROWS);

/** What a climatology has, and its names there: plain ones too, which in a forecast could be of any height. */
export const CLIMATE_QUANTITIES = ['u10', 'v10', 'wind_speed'] as const satisfies readonly Quantity[];
export const CLIMATE_ALIASES: Readonly<Record<string, Alias>> = byName([
  ['u10', 'mps', 'u uwnd'],
  ['v10', 'mps', 'v vwnd'],
  ['wind_speed', 'mps', 'wspd mean_speed speed scalar_wind'],
  ...ROWS.filter(([quantity]) => (CLIMATE_QUANTITIES as readonly Quantity[]).includes(quantity)),
]);

/** Names of the columns that say when and where. */
export const TIME_NAMES = ['time', 'valid_time', 'validtime', 'datetime', 'date_time'] as const;
export const RUN_NAMES = ['run_time', 'forecast_reference_time', 'reference_time', 'reftime', 'init_time'] as const;
/** Of a climatology: a month, or a date of which the month counts. */
export const MONTH_NAMES = ['month'] as const;
export const LAT_NAMES = ['lat', 'latitude'] as const;
export const LON_NAMES = ['lon', 'longitude'] as const;
export const MEMBER_NAMES = ['member', 'number', 'realization', 'ensemble_member'] as const;

/** Heights and depths. A file may hold one of them only; which, is the publisher's word. */
export const LEVEL_NAMES: ReadonlySet<string> = new Set([
  'height',
  'heightaboveground',
  'height_above_ground',
  'altitude',
  'depth',
  'lev',
  'level',
]);

/** Columns that stand in many files and say nothing more: they are passed over in silence. */
export const SILENT_NAMES: ReadonlySet<string> = new Set([
  '',
  'step',
  'surface',
  'meansea',
  'valid_time',
  'spatial_ref',
  'oceansurface',
  'expver',
]);

const [AT_10M, AT_SURFACE] = [['10 m above ground', '10 m above mean sea level', 'surface'], ['surface']];
const IN_WATER = ['surface', '0 m below sea level', '0 m below water surface'];

/**
 * What wgrib2 calls the quantities, and the levels at which they are meant, the better first: the wind of wave models stands
 * at "surface", and so do gusts.
 */
export const GRIB_NAMES: Readonly<Record<string, Alias & { readonly levels: readonly string[] }>> = {
  ugrd: { quantity: 'u10', unit: 'mps', levels: AT_10M },
  vgrd: { quantity: 'v10', unit: 'mps', levels: AT_10M },
  wind: { quantity: 'wind_speed', unit: 'mps', levels: AT_10M },
  wdir: { quantity: 'wind_from_direction', levels: AT_10M },
  gust: { quantity: 'gust', unit: 'mps', levels: ['surface', '10 m above ground'] },
  uogrd: { quantity: 'current_u', unit: 'mps', levels: IN_WATER },
  vogrd: { quantity: 'current_v', unit: 'mps', levels: IN_WATER },
  htsgw: { quantity: 'wave_height', levels: AT_SURFACE },
  perpw: { quantity: 'wave_period', levels: AT_SURFACE },
  mwsper: { quantity: 'wave_period', levels: AT_SURFACE },
  dirpw: { quantity: 'wave_from_direction', levels: AT_SURFACE },
};
