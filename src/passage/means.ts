import { BARE_POLES, type Boat, MOTOR, settingOf } from '../boat/boat.js';
import { kindOf } from '../catalogue/catalogue.js';
import { changeOf, effortOf, handsOnDeck } from '../change/change.js';
import { highestLimit, isLimit, type Window } from '../sail/sail.js';
import type { PlanSpeed, SailablePlan } from '../speed/speed.js';
import { type SettledOptions, USUAL_CREW } from './options.js';
import type { BarredBy } from './ownRules.js';

/** What a boat goes under: a sail plan, her engine, bare poles, or hove to. */
export interface Means {
  /** Null hove to. */
  readonly id: string | null;
  readonly kind: 'sails' | 'motor' | 'bare-poles' | 'hove-to';
  /** Of sails: what is set. */
  readonly set?: readonly SetCloth[];
  /** Of sails and engine. */
  readonly plan?: SailablePlan;
  /** Of sails that are not set in the dark: minutes to have them down by sunset. */
  readonly downMinutes?: number;
  /** Highest waves in which the sails are carried. */
  readonly waveMaxM?: number;
  /** The same plan as it may be carried by night in strong wind, reefed a step further than by day. */
  readonly nightPlan?: SailablePlan;
  /** Whether it is not gybed in the dark. */
  readonly gybesByDay: boolean;
  /** Of sails: by which of the caller's own rules it may not stand there and then. */
  readonly barredBy?: BarredBy;
  /** Whether it is set at departure with a sail that may not be set again: it can only be left. */
  readonly onlyLeft?: boolean;
}

/** A cloth as it is set: as which sail, with how many reefs. */
export interface SetCloth {
  readonly cloth: string;
  readonly sail: string;
  readonly reef: number;
}

/** Whether one gets from what is set to something else by reefing, furling, dousing and unpoling alone, with a sail left standing. */
export function isReduction(from: Means, to: Means): boolean {
  const { set = [] } = from;
  const { set: left = [] } = to;
  return (
    left.length > 0 &&
    left.every(({ cloth, sail, reef }) =>
      set.some((own) => own.cloth === cloth && own.reef <= reef && (own.sail === sail || sail === cloth)),
    )
  );
}

/** Everything a boat may go under, sail plans in the boat file's order first, hove to last. */
export function meansOf(
  boat: Boat,
  plans: readonly SailablePlan[],
  { house, crew, planSet }: Pick<SettledOptions, 'house' | 'crew' | 'planSet'>,
  barredByOf?: (planId: string) => BarredBy,
): readonly Means[] {
  const sails = plans.map((plan): Means => {
    const { sails: texts } = boat.sailPlans.find(({ id }) => id === plan.id)!;
    const settings = texts.map((text) => settingOf(boat, text)!);
    const waves = settings.flatMap(({ sail, cloth }) => house.waveMaxM[sail.id] ?? house.waveMaxM[cloth] ?? []);
    const night = house.nightReefAboveKn === null ? undefined : nightWindows(settings);
    return {
      id: plan.id,
      kind: 'sails',
      plan,
      set: settings.map(({ cloth, sail, reef }) => ({ cloth, sail: sail.id, reef })),
      ...(plan.daylightOnly ? { downMinutes: downMinutes(boat, plan.id, crew) } : {}),
      ...(waves.length === 0 ? {} : { waveMaxM: Math.min(...waves) }),
      ...(night === undefined ? {} : { nightPlan: { ...plan, windows: night } }),
      ...(barredByOf === undefined ? {} : { barredBy: barredByOf(plan.id) }),
      gybesByDay: house.gybesByDay && settings.some(({ sail }) => sail.gybe?.byNight === false),
    };
  });
  const { engine } = boat;
  const ownBarePoles = plans.some(({ id, speed }) => speed !== undefined && isBare(boat, id));
  const isLeft = planSet !== null && !plans.some(({ id }) => id === planSet);
  return [
    ...sails,
    ...(isLeft ? [{ id: planSet, kind: 'sails' as const, plan: NOWHERE, gybesByDay: false, onlyLeft: true }] : []),
    ...(engine === undefined || house.motorBelowKn === null
      ? []
      : [{ id: MOTOR, kind: 'motor' as const, plan: motorPlan(engine.cruiseKn), gybesByDay: false }]),
    ...(ownBarePoles ? [] : [{ id: BARE_POLES, kind: 'bare-poles' as const, gybesByDay: false }]),
    { id: null, kind: 'hove-to', gybesByDay: false },
  ];
}

/** Whether a plan of the boat is one without sails. */
const isBare = (boat: Boat, planId: string) => boat.sailPlans.find(({ id }) => id === planId)?.sails.length === 0;

/** The limit gust above which no sail plan may be carried on any heading; infinite where one has no limit. Of plans that have a speed. */
export function lastStormKn(plans: readonly SailablePlan[]): number {
  const highestOf = (window: Window) =>
    Math.min(
      highestLimit(window.awsMaxKn) ?? Number.POSITIVE_INFINITY,
      isLimit(window.twsMaxKn) ? window.twsMaxKn : Number.POSITIVE_INFINITY,
    );
  const sailed = plans.filter(({ speed, windows }) => speed !== undefined && windows.length > 0);
  if (sailed.length === 0) return Number.POSITIVE_INFINITY;
  return Math.max(...sailed.map(({ windows }) => Math.min(...windows.map(highestOf))));
}

/** Minutes to take down what may not be set in the dark, with the hands on deck: those of the night, for a change that ends in it takes them. */
function downMinutes(boat: Boat, plan: string, crew: number | null): number {
  const byDay = new Set(boat.sails.filter((sail) => sail.daylightOnly === true).map(({ id }) => id));
  const steps = changeOf(boat, plan, null);
  const last = steps.reduce((at, { sail }, i) => (byDay.has(sail) ? i : at), -1);
  return effortOf(steps.slice(0, last + 1), true, handsOnDeck(boat, crew ?? USUAL_CREW)).minutes;
}

type Settings = readonly NonNullable<ReturnType<typeof settingOf>>[];

/**
 * The windows of a plan whose main is reefed a step further than by day: it has the gust limits of a reef less, and is not carried
 * at full size. The deepest reef keeps its own. Undefined where the plan has no main that reefs: headsails are part-furled at any time.
 */
function nightWindows(settings: Settings): readonly Window[] | undefined {
  let reefs = false;
  const windows = settings.map(({ sail, reef, window }): Window => {
    const most = sail.reefs?.length ?? 0;
    if (kindOf(sail.kind).place !== 'mast' || most === 0 || reef === most) return window;
    reefs = true;
    if (reef === 0) return { ...window, twsMaxKn: 0 };
    const shallower = reef === 1 ? sail.window : sail.reefs![reef - 2]!;
    return { ...window, awsMaxKn: shallower.awsMaxKn ?? null, twsMaxKn: shallower.twsMaxKn ?? null };
  });
  return reefs ? windows : undefined;
}

const NOWHERE: SailablePlan = { id: '', speed: undefined, windows: [], daylightOnly: false };

/** The engine as a plan that makes one speed at every angle. */
function motorPlan(cruiseKn: number): SailablePlan {
  const speed: PlanSpeed = {
    at: () => cruiseKn,
    byDegree: (_twsKn, into) => into.fill(cruiseKn),
    edgesAt: () => [0, 180],
    mostKn: cruiseKn,
    twsMaxKn: Number.POSITIVE_INFINITY,
    leewayAt: undefined,
    vmgBound: () => cruiseKn,
  };
  return { id: MOTOR, speed, windows: [], daylightOnly: false };
}
