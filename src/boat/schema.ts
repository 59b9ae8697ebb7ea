import * as v from 'valibot';
import { CLOTHS, OPERATIONS, SET_BY } from '../catalogue/catalogue.js';
import { SAIL_KINDS } from '../sail/sail.js';
import { AREA_M2, HOUSE_RANGES } from './ranges.js';

const ID_PATTERN = /^[a-z0-9][a-z0-9+._-]*$/;

const ID_EXPECTED = 'an id of a-z, 0-9, +, ., _ and -, like main+jib';
const LONGEST_TEXT = 200;
const LONGEST_COMMENT = 2000;
export const LONGEST_ID = 200;
export const MOST_PLANS = 200;
export const MOST_SAILS = 100;
export const MOST_MINUTES = 600;
/** Half width over foot of sails set flying. */
export const [LEAST_MID_GIRTH, MOST_MID_GIRTH] = [0.5, 1.2] as const;

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
  v.maxLength(LONGEST_ID, ID_EXPECTED),
);
const choice = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, `one of ${options.join(', ')}`);
const list = <Item extends v.GenericSchema>(item: Item, max: number, what: string, min = 1) => {
  const message = `a list of ${min} to ${max} ${what}`;
  return v.pipe(v.array(item, message), v.minLength(min, message), v.maxLength(max, message));
};
/** An object whose keys are all known; the message lists them. */
const object = <Entries extends v.ObjectEntries>(entries: Entries) =>
  v.strictObject(entries, `an object with ${Object.keys(entries).join(', ')}`);

const comment = v.exactOptional(
  v.union(
    [
      v.pipe(v.string(), v.maxLength(LONGEST_COMMENT)),
      v.pipe(v.array(v.pipe(v.string(), v.maxLength(LONGEST_COMMENT))), v.maxLength(100)),
    ],
    `a text of at most ${LONGEST_COMMENT} characters, or a list of such`,
  ),
);
/** A value, or null where there is none on purpose. */
const orNone = <Schema extends v.GenericSchema>(schema: Schema) => v.exactOptional(v.nullable(schema));

const awsMaxKn = v.union(
  [
    number(1, 200),
    list(v.strictTuple([number(0, 180), number(1, 200)], 'a pair [angle, kn]'), 50, '[angle, kn] pairs'),
  ],
  'a number from 1 to 200 or a list of 1 to 50 [angle, kn] pairs',
);
const twsMaxKn = number(1, 200);

const effort = v.exactOptional(
  object({
    minutes: v.exactOptional(number(0, MOST_MINUTES)),
    hands: v.exactOptional(wholeNumber(1, 20)),
    keptShare: v.exactOptional(number(0, 1)),
  }),
);
const operation = v.exactOptional(object({ day: effort, night: effort }));
const operations = object(
  Object.fromEntries(OPERATIONS.map((name) => [name, operation])) as Record<
    (typeof OPERATIONS)[number],
    typeof operation
  >,
);
const shortText = v.pipe(v.string('a text'), v.maxLength(LONGEST_COMMENT, 'a shorter text'));
const origin = object({
  status: choice(['source', 'derived', 'common-practice', 'placeholder']),
  source: v.exactOptional(shortText),
  basis: v.exactOptional(shortText),
});

const life = object({
  cloth: v.exactOptional(choice([...CLOTHS, 'other'])),
  weightGPerM2: v.exactOptional(number(10, 2000)),
  usedHours: v.exactOptional(number(0, 100_000)),
  miles: v.exactOptional(number(...HOUSE_RANGES.pricePerChangeMinutes)),
  ageYears: v.exactOptional(number(0, 100)),
  inspectedLeft: v.exactOptional(number(0, 1)),
  lifeHours: v.exactOptional(number(10, 100_000)),
  designAwsKn: v.exactOptional(number(5, 150)),
  loadExponent: v.exactOptional(number(1, 12)),
  uvLossPerMonth: v.exactOptional(number(0, 1)),
  uvCover: v.exactOptional(number(0, 1)),
  floggingFactor: v.exactOptional(number(0, 100)),
});

