import type { Polar } from '../polar/polar.js';
import { LEAST_BAND } from './assumptions.js';
import type { Estimate } from './record.js';

/** What an estimate rests on, in words for people. */
export function basisOf(
  { fittedTo, knownSpeeds, misfit, filledIn, resistance, pointsWithout }: Estimate,
  polars: {
    readonly plans: Readonly<Record<string, Polar>>;
    readonly low: Readonly<Record<string, Polar>>;
    readonly high: Readonly<Record<string, Polar>>;
  },
  isSplit: boolean,
  hasBands: boolean,
): readonly string[] {
  const placeholders = Object.entries(filledIn).filter(([, { status }]) => status === 'placeholder');
  const noEnd = pointsWithout.filter((plan) => plan.noEnd > 0);
  return [
    `Boat speeds are estimated from published sail force coefficients, ${isSplit ? 'fitted to the one polar of the boat and split between the plans' : FITTED[fittedTo]}; nobody measured them.`,
    ...(misfit === undefined
      ? []
      : [
          `Before the split the best plans miss the polar of the boat by ${misfit.meanPercent.toFixed(0)} % on the mean over ${misfit.points} points, at worst by ${signed(misfit.worstPercent)} % (TWS ${fixed(misfit.worstTwsKn)}, TWA ${fixed(misfit.worstTwaDeg)}). After it none is faster than the polar, and the best that may be carried makes its speed.`,
        ]),
    ...knownSpeeds.map(
      ({ sailPlan, twsKn, twaDeg, stwKn, estimatedKn }) =>
        `Known${isSplit ? ', and not fitted to' : ''}: ${fixed(stwKn)} kn under ${sailPlan} at TWS ${fixed(twsKn)}, TWA ${fixed(twaDeg)}; estimated ${estimatedKn.toFixed(1)} kn.`,
    ),
    ...(hasBands ? [bandText(polars)] : []),
    ...(resistance.scale < 0.5 || resistance.scale > 2
      ? [
          `The resistance had to be multiplied by ${resistance.scale.toFixed(2)} to meet what is known: look for a slip in areas, displacement, waterline or the known speeds.`,
        ]
      : []),
    ...noEnd.map(
      ({ sailPlan }) =>
        `Under ${sailPlan} no end of speed was found: look for a slip in areas, displacement or waterline.`,
    ),
    `Placeholders without a source among what was filled in: ${placeholders.map(([path, { value }]) => `${path} ${shown(value)}`).join(', ')}.`,
  ];
}

const FITTED: Readonly<Record<Estimate['fittedTo'], string>> = {
  nothing: 'fitted to nothing: no speed of this boat is known',
  scale: 'fitted to known speeds of one strength of wind, which fix the scale only',
  'scale and waves': 'fitted to known speeds of two strengths of wind',
  'scale, waves and exponent': 'fitted to known speeds of three and more strengths of wind',
};

/** Wind at which the band is told, of those estimated. */
const TOLD_TWS_KN = 16;

/** How wide the band is, over all plans and angles at one wind. */
function bandText({ plans, low, high }: Parameters<typeof basisOf>[1]): string {
  let [sum, down, up] = [0, 0, 0];
  let told = 0;
  for (const [id, polar] of Object.entries(plans)) {
    const j = polar.twsKn.reduce(
      (best, wind, i) => (Math.abs(wind - TOLD_TWS_KN) < Math.abs(polar.twsKn[best]! - TOLD_TWS_KN) ? i : best),
      0,
    );
    told = polar.twsKn[j]!;
    for (let i = j; i < polar.stwKn.length; i += polar.twsKn.length) {
      sum += polar.stwKn[i]!;
      down += polar.stwKn[i]! - low[id]!.stwKn[i]!;
      up += high[id]!.stwKn[i]! - polar.stwKn[i]!;
    }
  }
  const percent = (part: number) => ((100 * part) / Math.max(sum, 1e-9)).toFixed(0);
  return `What is assumed makes the speeds ${percent(down)} % lower to ${percent(up)} % higher on the mean at TWS ${fixed(told)}, and at least ${(100 * LEAST_BAND).toFixed(0)} % either way, what fitted estimates missed reported speeds by; the error of the coefficients themselves, of waves and of trim is not in it.`;
}

const fixed = (value: number) => `${Number(value.toFixed(1))}`;
const signed = (value: number) => `${value > 0 ? '+' : ''}${value.toFixed(0)}`;

function shown(value: unknown): string {
  if (typeof value === 'number') return `${Number(value.toPrecision(3))}`;
  return JSON.stringify(value);
}
