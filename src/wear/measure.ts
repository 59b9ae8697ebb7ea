import { type Band, CLOTH_LIVES, WEAR } from '../catalogue/catalogue.js';
import type { SailConstants } from './constants.js';
import { type Keeping, REFERENCE_DESIGN_KN, referenceYear } from './reference.js';
import { type ClothHour, handlingSum, hoursSet, loadSum, uvSum } from './sums.js';

/** Which end of each constant is taken. */
export type Case = Readonly<Record<Uncertain, keyof Band>>;
const UNCERTAIN = [
  'lifeHours',
  'designAwsKn',
  'loadExponent',
  'uvLossPerMonth',
  'uvCover',
  'floggingFactor',
  'hoursPerYear',
  'inspection',
] as const;
type Uncertain = (typeof UNCERTAIN)[number];

/**
 * The middle of all constants first, then every choice of their ends: which of them wears most is not to be seen from one constant,
 * for all are scaled together.
 */
export const CASES: readonly Case[] = [
  casesOf(() => 'mid'),
  ...Array.from({ length: 2 ** UNCERTAIN.length }, (_, n) => casesOf((at) => ((n >> at) & 1 ? 'high' : 'low'))),
];

function casesOf(endOf: (at: number) => keyof Band): Case {
  return Object.fromEntries(UNCERTAIN.map((name, at) => [name, endOf(at)])) as Record<Uncertain, keyof Band>;
}

/** The three sums of a stretch of a sail's life, as shares of its life. */
export interface Sums {
  readonly load: number;
  readonly ultraviolet: number;
  readonly handling: number;
}

/** Measures stretches of one sail's life: of each the sums in a case. */
export interface Measure {
  readonly of: (hours: readonly ClothHour[]) => (at: Case) => Sums;
  /** What an hour in the open takes while it is not set, in the mean of the reference. */
  readonly stowedAnHour: (at: Case) => number;
}

/**
 * A maker of measures of sails' wear. The constants of a sail are scaled together, in each case for itself, so that the reference use
 * sums to 1 at the sail's life hours: an hour of flogging counts as so many of those hours; the sun takes its stated share of a woven
 * polyester main in her reference life, and of another cloth by how much faster that loses strength; load has what is left.
 */
export function measures(): (constants: SailConstants, keeping: Keeping) => Measure {
  const references = new Map<string, Reference>();
  const referenceOf = (keeping: Keeping): Reference => {
    const key = `${keeping.inTheOpen} ${keeping.daylightOnly}`;
    const known = references.get(key) ?? referenceAnHour(keeping);
    references.set(key, known);
    return known;
  };
  return (constants, keeping) => measureOf(constants, keeping, referenceOf);
}

function measureOf(constants: SailConstants, keeping: Keeping, referenceOf: (keeping: Keeping) => Reference): Measure {
  const [own, main] = [referenceOf(keeping), referenceOf({ inTheOpen: true, daylightOnly: false })];
  const woven = CLOTH_LIVES['woven-polyester'];
  const { uvShare, leastLoadShare } = WEAR.reference;
  const usualCover = (at: Case) => WEAR.uvCover.value[at.uvCover];
  const perUv = (at: Case) =>
    (uvShare.value * (constants.uvLossPerMonth[at.uvLossPerMonth] / woven.uvLossPerMonth.value.mid)) /
    (main.uv(usualCover(at)) * woven.lifeHours.value.mid);
  const factors = (at: Case): [number, number] => [
    constants.floggingFactor[at.floggingFactor],
    WEAR.slattingFactor.value[at.floggingFactor],
  ];
  const perLoad = (at: Case) => {
    const life = constants.lifeHours[at.lifeHours];
    const others = perUv(at) * own.uv(usualCover(at)) * life + own.handling(...factors(at));
    return Math.max(leastLoadShare.value, 1 - others) / (life * own.load(constants.loadExponent[at.loadExponent]));
  };
  return {
    of: (hours) => {
      const load = remembered((designKn, exponent) => loadSum(hours, designKn, exponent));
      const uv = remembered((cover) => uvSum(hours, cover));
      const handling = remembered((flogging, slatting) => handlingSum(hours, flogging, slatting));
      return (at) => ({
        load: perLoad(at) * load(constants.designAwsKn[at.designAwsKn], constants.loadExponent[at.loadExponent]),
        ultraviolet: perUv(at) * uv(constants.uvCover[at.uvCover]),
        handling: handling(...factors(at)) / constants.lifeHours[at.lifeHours],
      });
    },
    stowedAnHour: (at) => (keeping.inTheOpen ? perUv(at) * own.sunAnHourStowed() * constants.uvCover[at.uvCover] : 0),
  };
}

/** Sums of the reference use for each hour set. */
interface Reference {
  readonly load: (exponent: number) => number;
  readonly uv: (cover: number) => number;
  readonly handling: (flogging: number, slatting: number) => number;
  /** UV-index hours for each hour stowed. */
  readonly sunAnHourStowed: () => number;
}

function referenceAnHour(keeping: Keeping): Reference {
  const year = referenceYear(keeping);
  const hours = hoursSet(year);
  const stowed = year.filter(({ areaShare }) => areaShare === null).map((hour) => ({ ...hour, inTheOpen: true }));
  return {
    load: remembered((exponent) => loadSum(year, REFERENCE_DESIGN_KN, exponent) / hours),
    uv: remembered((cover) => uvSum(year, cover) / hours),
    handling: remembered((flogging, slatting) => handlingSum(year, flogging, slatting) / hours),
    sunAnHourStowed: remembered(() => uvSum(stowed, 1) / stowed.reduce((sum, { times }) => sum + times, 0)),
  };
}

/** A function of a few numbers that works out each of its values once: the cases ask for the same over and over. */
function remembered<Numbers extends readonly number[]>(of: (...numbers: Numbers) => number) {
  const known = new Map<string, number>();
  return (...numbers: Numbers): number => {
    const key = numbers.join();
    const value = known.get(key) ?? of(...numbers);
    known.set(key, value);
    return value;
  };
}
