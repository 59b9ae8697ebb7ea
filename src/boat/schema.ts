import * as v from 'valibot';
import { SAIL_KINDS } from '../sail/sail.js';

const ID_PATTERN = /^[a-z0-9][a-z0-9+._-]*$/;

const ID_EXPECTED = 'an id of a-z, 0-9, +, ., _ and -, like main+jib';
const LONGEST_TEXT = 200;

/** A number in a range. The messages of this schema are what was expected, worded to stand after "expected". */
const number = (min: number, max: number) => {
  const message = `a number from ${min} to ${max}`;
  return v.pipe(v.number(message), v.minValue(min, message), v.maxValue(max, message));
};
const wholeNumber = (min: number, max: number) => {
  const message = `a whole number from ${min} to ${max}`;
  return v.pipe(v.number(message), v.integer(message), v.minValue(min, message), v.maxValue(max, message));
};
const text = (message: string) =>
  v.pipe(v.string(message), v.minLength(1, message), v.maxLength(LONGEST_TEXT, `at most ${LONGEST_TEXT} characters`));
/** Ids of sails and sail plans. */
export const idSchema = v.pipe(
  v.string(ID_EXPECTED),
  v.regex(ID_PATTERN, ID_EXPECTED),
  v.maxLength(LONGEST_TEXT, ID_EXPECTED),
);
const choice = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, `one of ${options.join(', ')}`);
const list = <Item extends v.GenericSchema>(item: Item, max: number, what: string) => {
  const message = `a list of 1 to ${max} ${what}`;
  return v.pipe(v.array(item, message), v.minLength(1, message), v.maxLength(max, message));
};
/** An object whose keys are all known; the message lists them. */
const object = <Entries extends v.ObjectEntries>(entries: Entries) =>
  v.strictObject(entries, `an object with ${Object.keys(entries).join(', ')}`);

const awsMaxKn = v.union(
  [
    number(1, 200),
    list(v.strictTuple([number(0, 180), number(1, 200)], 'a pair [angle, kn]'), 50, '[angle, kn] pairs'),
  ],
  'a number from 1 to 200 or a list of 1 to 50 [angle, kn] pairs',
);
const twsMaxKn = number(1, 200);

/** A sail. */
export const sailSchema = object({
  id: idSchema,
  kind: choice(SAIL_KINDS),
  areaM2: v.exactOptional(number(0.5, 2000)),
  daylightOnly: v.exactOptional(v.boolean('true or false')),
  clothOf: v.exactOptional(idSchema),
  midGirthRatio: v.exactOptional(number(0.5, 0.75)),
  overlapPercent: v.exactOptional(number(100, 150)),
  window: object({
    awaMinDeg: number(0, 180),
    awaMaxDeg: number(0, 180),
    awsMinKn: v.exactOptional(number(0, 100)),
    awsMaxKn: v.exactOptional(awsMaxKn),
    twsMaxKn: v.exactOptional(twsMaxKn),
  }),
  reefs: v.exactOptional(
    list(
      object({
        areaShare: number(0.05, 0.99),
        awsMaxKn: v.exactOptional(awsMaxKn),
        twsMaxKn: v.exactOptional(twsMaxKn),
      }),
      9,
      'reefs',
    ),
  ),
});

/** A sail plan. */
export const sailPlanSchema = object({ id: idSchema, sails: list(v.string('the id of a sail aboard'), 20, 'sails') });

/** House rules and settings. */
export const houseSchema = object({
  gustFactor: v.exactOptional(number(1, 3)),
  gustMargin: v.exactOptional(number(1, 3)),
  tackMinutes: v.exactOptional(number(0, 60)),
  gybeMinutes: v.exactOptional(number(0, 60)),
  tackEveryHours: v.exactOptional(number(0.5, 48)),
  gybeEveryHours: v.exactOptional(number(0.5, 240)),
  skipperFactor: v.exactOptional(number(0.3, 1.5)),
});

/** The boat file. */
export const boatSchema = object({
  name: text('a name'),
  currency: v.exactOptional(
    v.pipe(
      v.string('a currency of three capitals, like EUR'),
      v.regex(/^[A-Z]{3}$/, 'a currency of three capitals, like EUR'),
    ),
  ),
  crew: v.exactOptional(wholeNumber(1, 100)),
  hull: object({
    type: choice(['catamaran', 'monohull']),
    waterlineM: v.exactOptional(number(3, 100)),
    displacementKg: v.exactOptional(number(200, 1_000_000)),
    hullCentresM: v.exactOptional(number(1, 30)),
  }),
  polars: v.union(
    [text('the path of a polar file'), v.record(v.string(), text('the path of a polar file'))],
    'the path of a polar file, or one for each sail plan',
  ),
  polarStatus: v.exactOptional(choice(['measured', 'designed'])),
  polarWindHeightM: v.exactOptional(number(1, 60)),
  polarTwaReference: v.exactOptional(choice(['course', 'heading'])),
  leeway: v.exactOptional(
    list(v.strictTuple([number(0, 180), number(0, 20)], 'a pair [angle, leeway]'), 50, '[angle, leeway] pairs'),
  ),
  sails: list(sailSchema, 100, 'sails'),
  sailPlans: list(sailPlanSchema, 200, 'sail plans'),
  house: v.exactOptional(houseSchema),
  $schema: v.exactOptional(text('the address of the JSON Schema')),
});
