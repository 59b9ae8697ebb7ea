import { mustBeGiven } from '../given.js';
import type { Crossover, Hole, Region, SailUse, WindsAndAngles, WithoutSail } from './record.js';

/** The two questions an owner asks of a crossover, answered in sentences. */
export interface Answers {
  /** Which of my sails stays in the bag? */
  readonly staysInTheBag: readonly string[];
  /** Where have I no sail? */
  readonly noSail: readonly string[];
}

/**
 * The answers a crossover gives, in words.
 * @throws InputError where it is none
 * @example
 * answersOf(sample.crossover).staysInTheBag[0] // 'None: every sail aboard is part of the fastest plan somewhere.'
 */
export function answersOf(crossover: Crossover): Answers {
  mustBeGiven(crossover, 'withoutSail', 'crossover', 'crossoverOf');
  return { staysInTheBag: bagAnswers(crossover), noSail: holeAnswers(crossover) };
}

function bagAnswers({ sails, options }: Crossover): string[] {
  const never = sails.filter(({ bestCells, isStormSail }) => bestCells === 0 && !isStormSail);
  const storm = sails.filter(({ bestCells, isStormSail }) => bestCells === 0 && isStormSail).map(({ id }) => id);
  const when = options.night ? ' by night' : '';
  const every = storm.length === 0 ? 'every sail aboard' : 'every sail aboard but those for a storm';
  return [
    ...(never.length === 0 ? [`None: ${every} is part of the fastest plan somewhere${when}.`] : never.map(bagAnswer)),
    ...(storm.length === 0
      ? []
      : [`${storm.join(', ')}: never the fastest here, and aboard for safety, not for speed.`]),
  ];
}

function bagAnswer({ id, nearest, setNowhere }: SailUse): string {
  if (nearest === null) return `${id}: ${SET_NOWHERE[setNowhere ?? 'not-carried']}.`;
  const { twsKn, twaDeg, sailPlan, fastest, slowerPercent, bestIf } = nearest;
  const where = `TWS ${knots(twsKn)}, TWA ${twaDeg}`;
  const turn = bestIf.length === 0 ? '' : ` The estimate cannot rule out that it is: if ${bestIf.join(', or if ')}.`;
  return `${id}: never part of the fastest plan; nearest at ${where}, where ${sailPlan} is ${percent(slowerPercent)} slower than ${fastest}.${turn}`;
}

const SET_NOWHERE: Readonly<Record<NonNullable<SailUse['setNowhere']>, string>> = {
  'left-out': 'left out, as asked',
  night: 'not set in the dark',
  'no-plan': 'in no sail plan',
  'no-speeds': 'no plan with it has a polar',
  'not-carried': 'no plan with it may be carried and makes way anywhere here',
};

const MOST_TOLD = 4;

function holeAnswers(crossover: Crossover): string[] {
  return [...crossover.withoutSail.slice(0, MOST_TOLD).map(withoutSailAnswer), ...slowAnswers(crossover)];
}

const withoutSailAnswer = (region: WithoutSail): string =>
  `${placeOf(region)}: no plan under sail may be carried and makes way.`;

function slowAnswers({ holes, holesUnknown, options, withoutSail }: Crossover): string[] {
  if (holesUnknown !== null) {
    return [`Not known: a catalogue sail beside those aboard is estimated, and for that ${holesUnknown}.`];
  }
  if (holes.length === 0) {
    const where = withoutSail.length === 0 ? 'Nowhere' : 'Otherwise nowhere';
    return [
      `${where}: the plans aboard are never ${options.holePercent} % slower than a catalogue sail would be; mains and storm sails are not tried.`,
    ];
  }
  const more = holes.length - MOST_TOLD;
  return [
    ...holes.slice(0, MOST_TOLD).map(holeAnswer),
    ...(more > 0 ? [`And ${more} smaller ${more === 1 ? 'region' : 'regions'}.`] : []),
  ];
}

/** A gap that the helm closes: a placeholder. */
const NARROW_DEG = 10;

function holeAnswer(hole: Hole): string {
  const { awaDeg, kinds, deepest, certain } = hole;
  const [most] = kinds;
  const others = kinds.slice(1, 3);
  const apparent = awaDeg === null ? '' : `, AWA ${awaDeg[0].toFixed(0)} to ${awaDeg[1].toFixed(0)}`;
  const aboard =
    deepest.aboardKn === 0
      ? 'no plan aboard makes way'
      : `the best plan aboard makes ${deepest.aboardKn.toFixed(1)} kn`;
  const parts = others.length === 0 ? '' : ` (in parts ${others.map(withArticle).join(', ')})`;
  const [from, to] = hole.twaDeg;
  return [
    `${placeOf(hole, apparent)}: ${withArticle(most!)} would be much faster${parts}.`,
    `Deepest at TWS ${knots(deepest.twsKn)}, TWA ${deepest.twaDeg}, where ${aboard} and ${withArticle(deepest.kind)} would make ${deepest.stwKn.toFixed(1)} kn.`,
    ...(certain ? [] : ['Not all of it is certain within the bands of the estimate.']),
    ...(to - from > NARROW_DEG
      ? []
      : ['So narrow a gap is also got over by steering a little closer and a little freer in turn.']),
  ].join(' ');
}

/** Where a region is: its spans where it fills them, else where it is whole, and that it is in parts of them. */
function placeOf(region: Region, apparent = ''): string {
  const told = ({ twsKn, twaDeg }: WindsAndAngles) => `TWS ${span(twsKn)}, TWA ${span(twaDeg)}`;
  const [all, whole] = [told(region), told(region.throughout)];
  return all === whole ? `${all}${apparent}` : `Throughout ${whole}, and in parts of ${all}${apparent}`;
}

const span = ([from, to]: readonly [number, number]) => (from === to ? knots(from) : `${knots(from)} to ${knots(to)}`);
/** A kind of sail with its article, as it is said. */
export const withArticle = (kind: string) => `${/^[aeo]/.test(kind) ? 'an' : 'a'} ${kind}`;
const knots = (kn: number) => `${Number(kn.toFixed(1))}`;
const percent = (value: number) => (value < 0.05 ? 'under 0.1 %' : `${value.toFixed(1)} %`);
