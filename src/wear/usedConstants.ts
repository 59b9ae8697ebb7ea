import type { Boat, Sail } from '../boat/boat.js';
import { type Band, CLOTH_LIVES, CLOTHS, type Figure, type Origin, WEAR } from '../catalogue/catalogue.js';
import { clothOfSail, constantsOf } from './constants.js';
import type { WearConstant } from './record.js';
import { defaultPrice, hasDefaultPrices } from './sailWear.js';

/** Every constant that the wear of some sails is reckoned with: those of all sails, of each cloth among them, and what one sail has of its own. */
export function usedConstants(
  sails: readonly Sail[],
  boat: Pick<Boat, 'currency' | 'sails'>,
  ozoneDu: number,
): WearConstant[] {
  const cloths = CLOTHS.filter((cloth) => sails.some((sail) => clothOfSail(sail) === cloth));
  const lives = sails.flatMap(({ life }) => life ?? []);
  const inspected = lives.some(({ inspectedLeft }) => inspectedLeft !== undefined);
  const isUsed: Readonly<Record<string, boolean>> = {
    milesKn: lives.some(({ miles }) => miles !== undefined),
    hoursPerYear: lives.some(isByAgeAlone),
    inspectionError: inspected,
    recalibration: inspected,
  };
  return [
    ...commonConstants(ozoneDu).filter(({ name }) => isUsed[name] ?? true),
    ...cloths.flatMap((cloth) => {
      const { lifeHours, designAwsKn, uvLossPerMonth } = CLOTH_LIVES[cloth];
      return Object.entries({ lifeHours, designAwsKn, uvLossPerMonth }).map(([name, figure]) =>
        row(cloth, name, figure),
      );
    }),
    ...sails.flatMap((sail) => ofSail(sail, boat)),
  ];
}

/** Constants of wear that hang on no cloth, each with where it comes from. */
export function commonConstants(ozoneDu = WEAR.ozoneDu.value): (WearConstant & Origin)[] {
  const { reference, floggingMinutes, recalibration, milesKn, hoursPerYear, inspectionError, lookAt } = WEAR;
  const { loadExponent, uvCover, floggingFactor, slattingFactor, slattingAwsKn, slattingWaveM } = WEAR;
  const { latDeg, winds, perDay, daylight, uvShare, leastLoadShare } = reference;
  const [from, to] = daylight.value;
  const [least, most] = recalibration.value;
  const ozone: Figure =
    ozoneDu === WEAR.ozoneDu.value ? WEAR.ozoneDu : { value: ozoneDu, status: 'common-practice', basis: 'an option' };
  const named: Readonly<Record<string, Figure<number | Band>>> = {
    loadExponent,
    uvCover,
    ozoneDu: ozone,
    floggingFactor,
    slattingFactor,
    slattingAwsKn,
    slattingWaveM,
    ...prefixed('floggingMinutes', floggingMinutes),
    ...prefixed('reference', { hoursPerYear: reference.hoursPerYear, latDeg, uvShare, leastLoadShare }),
    ...prefixed('reference.perDay', perDay),
    ...prefixed('reference.daylight', { from: { ...daylight, value: from }, to: { ...daylight, value: to } }),
    ...prefixed(
      'reference.windShare',
      Object.fromEntries(winds.value.map(([ofDesign, share]) => [`${ofDesign * 100}%`, { ...winds, value: share }])),
    ),
    lookAt,
    milesKn,
    hoursPerYear,
    inspectionError,
    recalibration: { ...recalibration, value: { low: least, mid: 1, high: most } },
  };
  return Object.entries(named).map(([name, figure]) => row('all', name, figure));
}

const isByAgeAlone = ({ usedHours, miles, ageYears }: NonNullable<Sail['life']>) =>
  usedHours === undefined && miles === undefined && ageYears !== undefined;

const prefixed = (prefix: string, figures: Readonly<Record<string, Figure>>): Record<string, Figure> =>
  Object.fromEntries(Object.entries(figures).map(([name, figure]) => [`${prefix}.${name}`, figure]));

/** What a sail has that its cloth has not, and its price where that is the catalogue's. */
function ofSail(sail: Sail, boat: Pick<Boat, 'currency' | 'sails'>): WearConstant[] {
  const own = constantsOf(sail);
  const cloth = clothOfSail(sail);
  const usual = cloth === 'other' ? undefined : CLOTH_LIVES[cloth];
  const apart = Object.entries(own ?? {}).filter(
    ([name, { status, mid }]) =>
      status === 'boat-file' || (name === 'designAwsKn' && mid !== usual?.designAwsKn.value.mid),
  );
  const perM2 = sail.price === undefined && hasDefaultPrices(boat) ? defaultPrice(sail) : undefined;
  return [
    ...apart.map(([name, settled]) => ({ of: sail.id, name, ...settled })),
    ...(perM2 === undefined ? [] : [row(sail.id, 'eurPerM2', perM2)]),
  ];
}

function row(of: string, name: string, { value, status, source, basis }: Figure<number | Band>): WearConstant & Origin {
  const { low, mid, high } = typeof value === 'number' ? { low: value, mid: value, high: value } : value;
  const origin: Omit<Origin, 'status'> = {
    ...(source === undefined ? {} : { source }),
    ...(basis === undefined ? {} : { basis }),
  };
  return { of, name, low, mid, high, status, ...origin };
}
