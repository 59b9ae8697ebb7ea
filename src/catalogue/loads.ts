import { KG_PER_LB, M_PER_FOOT } from '../units.js';

/** Sheet load per m² and kn² of apparent wind, kg: 0.00431 lb per ft² and kn² (S45: The Complete Rigger's Apprentice, p. 407). */
const SHEET_KG_PER_M2_KN2 = 0.02104;
const SHEET_LB_PER_FT2_KN2 = 0.00431;

/**
 * Load on the sheet of a close-hauled headsail, kg, by its area and the apparent wind (S45).
 * @example
 * sheetLoadKg(45, 30) // 852.1…
 */
export const sheetLoadKg = (areaM2: number, awsKn: number): number => SHEET_KG_PER_M2_KN2 * areaM2 * awsKn ** 2;

/**
 * Load on each clew of a spinnaker, kg: half a headsail's; a placeholder without a source.
 * @example
 * spinnakerSheetLoadKg(100, 18) // 340.8…
 */
export const spinnakerSheetLoadKg = (areaM2: number, awsKn: number): number => sheetLoadKg(areaM2, awsKn) / 2;

/**
 * Load on the mainsheet, kg: E² P² · 0.00431 · V² / (√(P² + E²) · (E − D)) in lb, ft and knots, D from the clew to where the sheet
 * holds the boom (S45). Undefined where the sheet would hold the boom at the mast or before it.
 * @example
 * mainsheetLoadKg(13.9, 4.9, 0.5, 25) // 940.8…
 * mainsheetLoadKg(13.9, 4.9, 4.9, 25) // undefined
 */
export function mainsheetLoadKg(pM: number, eM: number, clewToSheetM: number, awsKn: number): number | undefined {
  const [p, e, d] = [pM, eM, clewToSheetM].map((length) => length / M_PER_FOOT) as [number, number, number];
  if (e - d <= 0) return undefined;
  return ((e ** 2 * p ** 2 * SHEET_LB_PER_FT2_KN2 * awsKn ** 2) / (Math.hypot(p, e) * (e - d))) * KG_PER_LB;
}

/**
 * Load on a block over the load on its line, by the angle the line turns through: 2 · sin(turn / 2).
 * @example
 * blockLoadFactor(180) // 2
 * blockLoadFactor(90) // 1.41…
 */
export const blockLoadFactor = (turnDeg: number): number => 2 * Math.sin((turnDeg * Math.PI) / 360);