/** A sail. */
export const sailSchema = object({
  id: idSchema,
  kind: choice(SAIL_KINDS),
  comment,
  areaM2: v.exactOptional(number(...AREA_M2)),
  daylightOnly: v.exactOptional(v.boolean('true or false')),
  clothOf: v.exactOptional(idSchema),
  midGirthRatio: v.exactOptional(number(LEAST_MID_GIRTH, MOST_MID_GIRTH)),
  overlapPercent: v.exactOptional(number(100, 150)),
  roachFactor: v.exactOptional(number(0.9, 1.6)),
  luffM: v.exactOptional(number(1, 100)),
  lpM: v.exactOptional(number(0.2, 50)),
  halfWidthM: v.exactOptional(number(0.2, 50)),
  footM: v.exactOptional(number(0.5, 50)),
  window: v.exactOptional(
    object({
      awaMinDeg: v.exactOptional(number(0, 180)),
      awaMaxDeg: v.exactOptional(number(0, 180)),
      awsMinKn: orNone(number(0, 100)),
      awsMaxKn: orNone(awsMaxKn),
      twsMaxKn: orNone(twsMaxKn),
    }),
  ),
  reefs: v.exactOptional(
    list(
      object({
        areaShare: v.exactOptional(number(0.05, 0.99)),
        awaMinDeg: v.exactOptional(number(0, 180)),
        awsMaxKn: orNone(awsMaxKn),
        twsMaxKn: orNone(twsMaxKn),
      }),
      9,
      'reefs',
      0,
    ),
  ),
  setBy: v.exactOptional(choice(SET_BY)),
  operations: v.exactOptional(operations),
  gybe: v.exactOptional(
    object({
      minutes: v.exactOptional(number(0, MOST_MINUTES)),
      hands: v.exactOptional(wholeNumber(1, 20)),
      byNight: v.exactOptional(v.boolean('true or false')),
    }),
  ),
  life: v.exactOptional(life),
  price: v.exactOptional(number(0, 10_000_000)),
  derived: v.exactOptional(v.record(v.string(), origin)),
});

/** A sail plan; without sails it is bare poles. */
export const sailPlanSchema = object({
  id: idSchema,
  sails: list(v.string('the id of a sail aboard'), 20, 'sails', 0),
  comment,
  derived: v.exactOptional(v.boolean('true or false')),
});

/** House rules and settings. */
export const houseSchema = object({
  gustFactor: v.exactOptional(number(1, 3)),
  gustMargin: v.exactOptional(number(1, 3)),
  tackMinutes: v.exactOptional(number(0, 60)),
  gybeMinutes: v.exactOptional(number(0, 60)),
  tackEveryHours: v.exactOptional(number(0.5, 48)),
  gybeEveryHours: v.exactOptional(number(0.5, 240)),
  skipperFactor: v.exactOptional(number(0.3, 1.5)),
  pricePerChangeMinutes: v.exactOptional(number(...HOUSE_RANGES.pricePerChangeMinutes)),
  wakeMinutes: v.exactOptional(number(0, 10_000)),
  leastHoursBetweenChanges: v.exactOptional(wholeNumber(...HOUSE_RANGES.leastHoursBetweenChanges)),
  changesInDark: v.exactOptional(choice(['any', 'not-flying', 'none'])),
  nightReefAboveKn: orNone(number(...HOUSE_RANGES.nightReefAboveKn)),
  waveMaxM: v.exactOptional(v.record(v.string(), number(0.2, 30), 'wave heights by the ids of sails')),
  gybesByDay: v.exactOptional(v.boolean('true or false')),
  squalls: v.exactOptional(v.boolean('true or false')),
  squallFactor: v.exactOptional(number(1, 4)),
  squallChance: orNone(number(0, 1)),
  squallThreshold: v.exactOptional(number(0, 1)),
  motorBelowKn: orNone(number(0, 20)),
  motorPriceMinutes: v.exactOptional(number(0, 10_000)),
});

