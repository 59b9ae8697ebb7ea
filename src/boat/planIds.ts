/** Stands for the engine wherever a sail plan is named. */
export const MOTOR = 'motor';
/** The plan without a sail. */
export const BARE_POLES = 'bare-poles';
