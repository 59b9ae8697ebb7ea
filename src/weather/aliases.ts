import type { Quantity } from './quantities.js';

/** What a publisher calls a quantity, the unit it has there where none is stated, and a turn for directions the other way. */
export interface Alias {
  readonly quantity: Quantity;
  readonly unit?: string;
  /** Added to a direction: 180 where the publisher's says "to" and ours "from". */
  readonly turnDeg?: number;
}

/**
 * Other names of the quantities, in lower case. Where a file has several columns for one quantity, its plain name comes
 * first and then the order of this table; the rest are not used. Names of standards and data services, from their public
 * documentation: CF standard names; the NCEP, ECMWF, CMEMS and HYCOM variable names.
 */
export const ALIASES: Readonly<Record<string, Alias>> = {
  // CF standard names. Speeds by themselves need their unit stated, as in the plain layout.
  eastward_wind: { quantity: 'u10', unit: 'mps' },
  northward_wind: { quantity: 'v10', unit: 'mps' },
  wind_to_direction: { quantity: 'wind_from_direction', turnDeg: 180 },
  wind_speed_of_gust: { quantity: 'gust' },
  eastward_sea_water_velocity: { quantity: 'current_u', unit: 'mps' },
  northward_sea_water_velocity: { quantity: 'current_v', unit: 'mps' },
  surface_eastward_sea_water_velocity: { quantity: 'current_u', unit: 'mps' },
  surface_northward_sea_water_velocity: { quantity: 'current_v', unit: 'mps' },
  sea_water_speed: { quantity: 'current_speed' },
  sea_water_velocity_to_direction: { quantity: 'current_to_direction' },
  sea_water_velocity_from_direction: { quantity: 'current_to_direction', turnDeg: 180 },
  sea_surface_wave_significant_height: { quantity: 'wave_height' },
  sea_surface_wave_period_at_variance_spectral_density_maximum: { quantity: 'wave_period' },
  sea_surface_wave_mean_period: { quantity: 'wave_period' },
  sea_surface_wave_from_direction: { quantity: 'wave_from_direction' },
  sea_surface_wave_to_direction: { quantity: 'wave_from_direction', turnDeg: 180 },
  // Wind at 10 m.
  ugrd10m: { quantity: 'u10', unit: 'mps' },
  vgrd10m: { quantity: 'v10', unit: 'mps' },
  ugrd_10maboveground: { quantity: 'u10', unit: 'mps' },
  vgrd_10maboveground: { quantity: 'v10', unit: 'mps' },
  '10u': { quantity: 'u10', unit: 'mps' },
  '10v': { quantity: 'v10', unit: 'mps' },
  u10m: { quantity: 'u10', unit: 'mps' },
  v10m: { quantity: 'v10', unit: 'mps' },
  u10n: { quantity: 'u10', unit: 'mps' },
  v10n: { quantity: 'v10', unit: 'mps' },
  'u-component_of_wind_height_above_ground': { quantity: 'u10', unit: 'mps' },
  'v-component_of_wind_height_above_ground': { quantity: 'v10', unit: 'mps' },
  uas: { quantity: 'u10', unit: 'mps' },
  vas: { quantity: 'v10', unit: 'mps' },
  si10: { quantity: 'wind_speed', unit: 'mps' },
  '10si': { quantity: 'wind_speed', unit: 'mps' },
  sfcwind: { quantity: 'wind_speed', unit: 'mps' },
  wdir10: { quantity: 'wind_from_direction' },
  '10wdir': { quantity: 'wind_from_direction' },
  // Gust.
  gustsfc: { quantity: 'gust', unit: 'mps' },
  gust_surface: { quantity: 'gust', unit: 'mps' },
  fg10: { quantity: 'gust', unit: 'mps' },
  '10fg': { quantity: 'gust', unit: 'mps' },
  '10fg3': { quantity: 'gust', unit: 'mps' },
  fg310: { quantity: 'gust', unit: 'mps' },
  '10fg6': { quantity: 'gust', unit: 'mps' },
  fg610: { quantity: 'gust', unit: 'mps' },
  wind_speed_gust_surface: { quantity: 'gust', unit: 'mps' },
  i10fg: { quantity: 'gust', unit: 'mps' },
  // Surface current.
  water_u: { quantity: 'current_u', unit: 'mps' },
  water_v: { quantity: 'current_v', unit: 'mps' },
  uo: { quantity: 'current_u', unit: 'mps' },
  vo: { quantity: 'current_v', unit: 'mps' },
  utotal: { quantity: 'current_u', unit: 'mps' },
  vtotal: { quantity: 'current_v', unit: 'mps' },
  uogrd: { quantity: 'current_u', unit: 'mps' },
  vogrd: { quantity: 'current_v', unit: 'mps' },
  ocu: { quantity: 'current_u', unit: 'mps' },
  ocv: { quantity: 'current_v', unit: 'mps' },
  uoe: { quantity: 'current_u', unit: 'mps' },
  von: { quantity: 'current_v', unit: 'mps' },
  ucurr: { quantity: 'current_u', unit: 'mps' },
  vcurr: { quantity: 'current_v', unit: 'mps' },
  // Waves: significant height, period (of the peak before the mean), direction they come from.
  vhm0: { quantity: 'wave_height' },
  swh: { quantity: 'wave_height' },
  htsgw: { quantity: 'wave_height' },
  htsgwsfc: { quantity: 'wave_height' },
  htsgw_surface: { quantity: 'wave_height' },
  vtpk: { quantity: 'wave_period' },
  pp1d: { quantity: 'wave_period' },
  perpw: { quantity: 'wave_period' },
  perpwsfc: { quantity: 'wave_period' },
  perpw_surface: { quantity: 'wave_period' },
  vtm10: { quantity: 'wave_period' },
  vtm02: { quantity: 'wave_period' },
  mwp: { quantity: 'wave_period' },
  vmdr: { quantity: 'wave_from_direction' },
  mwd: { quantity: 'wave_from_direction' },
  dirpw: { quantity: 'wave_from_direction' },
  dirpwsfc: { quantity: 'wave_from_direction' },
  dirpw_surface: { quantity: 'wave_from_direction' },
};

