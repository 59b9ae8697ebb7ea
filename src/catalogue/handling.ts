import { type Figure, placeholder, sourced } from './figure.js';

/** How a sail is set and taken away. */
export const SET_BY = ['furler', 'snuffer', 'halyard', 'track'] as const;
export type SetBy = (typeof SET_BY)[number];

/** What a sail change is made of. */
export const OPERATIONS = ['set', 'douse', 'unfurl', 'furl', 'reef', 'shakeOut'] as const;
export type Operation = (typeof OPERATIONS)[number];

/** Minutes and hands, as plain values or as figures. */
export interface Effort<Value = number> {
  readonly minutes: Value;
  readonly hands: Value;
}

/** An operation by day and by night. */
export interface DayAndNight<Value = number> {
  readonly day: Effort<Value>;
  readonly night: Effort<Value>;
}

/** The operations a sail has, as plain values or as figures. */
export type Operations<Value = number> = Readonly<Partial<Record<Operation, DayAndNight<Value>>>>;

/** A gybe under a sail; `byNight` is whether it is done in the dark. */
export interface Gybe<Value = number, Flag = boolean> extends Effort<Value> {
  readonly byNight: Flag;
}

// None of these minutes has a source. By night half as long again, and where one does it by day, still one.
export const NIGHT_OVER_DAY = 1.5;
const effort = (minutes: number, hands: number, basis?: string): DayAndNight<Figure> => ({
  day: { minutes: placeholder(minutes, basis), hands: placeholder(hands) },
  night: { minutes: placeholder(minutes * NIGHT_OVER_DAY, `${NIGHT_OVER_DAY} × by day`), hands: placeholder(hands) },
});

const REEF = effort(8, 2, 'of 5 to 10');
const FURL = effort(2, 1);
const HOIST = effort(15, 2, 'of 15 to 20 for a bagged sail');

/** A sail on a track at the mast that is reefed. */
export const ON_TRACK: Operations<Figure> = { set: effort(15, 2), douse: effort(10, 2), reef: REEF, shakeOut: REEF };

/** A headsail that lives on its furler; part-furled is its reef. */
export const ON_FURLER: Operations<Figure> = { unfurl: FURL, furl: FURL, reef: FURL, shakeOut: FURL };

/** A code sail on a furler of its own, hoisted furled. */
export const FURLED_FLYING: Operations<Figure> = { set: HOIST, douse: HOIST, unfurl: effort(4, 2), furl: effort(4, 2) };

/** A spinnaker in a snuffer. */
export const IN_SNUFFER: Operations<Figure> = {
  set: effort(18, 2, 'of 15 to 20'),
  douse: effort(18, 2, 'of 15 to 20'),
};

/** The same, doused by three: a crew of two could not snuff one in a squall. */
export const IN_SNUFFER_BY_THREE: Operations<Figure> = {
  set: IN_SNUFFER.set!,
  douse: {
    day: {
      minutes: IN_SNUFFER.douse!.day.minutes,
      hands: sourced(3, 'S56', 'three were needed to snuff it in a squall'),
    },
    night: {
      minutes: IN_SNUFFER.douse!.night.minutes,
      hands: sourced(3, 'S56', 'three were needed to snuff it in a squall'),
    },
  },
};

/** A sail that is hoisted and hanked on, or put on a track of its own. */
export const ON_HALYARD: Operations<Figure> = { set: HOIST, douse: effort(10, 2) };

/** A headsail set out on a pole, and brought back. */
export const ON_POLE: Operations<Figure> = {
  set: effort(15, 2, 'pole out'),
  douse: effort(15, 2, 'pole back'),
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
