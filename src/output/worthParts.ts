import type { Metric } from '../study/study.js';
import type { Comparison, Flown, MeanRange, Turn, Worth } from '../worth/worth.js';
import { CAUTION } from './caution.js';
import { fixed, UNNAMED_CURRENCY } from './format.js';
import { visible } from './markdown.js';
import { moneyText, windText } from './verdictText.js';

/** How many of the passages were not compared, and the caution. */
export function worthFirstLine({ passages }: Pick<Comparison, 'passages'>, hasClimatology: boolean): string {
  const { paired, both, onlyA, onlyB } = passages;
  return [
    ...(both === paired
      ? []
      : [
          `${paired - both} OF ${paired} PASSAGES NOT COMPARED: ${onlyA} only A finished, ${onlyB} only B, ${paired - both - onlyA - onlyB} neither.`,
        ]),
    ...(hasClimatology ? ['NOT A FORECAST, or not alone: wind of a climatology.'] : []),
    CAUTION,
  ].join(' ');
}

/** Metrics as a table tells them, in their order. */
export const TOLD: readonly (readonly [Metric, string, number])[] = [
  ['hours', 'hours under way', 2],
  ['changes', 'sail changes', 2],
  ['night-changes', 'of these by night', 2],
  ['waking-changes', 'of these waking the watch', 2],
  ['operations', 'operations', 2],
  ['hand-hours', 'hands × hours at them', 2],
  ['reefs', 'reefs taken', 2],
  ['tacks', 'tacks', 2],
  ['gybes', 'gybes', 2],
  ['motor-hours', 'motor hours', 2],
  ['fuel-litres', 'fuel, l', 2],
  ['without-main-hours', 'hours without main', 2],
  ['knife-edge-hours', 'hours on a knife’s edge', 2],
  ['near-limit-hours', 'hours near the limit', 2],
  ['hove-to-hours', 'hours hove to', 2],
  ['wear-money', 'wear of sails, money', 0],
];

/** A metric's name in a table; money with its currency. */
export const nameIn = ([metric, name]: (typeof TOLD)[number], { currency }: Pick<Comparison, 'currency'>): string =>
  metric === 'wear-money' ? `wear of sails, ${currency ?? UNNAMED_CURRENCY}` : name;

/** The ends of a mean in brackets; nothing where they are not known. */
export const endsText = ({ low, high }: MeanRange, decimals: number) =>
  low === null || high === null ? '' : `${fixed(low, decimals)} to ${fixed(high, decimals)}`;

/** A share in whole percent. */
export const sharePercent = (share: number) => `${fixed(100 * share, 0)} %`;

/** Competitors of which nothing can be told. */
export const unfinishedLines = ({ rivalsUnfinished }: Worth): string[] =>
  rivalsUnfinished.map((name) => `${visible(name)} finishes none of the passages that A finishes.`);

/** Whether some of the wind was a climatology's. */
export const isByClimatology = ({ differences }: Comparison) => (differences['climatology-hours']?.a ?? 0) > 0;

/** With its sign; nothing of a zero. */
export const signed = (value: number, decimals: number): string =>
  `${Number(value.toFixed(decimals)) > 0 ? '+' : ''}${fixed(value, decimals)}`;

/** What a new sail did. */
export function flownText({
  id,
  hours,
  days,
  nightHours,
  shareOfHours,
  shareOfPassages,
  hoists,
  winds,
}: Flown): string {
  if (hours.mean === 0) return `${id} was never set.`;
  const [first, ...more] = winds.slice(0, 3).map((cell) => `${windText(cell)} (${fixed(cell.hours, 1)} h)`);
  const by = [
    `${id} flew ${fixed(hours.mean, 1)} h of a passage${fixed(hours.p5, 0) === fixed(hours.p95, 0) ? '' : ` (${fixed(hours.p5, 0)} to ${fixed(hours.p95, 0)} in nine of ten)`}, ${sharePercent(shareOfHours)} of the hours, in ${sharePercent(shareOfPassages)} of the passages`,
    ...(days === null ? [] : [`on ${fixed(days, 1)} days`]),
    ...(nightHours === null ? [] : [`${fixed(nightHours, 1)} h by night`]),
    ...(hoists === null ? [] : [`set ${fixed(hoists, 1)} times on the way`]),
  ].join(', ');
  return first === undefined ? `${by}.` : `${by}; most in ${[first, ...more].join(', ')}.`;
}

/** What an input is called. */
export const INPUTS: Readonly<Record<Turn['input'], string>> = {
  'speed-band': 'speed under the new sail',
  'coefficient-edition': 'edition of the coefficients',
  'set-without-main': 'force of a sail set flying without a main',
  shadow: 'shadow of the main',
  'wave-exponent': 'wave resistance',
  'gust-margin': 'margin on gusts',
  night: 'nights',
  price: 'price',
  'hour-value': 'value of an hour',
  'night-change-value': 'value of a night change',
  'litre-price': 'price of a litre',
  tears: 'chance of tearing it',
  resale: 'resale',
  'miles-per-year': 'miles a year',
  'own-wear': 'wear of the new sail',
  'wear-of-others': 'wear of the other sails',
};

/** Whether the answer is in money. */
const byNet = ({ verdict }: Worth) => verdict.by === 'net';

/** The answer at an end of an input. */
export const endText = ({ hours, net }: Turn['usual'], worth: Worth) =>
  byNet(worth) || (hours === 0 && net !== null)
    ? moneyText(net ?? 0, worth.currency)
    : `${signed(hours, 2)} h${net === null ? '' : `, ${moneyText(net, worth.currency)}`}`;
