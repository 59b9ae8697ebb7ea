/**
 * A position as people read it, to a tenth of a minute: `16°52.8'N 024°59.0'W`. Latitude and longitude in degrees, north
 * and east positive.
 */
export function positionText(latDeg: number, lonDeg: number): string {
  return `${degreesMinutes(latDeg, 'NS', 2)} ${degreesMinutes(lonDeg, 'EW', 3)}`;
}

function degreesMinutes(deg: number, letters: string, width: number): string {
  const tenths = Math.round(Math.abs(deg) * 600);
  const whole = Math.floor(tenths / 600);
  return `${`${whole}`.padStart(width, '0')}°${((tenths % 600) / 10).toFixed(1).padStart(4, '0')}'${deg < 0 ? letters[1] : letters[0]}`;
}
