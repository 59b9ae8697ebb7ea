/**
 * What is to be chosen: one option for every stage on the way from a place to a goal, places being numbers that rise. Nothing
 * here knows what options are.
 */
export interface ChoiceProblem {
  /** How many stages there are at most; not all need be used. */
  readonly stages: number;
  readonly options: number;
  readonly from: number;
  readonly goal: number;
  /** The option in force before the first stage, leaving which is a change; absent: the first option is none. */
  readonly setBefore?: number;
  /** What is in hand before the first stage, where the way began earlier. */
  readonly inHand?: InHand;
  /** Length of a stage. */
  minutes(stage: number): number;
  /** The way of a whole stage under an option, beyond the goal if it goes so far; NaN where the option is barred. */
  way(stage: number, option: number, from: number): number;
  /** No way of a stage under an option is longer; what cannot be of use is then not asked for. Absent: nothing is known. */
  mostWay?(stage: number, option: number): number;
  /** What the change from one option to another takes at the start of a stage; undefined where it is not allowed. Absent: nothing. */
  change?(stage: number, before: number, after: number, from: number): ChangeCost | undefined;
  /** What a stage under an option costs beyond its time, minutes. Absent: nothing. */
  stagePrice?(option: number): number;
  /** Steps of a store that a stage under an option uses up, a whole number. Absent: none. */
  storeUsed?(option: number): number;
  /** Steps that may be used up by the end of a stage or an arrival in it, most in the first. Absent: none. */
  storeAt?(stage: number): number;
  /** Stages that must lie between two changes, except where the option in force is barred. Default 0. */
  readonly leastStages?: number;
  /** Whether the goal may be reached so many minutes into a stage. Absent: always. */
  mayArrive?(stage: number, minutesIn: number): boolean;
}

/** What a change costs. */
export interface ChangeCost {
  readonly minutes: number;
  /** Share of the slower option's way that is made meanwhile. */
  readonly keptShare: number;
  /** Beyond its time and beyond the constant price, minutes. */
  readonly price: number;
}

/** What a way of choosing has in hand besides its option and place. */
export interface InHand {
  /** Stages since the last change. */
  readonly since?: number;
  /** Steps of the store used. */
  readonly used?: number;
  /** A change under way: minutes it will still take, the share kept meanwhile, and the option it comes from. */
  readonly busy?: { readonly minutes: number; readonly kept: number; readonly from: number };
}

/** How a choice is searched for. */
export interface SearchSettings {
  /** Labels kept of those alike in all but place. */
  readonly labels: number;
  /** Least distance between two of them. */
  readonly spacing: number;
  /** From this place on so many labels are kept, where ways must wait for one another to pass. */
  readonly widely?: { readonly from: number; readonly labels: number };
  /**
   * Way that a minute of price is worth at least: what goes so much further for it is no use. Absent: none, and what goes further is
   * kept at any price.
   */
  readonly wayPerPrice?: number;
  /** Where only what is best at one price is wanted, and not the whole trade-off between changes and time. */
  readonly atPrice?: AtPrice;
}

/** One price of a change, and how fast things are likely to go: by it way and time are weighed until more is known. */
export interface AtPrice {
  readonly pricePerChange: number;
  readonly likelyWayPerMinute: number;
}

/** Closer than this, two places are one: rounding. */
export const SAME_PLACE = 1e-9;