const TIME_OF_DAY = 'a time of day from 00:00 to 23:59';

/** The watches. */
export const watchesSchema = object({
  changes: list(
    v.pipe(v.string(TIME_OF_DAY), v.regex(/^(?:[01]\d|2[0-3]):[0-5]\d$/, TIME_OF_DAY)),
    24,
    'times of day at which the watch changes',
  ),
  teams: v.exactOptional(wholeNumber(1, 6)),
});

/** The engine. */
export const engineSchema = object({
  cruiseKn: number(0.5, 30),
  litresPerHour: number(0.1, 200),
  fuelLitres: number(0, 100_000),
  reserveLitres: v.exactOptional(number(0, 100_000)),
  chargingHoursPerDay: v.exactOptional(number(0, 24)),
  comment,
});

/** A speed the owner knows. */
const knownSpeed = object({
  sailPlan: v.exactOptional(idSchema),
  twsKn: number(2, 60),
  twaDeg: number(20, 180),
  stwKn: number(0.5, 40),
  comment,
});

/** The boat file. */
export const boatSchema = object({
  name: text('a name'),
  comment,
  currency: v.exactOptional(
    v.pipe(
      v.string('a currency of three capitals, like EUR'),
      v.regex(/^[A-Z]{3}$/, 'a currency of three capitals, like EUR'),
    ),
  ),
  crew: v.exactOptional(wholeNumber(1, 100)),
  watches: v.exactOptional(watchesSchema),
  engine: v.exactOptional(engineSchema),
  hull: object({
    type: choice(['catamaran', 'monohull']),
    comment,
    waterlineM: v.exactOptional(number(3, 100)),
    displacementKg: v.exactOptional(number(200, 1_000_000)),
    hullCentresM: v.exactOptional(number(1, 30)),
    lengthM: v.exactOptional(number(3, 120)),
    beamM: v.exactOptional(number(0.5, 50)),
    freeboardM: v.exactOptional(number(0.2, 10)),
    wettedAreaM2: v.exactOptional(number(1, 3000)),
    metacentricHeightM: v.exactOptional(number(0.2, 10)),
    stabilityShare: v.exactOptional(number(0.05, 1)),
    heelLimitDeg: v.exactOptional(number(5, 45)),
  }),
  rig: v.exactOptional(
    object({
      comment,
      iM: v.exactOptional(number(1, 100)),
      jM: v.exactOptional(number(0.5, 50)),
      pM: v.exactOptional(number(1, 100)),
      eM: v.exactOptional(number(0.5, 50)),
      ispM: v.exactOptional(number(1, 100)),
      spritM: v.exactOptional(number(0, 20)),
      poleM: v.exactOptional(number(0, 50)),
      innerForestay: v.exactOptional(v.boolean('true or false')),
      boomHeightM: v.exactOptional(number(0, 10)),
      boomLimitDeg: v.exactOptional(number(40, 90)),
    }),
  ),
  polars: v.exactOptional(
    v.union(
      [text('the path of a polar file'), v.record(v.string(), text('the path of a polar file'))],
      'the path of a polar file, or one for each sail plan',
    ),
  ),
  boatPolar: v.exactOptional(text('the path of a polar file')),
  knownSpeeds: v.exactOptional(list(knownSpeed, 100, 'known speeds')),
  polarStatus: v.exactOptional(choice(['measured', 'designed'])),
  polarWindHeightM: v.exactOptional(number(1, 60)),
  polarTwaReference: v.exactOptional(choice(['course', 'heading'])),
  leeway: v.exactOptional(
    list(v.strictTuple([number(0, 180), number(0, 20)], 'a pair [angle, leeway]'), 50, '[angle, leeway] pairs'),
  ),
  sails: list(sailSchema, MOST_SAILS, 'sails'),
  sailPlans: v.exactOptional(list(sailPlanSchema, MOST_PLANS, 'sail plans')),
  house: v.exactOptional(object({ comment, ...houseSchema.entries })),
  $schema: v.exactOptional(text('the address of the JSON Schema')),
});
