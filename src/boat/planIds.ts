/** Stands for the engine wherever a sail plan is named. */
export const MOTOR = 'motor';
/** Stands for lying hove to, wherever that must be named. */
export const HOVE_TO = 'hove-to';
/** The plan without a sail. */
export const BARE_POLES = 'bare-poles';

/** Whether an id may not be that of a plan with so many sails. */
export const isTaken = (id: string, sails: number): boolean =>
  id === MOTOR || id === HOVE_TO || (id === BARE_POLES && sails > 0);
