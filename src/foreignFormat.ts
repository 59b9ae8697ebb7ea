/** How files begin that people have beside those that are read here. Bytes over 127 of what is no UTF-8 come as U+FFFD. */
const BEGINNINGS: readonly (readonly [beginning: RegExp, what: string])[] = [
  [/^\p{Cc}\ufffd\p{Cc}/u, 'a gzip archive: unpack it first'],
  [/^PK\p{Cc}\p{Cc}/u, 'a ZIP archive or a spreadsheet: unpack it, or save it as CSV'],
  [/^(?:BZh[1-9]|\ufffd7zXZ\0|7z\ufffd\ufffd|\(\ufffd\/\ufffd)/, 'a packed file: unpack it first'],
  [/^(?:GRIB|BUFR).{1,3}\p{Cc}/su, 'GRIB or BUFR, which is no text: make CSV of it first'],
  [/^(?:CDF\p{Cc}|\ufffdHDF\r\n)/u, 'NetCDF, which is no text: make CSV of it first'],
  [/^%PDF-/, 'a PDF'],
  [/^\0\0/, 'zero bytes, which no text has'],
  [/^\ufffd\ufffd(?:.\0|\0.)|^.\0.\0|^\0.\0./s, 'UTF-16: save it as UTF-8'],
];

/** So many characters tell. */
export const BEGINNING_LENGTH = 8;

/** What a file is that is no text in UTF-8, seen from its beginning as UTF-8; undefined for a text. */
export function foreignFormat(beginning: string): string | undefined {
  const start = beginning.slice(0, BEGINNING_LENGTH);
  return BEGINNINGS.find(([pattern]) => pattern.test(start))?.[1];
}
