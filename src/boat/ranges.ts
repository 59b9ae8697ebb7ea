/** Smaller or larger sails are slips of the pen. */
export const AREA_M2 = [0.5, 2000] as const;

/** Of house rules that a page asks for too; apart from the schema, which it need not load. */
export const HOUSE_RANGES = {
  pricePerChangeMinutes: [0, 1_000_000],
  leastHoursBetweenChanges: [0, 24],
  nightReefAboveKn: [1, 100],
} as const;
