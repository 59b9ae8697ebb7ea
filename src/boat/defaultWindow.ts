import { codeSailOf, type Figure, genoaOf, type KindOfSail } from '../catalogue/catalogue.js';
import { highestLimit, isLimit, type LimitByAngle, type Window } from '../sail/sail.js';
import { tenth } from '../units.js';
import type { BoatFile, SailGiven } from './boat.js';
import { type Defaults, filled, type Marks } from './fill.js';

/** The measures on which the defaults of a kind hang. */
export type Measures = Pick<SailGiven, 'midGirthRatio' | 'overlapPercent' | 'roachFactor'>;

/** The window of a sail: what is given of it, and the rest by the kind. */
export function windowOf(
  given: SailGiven,
  measures: Measures,
  entry: KindOfSail,
  { hull }: Pick<BoatFile, 'hull'>,
  marks: Marks,
): Window {
  const own = given.window ?? {};
  const usual = usualWindow(entry, measures, hull.type);
  const limits = inProportion(own, usual);
  const window = filled(own, { ...usual, ...limits } as unknown as Defaults, 'window', marks) as unknown as Window;
  const highest = highestLimit(window.awsMaxKn);
  // A default collapse speed is not to close a window.
  if (own.awsMinKn === undefined && isLimit(window.awsMinKn) && highest !== undefined && window.awsMinKn >= highest) {
    delete marks['window.awsMinKn'];
    return { ...window, awsMinKn: null };
  }
  return { awsMinKn: null, awsMaxKn: null, twsMaxKn: null, ...window };
}

type UsualWindow = KindOfSail['window'];

/** The window of a kind; of a code zero and a genoa moved by their measures, of a monohull's main said to be a catamaran's. */
export function usualWindow(
  entry: KindOfSail,
  { midGirthRatio, overlapPercent }: Measures,
  hull: BoatFile['hull']['type'],
): UsualWindow {
  const { kind, window, area } = entry;
  if (kind === 'code-zero' && midGirthRatio !== area.measures?.midGirthRatio?.value) {
    const { awaMinDeg, awaMaxDeg, awsMaxKn, twsMaxKn } = codeSailOf(midGirthRatio!);
    const on = (value: number | LimitByAngle) => ({
      value,
      // Its first and last rows are placeholders, its middle one has a source.
      status: 'placeholder' as const,
      source: 'S26' as const,
      basis: `the mid-girth scale at ${midGirthRatio!.toFixed(2)}`,
    });
    return {
      ...window,
      awaMinDeg: on(awaMinDeg) as Figure,
      awaMaxDeg: on(awaMaxDeg) as Figure,
      awsMaxKn: on(awsMaxKn),
      twsMaxKn: on(twsMaxKn) as Figure,
    };
  }
  if (kind === 'overlapping-genoa' && overlapPercent !== area.measures?.overlapPercent?.value) {
    const { awaMinDeg, awaMaxDeg, awsMaxKn } = genoaOf(overlapPercent!);
    const on = (value: number) => ({
      value,
      status: 'derived' as const,
      source: 'S32' as const,
      basis: `between the published 110 and 145 % and the usual 150 %, at ${overlapPercent} %`,
    });
    return { ...window, awaMinDeg: on(awaMinDeg), awaMaxDeg: on(awaMaxDeg), awsMaxKn: on(awsMaxKn) };
  }
  if (entry.place === 'mast' && hull === 'monohull') {
    return { ...window, awsMaxKn: asMonohull(window.awsMaxKn), twsMaxKn: asMonohull(window.twsMaxKn!) };
  }
  return window;
}

export const asMonohull = <Value>({ value }: Figure<Value>): Figure<Value> => ({
  value,
  status: 'placeholder',
  basis: 'the ladder of a catamaran; a monohull reefs at 20 to 25° of steady heel (common practice)',
});

type Limits = { readonly awsMaxKn?: Window['awsMaxKn']; readonly twsMaxKn?: number | null | undefined };
export type UsualLimits = {
  readonly awsMaxKn?: Figure<number | LimitByAngle | null>;
  readonly twsMaxKn?: Figure<number | null>;
};

/** Default gust limits where one of the two is given: the other in the catalogue's proportion to it. */
export function inProportion(own: Limits, usual: UsualLimits): UsualLimits {
  const { awsMaxKn, twsMaxKn } = usual;
  const byAws = factorOf(own.awsMaxKn, awsMaxKn?.value);
  const byTws = factorOf(own.twsMaxKn, twsMaxKn?.value);
  const beside = <Value extends number | LimitByAngle | null>(
    limit: Figure<Value>,
    factor: number | undefined,
    to: string,
  ) => (factor === undefined ? limit : scaled(limit, factor, to));
  return {
    ...(awsMaxKn === undefined ? {} : { awsMaxKn: beside(awsMaxKn, byTws, 'twsMaxKn') }),
    ...(twsMaxKn === undefined ? {} : { twsMaxKn: beside(twsMaxKn, byAws, 'awsMaxKn') }),
  };
}

/** A given limit over the default one; undefined where either is none. */
export function factorOf(own: Window['awsMaxKn'], usual: Window['awsMaxKn']): number | undefined {
  const [mine, theirs] = [highestLimit(own), highestLimit(usual)];
  return mine === undefined || theirs === undefined ? undefined : mine / theirs;
}

export function scaled<Value extends number | LimitByAngle | null>(
  { value, status }: Figure<Value>,
  factor: number,
  to: string,
): Figure<Value> {
  if (value === null) return { value, status, basis: 'none' };
  const kn = (limit: number) => Math.min(200, Math.max(1, tenth(limit * factor)));
  const more = typeof value === 'number' ? kn(value) : value.map(([angle, limit]) => [angle, kn(limit)] as const);
  return {
    value: more as Value,
    status: status === 'placeholder' ? 'placeholder' : 'derived',
    basis: `in the catalogue's proportion to ${to}`,
  };
}