/** Names of the columns that say when and where. */
export const TIME_NAMES = ['time', 'valid_time', 'validtime', 'datetime', 'date_time'] as const;
export const RUN_NAMES = ['run_time', 'forecast_reference_time', 'reference_time', 'reftime', 'init_time'] as const;
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

/**
 * What wgrib2 calls the quantities, and the levels at which they are meant, the better first: the wind of wave models stands
 * at "surface", and so do gusts.
 */
export const GRIB_NAMES: Readonly<Record<string, Alias & { readonly levels: readonly string[] }>> = {
  ugrd: { quantity: 'u10', unit: 'mps', levels: ['10 m above ground', '10 m above mean sea level', 'surface'] },
  vgrd: { quantity: 'v10', unit: 'mps', levels: ['10 m above ground', '10 m above mean sea level', 'surface'] },
  wind: { quantity: 'wind_speed', unit: 'mps', levels: ['10 m above ground', '10 m above mean sea level', 'surface'] },
  wdir: { quantity: 'wind_from_direction', levels: ['10 m above ground', '10 m above mean sea level', 'surface'] },
  gust: { quantity: 'gust', unit: 'mps', levels: ['surface', '10 m above ground'] },
  uogrd: { quantity: 'current_u', unit: 'mps', levels: ['surface', '0 m below sea level', '0 m below water surface'] },
  vogrd: { quantity: 'current_v', unit: 'mps', levels: ['surface', '0 m below sea level', '0 m below water surface'] },
  htsgw: { quantity: 'wave_height', levels: ['surface'] },
  perpw: { quantity: 'wave_period', levels: ['surface'] },
  mwsper: { quantity: 'wave_period', levels: ['surface'] },
  dirpw: { quantity: 'wave_from_direction', levels: ['surface'] },
};
