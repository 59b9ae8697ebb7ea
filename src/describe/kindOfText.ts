/** What a file may be. */
export type FileKind = 'route' | 'forecast' | 'climatology' | 'boat' | 'polars' | 'plan';

/** Bytes from which the kind of a file is seen. */
export const HEAD_BYTES = 65_536;

/** Columns of a polar file and of no other, the hour log of a plan aside. */
const POLAR_COLUMNS = ['sail_plan', 'tws_kn', 'twa_deg', 'stw_kn'];

/**
 * What a text is by its beginning; undefined for what is nothing of ours. CSV that is nothing else is a forecast, so that
 * what is wrong with its head is told. A climatology has a column of months, which may have another name.
 */
export function kindOfText(head: string, monthColumn = 'month'): FileKind | undefined {
  const text = head.replace(/^\uFEFF/, '').trimStart();
  if (text.startsWith('<')) return 'route';
  if (text.startsWith('{') || text.startsWith('[')) return kindOfJson(text);
  // No text has a zero byte; GRIB, NetCDF and UTF-16 have.
  if (text.includes('\0')) return undefined;
  const cells = (text.split(/\r?\n|\r/, 1)[0] ?? '').split(/[,;\t]/).map((cell) => cell.replaceAll('"', '').trim());
  const names = cells.map((cell) => cell.toLowerCase());
  const has = (...wanted: readonly string[]) => wanted.some((name) => names.includes(name));
  const hasTime = names.some((name) => /^(?:valid_?|date_?)?time\b|^\d{4}-\d\d-\d\d/.test(name));
  if (hasTime) return has('sail_plan') ? undefined : 'forecast';
  if (has(...POLAR_COLUMNS)) return 'polars';
  if (has('month', monthColumn.trim().toLowerCase())) return 'climatology';
  // A forecast has a time and a value beside latitude and longitude.
  if (has('to_next') || (has('lat', 'lon') && (has('name') || cells.length < 4))) return 'route';
  // A wide polar has winds over its columns.
  return cells.slice(1).some((cell) => cell !== '' && Number.isFinite(Number(cell))) ? 'polars' : 'forecast';
}

/** The beginning of a JSON text need not be whole: its keys tell. */
function kindOfJson(text: string): FileKind | undefined {
  if (/"(?:coordinates|geometry|features)"\s*:/.test(text)) return 'route';
  if (/"(?:sails|hull)"\s*:/.test(text) && !/"formatVersion"\s*:/.test(text)) return 'boat';
  // What `crossover` and `boat speeds` write is for programs.
  if (/"status"\s*:\s*"(?:measured|designed|estimated)"/.test(text)) return undefined;
  return /"formatVersion"\s*:/.test(text) && !/"boat"\s*:\s*\{/.test(text) ? 'plan' : undefined;
}
