import type { Sail } from '../boat/boat.js';
import { type Band, CLOTH_LIVES, type ClothName, type Figure, kindOf, WEAR } from '../catalogue/catalogue.js';
import { tenth } from '../units.js';
import type { WearConstant } from './record.js';

/** A range with where it comes from. */
export type Settled = Band & Pick<WearConstant, 'status' | 'source' | 'basis'>;

/** The constants of one sail that an owner may set. */
export interface SailConstants {
  readonly lifeHours: Settled;
  readonly designAwsKn: Settled;
  readonly loadExponent: Settled;
  readonly uvLossPerMonth: Settled;
  readonly uvCover: Settled;
  readonly floggingFactor: Settled;
}

/** What a sail is made of. */
export const clothOfSail = ({ kind, life }: Pick<Sail, 'kind' | 'life'>): ClothName | 'other' =>
  life?.cloth ?? kindOf(kind).cloth.life ?? 'other';

/** The constants of a sail: the owner's before those of its cloth; undefined where neither has one that is needed. */
export function constantsOf(sail: Pick<Sail, 'kind' | 'life'>): SailConstants | undefined {
  const { life = {} } = sail;
  const cloth = clothOfSail(sail);
  const usual = cloth === 'other' ? undefined : CLOTH_LIVES[cloth];
  const lifeHours = given(life.lifeHours) ?? settled(usual?.lifeHours);
  const designAwsKn = given(life.designAwsKn) ?? byWeight(sail, cloth);
  const uvLossPerMonth = given(life.uvLossPerMonth) ?? settled(usual?.uvLossPerMonth);
  if (lifeHours === undefined || designAwsKn === undefined || uvLossPerMonth === undefined) return undefined;
  return {
    lifeHours,
    designAwsKn,
    uvLossPerMonth,
    loadExponent: given(life.loadExponent) ?? settled(WEAR.loadExponent),
    uvCover: given(life.uvCover) ?? settled(WEAR.uvCover),
    floggingFactor: given(life.floggingFactor) ?? settled(WEAR.floggingFactor),
  };
}

/** What the cloth is made for at its weight: strength goes with weight, load with AWS². */
function byWeight({ kind, life }: Pick<Sail, 'kind' | 'life'>, cloth: ClothName | 'other'): Settled | undefined {
  if (cloth === 'other') return undefined;
  const { designAwsKn, weightGPerM2: usual } = CLOTH_LIVES[cloth];
  const isOfKind = life?.cloth === undefined || life.cloth === kindOf(kind).cloth.life;
  // Of another cloth than the kind's usual one the kind's weight says nothing.
  const weight = life?.weightGPerM2 ?? (isOfKind ? kindOf(kind).cloth.weightGPerM2.value : usual.value);
  const plain = settled(designAwsKn);
  if (weight === usual.value) return plain;
  const factor = Math.sqrt(weight / usual.value);
  const { low, mid, high, basis } = plain;
  return {
    ...plain,
    low: tenth(low * factor),
    mid: tenth(mid * factor),
    high: tenth(high * factor),
    basis: `${basis === undefined ? '' : `${basis}; `}× √(${weight} / ${usual.value} g/m²)`,
  };
}

const given = (value: number | undefined): Settled | undefined =>
  value === undefined ? undefined : { low: value, mid: value, high: value, status: 'boat-file' };

function settled(figure: Figure<Band>): Settled;
function settled(figure: Figure<Band> | undefined): Settled | undefined;
function settled(figure: Figure<Band> | undefined): Settled | undefined {
  if (figure === undefined) return undefined;
  const { value, ...origin } = figure;
  return { ...value, ...origin };
}
