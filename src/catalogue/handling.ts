import { type Figure, placeholder, sourced } from './figure.js';

/**
 * How a sail is set and taken away.
 * @example
 * SET_BY // ['furler', 'snuffer', 'halyard', 'track']
 */
export const SET_BY = ['furler', 'snuffer', 'halyard', 'track'] as const;
/** One way of setting a sail. */
export type SetBy = (typeof SET_BY)[number];

/**
 * What a sail change is made of.
 * @example
 * OPERATIONS // ['set', 'douse', 'unfurl', 'furl', 'reef', 'shakeOut']
 */
export const OPERATIONS = ['set', 'douse', 'unfurl', 'furl', 'reef', 'shakeOut'] as const;
/** One operation of a sail change. */
export type Operation = (typeof OPERATIONS)[number];

/** What an operation takes, as plain values or as figures. */
export interface Effort<Value = number> {
  readonly minutes: Value;
  readonly hands: Value;
  /** Share, 0 to 1, of the slower sail plan's speed that the boat keeps meanwhile. */
  readonly keptShare: Value;
}

/** An operation by day and by night. */
export interface DayAndNight<Value = number> {
  readonly day: Effort<Value>;
  readonly night: Effort<Value>;
}

/** The operations a sail has, as plain values or as figures. */
export type Operations<Value = number> = Readonly<Partial<Record<Operation, DayAndNight<Value>>>>;

/** A gybe under a sail; `byNight` is whether it is done in the dark. */
export interface Gybe<Value = number, Flag = boolean> {
  readonly minutes: Value;
  readonly hands: Value;
  readonly byNight: Flag;
}

// None of these minutes and shares has a source. By night half as long again, and where one does it by day, still one.
/**
 * Minutes of an operation by night over those by day, where a boat file gives those by day alone: a placeholder without a source.
 * @example
 * 20 * NIGHT_OVER_DAY // 30
 */
export const NIGHT_OVER_DAY = 1.5;
const effort = (minutes: number, hands: number, keptShare: number, basis?: string): DayAndNight<Figure> => ({
  day: { minutes: placeholder(minutes, basis), hands: placeholder(hands), keptShare: placeholder(keptShare) },
  night: {
    minutes: placeholder(minutes * NIGHT_OVER_DAY, `${NIGHT_OVER_DAY} × by day`),
    hands: placeholder(hands),
    keptShare: placeholder(keptShare),
  },
});

/** Shares of the speed kept, all placeholders: a sail is eased to be reefed or doused, and one set flying goes up while others draw. */
const KEPT = { reef: 0.7, furl: 0.9, hoist: 0.8, hoistFlying: 0.9, douse: 0.7, pole: 0.8 } as const;

const REEF = effort(8, 2, KEPT.reef, 'of 5 to 10');
const FURL = effort(2, 1, KEPT.furl);
const BAGGED = 'of 15 to 20 for a bagged sail';

/** A sail on a track at the mast that is reefed. */
export const ON_TRACK: Operations<Figure> = {
  set: effort(15, 2, KEPT.hoist),
  douse: effort(10, 2, KEPT.douse),
  reef: REEF,
  shakeOut: REEF,
};

/** A headsail that lives on its furler; part-furled is its reef. */
export const ON_FURLER: Operations<Figure> = { unfurl: FURL, furl: FURL, reef: FURL, shakeOut: FURL };

/** A code sail on a furler of its own, hoisted furled. */
export const FURLED_FLYING: Operations<Figure> = {
  set: effort(15, 2, KEPT.hoistFlying, BAGGED),
  douse: effort(15, 2, KEPT.douse, BAGGED),
  unfurl: effort(4, 2, KEPT.furl),
  furl: effort(4, 2, KEPT.furl),
};

/** A spinnaker in a snuffer. */
export const IN_SNUFFER: Operations<Figure> = {
  set: effort(18, 2, KEPT.hoistFlying, 'of 15 to 20'),
  douse: effort(18, 2, KEPT.douse, 'of 15 to 20'),
};

/** The same, doused by three: a crew of two could not snuff one in a squall. */
export const IN_SNUFFER_BY_THREE: Operations<Figure> = {
  set: IN_SNUFFER.set!,
  douse: {
    day: {
      ...IN_SNUFFER.douse!.day,
      hands: sourced(3, 'S56', 'three were needed to snuff it in a squall'),
    },
    night: {
      ...IN_SNUFFER.douse!.night,
      hands: sourced(3, 'S56', 'three were needed to snuff it in a squall'),
    },
  },
};

/** A sail that is hoisted and hanked on, or put on a track of its own. */
export const ON_HALYARD: Operations<Figure> = {
  set: effort(15, 2, KEPT.hoist, BAGGED),
  douse: effort(10, 2, KEPT.douse),
};

/** A headsail set out on a pole, and brought back. */
export const ON_POLE: Operations<Figure> = {
  set: effort(15, 2, KEPT.pole, 'pole out'),
  douse: effort(15, 2, KEPT.pole, 'pole back'),
  reef: FURL,
  shakeOut: FURL,
};

const gybe = (minutes: number, hands: number, byNight: Figure<boolean>): Gybe<Figure, Figure<boolean>> => ({
  minutes: placeholder(minutes),
  hands: placeholder(hands),
  byNight,
});

/** Main, jib, genoa, storm sails. */
export const PLAIN_GYBE = gybe(5, 2, placeholder(true));
/** A code sail that is furled and unfurled on the other side. */
export const FURLED_GYBE = gybe(10, 2, placeholder(true));
/** A spinnaker: two people set none by night. */
export const SPINNAKER_GYBE = gybe(15, 2, sourced(false, 'S26', 'two people: no spinnaker at night'));
/** A poled-out sail: the pole comes in and goes out on the other side. */
export const POLE_GYBE = gybe(15, 2, placeholder(true));
