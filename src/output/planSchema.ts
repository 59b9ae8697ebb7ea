import * as v from 'valibot';
import { type Boat, sailPlanSchema, sailSchema } from '../boat/boat.js';
import { CLOTHS } from '../catalogue/catalogue.js';
import type { Fault } from '../errors.js';
import { BAR_REASONS, CHOICES, MANNERS, type Passage, WEATHERS } from '../passage/passage.js';
import { ASSUMPTIONS } from '../polar/polar.js';
import type { Waypoint } from '../route/route.js';
import { MOON_PHASES } from '../sun/sun.js';
import type { Totals } from '../totals/totals.js';
import { LOOK_AT, WEAR_CAUSES, type Wear } from '../wear/wear.js';
import { INPUT_ROLES, type InputDigest } from './planJson.js';

/** What `plan.json` holds: the passage, its totals, and what it was made from. */
export interface PlanFile extends Passage {
  readonly boat: string;
  readonly route: readonly Waypoint[];
  /** Sails and sail plans as they were sailed; what the boat file left out is marked as derived. Absent in older plans. */
  readonly wardrobe?: Pick<Boat, 'sails' | 'sailPlans'>;
  readonly inputs: readonly InputDigest[];
  readonly totals: Totals;
  /** Absent in older plans. */
  readonly wear?: Wear;
}

// JSON has no infinity, but a number may overflow to it.
const number = v.pipe(v.number('a number'), v.finite('a number'));
const text = v.string('a text');
const flag = v.boolean('true or false');
const orNull = <Schema extends v.GenericSchema>(schema: Schema) => v.nullable(schema);
const instant = v.pipe(text, v.isoTimestamp('a time in UTC'));
const planId = orNull(text);
const barReason = v.picklist(BAR_REASONS, `one of ${BAR_REASONS.join(', ')}`);
const object = <Entries extends v.ObjectEntries>(entries: Entries) =>
  v.strictObject(entries, `an object with ${Object.keys(entries).join(', ')}`);
const list = <Schema extends v.GenericSchema>(schema: Schema) => v.array(schema, 'a list');

const fault = object({
  file: text,
  line: v.exactOptional(number),
  column: v.exactOptional(text),
  path: v.exactOptional(text),
  code: text,
  expected: text,
  got: text,
}) satisfies v.GenericSchema<unknown, Fault>;

const rules = {
  gustFactor: number,
  gustMargin: number,
  tackMinutes: number,
  gybeMinutes: number,
  tackEveryHours: number,
  gybeEveryHours: number,
  skipperFactor: number,
  pricePerChangeMinutes: number,
  wakeMinutes: number,
  leastHoursBetweenChanges: number,
  changesInDark: v.picklist(['any', 'not-flying', 'none'], 'one of any, not-flying, none'),
  nightReefAboveKn: orNull(number),
  waveMaxM: v.record(text, number, 'wave heights by the ids of sails'),
  gybesByDay: flag,
  squalls: flag,
  squallFactor: number,
  squallChance: orNull(number),
  squallThreshold: number,
  motorBelowKn: orNull(number),
  motorPriceMinutes: number,
};
const RULE_NAMES = Object.keys(rules) as (keyof typeof rules)[];

const options = object({
  departure: instant,
  choice: v.picklist(CHOICES, `one of ${CHOICES.join(', ')}`),
  crew: orNull(number),
  labels: number,
  decisionMinutes: number,
  horizonHours: orNull(number),
  replanHours: orNull(number),
  arriveDaylight: flag,
  stepMinutes: number,
  maxGapHours: number,
  windFactor: number,
  windShiftHours: number,
  planSet: planId,
  without: list(text),
  house: object(rules),
  placeholders: list(v.picklist(RULE_NAMES, `one of ${RULE_NAMES.join(', ')}`)),
});

const bands = list(object({ from: number, to: orNull(number), hours: number }));
const operations = object({ set: number, douse: number, unfurl: number, furl: number, reef: number, shakeOut: number });
const tally = {
  id: text,
  hours: number,
  dayHours: number,
  nightHours: number,
  distanceNm: number,
  nearLimitHours: number,
  byAws: bands,
  byAwa: bands,
  awsKn: orNull(object({ p5: number, p25: number, p50: number, p75: number, p95: number })),
  tacks: number,
  gybes: number,
};
const run = object({ date: text, from: instant, to: instant, hours: number, distanceNm: number, whole: flag });

const day = object({
  date: text,
  distanceNm: number,
  twsMinKn: number,
  twsMaxKn: number,
  gustMaxKn: number,
  awsMaxKn: number,
  sailPlans: list(planId),
});

const totals = object({
  hours: number,
  distanceNm: number,
  meanSpeedKn: orNull(number),
  arrival: orNull(instant),
  arrivalEstimate: orNull(instant),
  sailChanges: number,
  reefChanges: number,
  tacks: number,
  gybes: number,
  hoveToHours: number,
  noPlanHours: number,
  operations,
  changesAt: object({
    day: number,
    night: number,
    watches: list(object({ from: text, to: text, changes: number })),
    wakingWatch: number,
  }),
  runs: list(run),
  bestRun: orNull(run),
  worstRun: orNull(run),
  motorHours: number,
  motorStarts: number,
  fuelLitres: number,
  strongWind: list(object({ overKn: number, hours: number })),
  offTrackNm: number,
  sails: list(object({ ...tally, operations })),
  sailPlans: list(object({ ...tally, timesSet: number, operations })),
  days: list(day),
  shipDays: list(
    object({
      date: text,
      zoneHours: number,
      fromRow: number,
      toRow: number,
      dawn: orNull(instant),
      sunrise: orNull(instant),
      sunset: orNull(instant),
      dusk: orNull(instant),
      moonPhase: v.picklist(MOON_PHASES, `one of ${MOON_PHASES.join(', ')}`),
      moonLitShare: number,
      moonrise: orNull(instant),
      moonset: orNull(instant),
    }),
  ),
}) satisfies v.GenericSchema<unknown, Totals>;

const band = object({ low: number, mid: number, high: number });
const cause = v.picklist(WEAR_CAUSES, `one of ${WEAR_CAUSES.join(', ')}`);
const CLOTH_NAMES = [...CLOTHS, 'other'] as const;
const STATUSES = ['source', 'derived', 'common-practice', 'placeholder', 'boat-file'] as const;

const wear = object({
  sails: list(
    object({
      sail: text,
      cloth: v.picklist(CLOTH_NAMES, `one of ${CLOTH_NAMES.join(', ')}`),
      hours: number,
      load: orNull(band),
      ultraviolet: orNull(band),
      handling: orNull(band),
      total: orNull(band),
      usedBefore: orNull(band),
      left: orNull(band),
      hoursLeft: orNull(band),
      cause: orNull(cause),
      causeIsSure: flag,
      lookAt: object({ when: v.picklist(LOOK_AT, `one of ${LOOK_AT.join(', ')}`), hours: orNull(number) }),
      overDesignHours: number,
      recalibratedBy: orNull(band),
      price: orNull(band),
      priceFrom: orNull(v.picklist(['boat-file', 'default'], 'one of boat-file, default')),
      money: orNull(band),
      moneyPerNm: orNull(band),
    }),
  ),
  first: orNull(
    object({ sail: text, cause, causeIsSure: flag, passagesLeft: number, takenAsNew: flag, orElse: list(text) }),
  ),
  money: object({ currency: orNull(text), passage: orNull(band), perNm: orNull(band), unpriced: list(text) }),
  slattingUnknownHours: number,
  constants: list(
    object({
      of: text,
      name: text,
      low: number,
      mid: number,
      high: number,
      status: v.picklist(STATUSES, `one of ${STATUSES.join(', ')}`),
      source: v.exactOptional(text),
      basis: v.exactOptional(text),
    }),
  ),
}) satisfies v.GenericSchema<unknown, Omit<Wear, 'constants'>>;

const hour = object({
  time: instant,
  latDeg: number,
  lonDeg: number,
  leg: number,
  distanceNm: number,
  courseDeg: number,
  weather: v.picklist(WEATHERS, `one of ${WEATHERS.join(', ')}`),
  steadiness: orNull(number),
  twdDeg: number,
  twsKn: number,
  gustKn: number,
  gustFrom: v.picklist(['forecast', 'factor'], 'one of forecast, factor'),
  setDeg: orNull(number),
  driftKn: orNull(number),
  manner: v.picklist(MANNERS, `one of ${MANNERS.join(', ')}`),
  headingDeg: orNull(number),
  twaDeg: orNull(number),
  leewayDeg: orNull(number),
  stwKn: orNull(number),
  awaDeg: orNull(number),
  awsKn: number,
  gustAwsKn: number,
  beamReachAwsKn: orNull(number),
  tack: orNull(v.picklist(['starboard', 'port'], 'one of starboard, port')),
  smgKn: number,
  sailPlan: planId,
  sailChange: flag,
  runnerUp: planId,
  marginKn: orNull(number),
  barred: list(
    object({
      sailPlan: text,
      reason: barReason,
      rule: v.exactOptional(text),
    }),
  ),
  daylight: flag,
  groundTwdDeg: number,
  groundTwsKn: number,
  waveHeightM: orNull(number),
  wavePeriodSeconds: orNull(number),
  waveFromDeg: orNull(number),
  bridged: flag,
  runNm: number,
  minutes: number,
  offTrackNm: number,
  zoneHours: number,
  changeMinutes: number,
  hands: number,
  standsShare: orNull(number),
  gustLimitKn: orNull(number),
  awaFromDeg: orNull(number),
  awaToDeg: orNull(number),
  overGust: planId,
  overAngle: planId,
}) satisfies v.GenericSchema<unknown, Passage['hours'][number]>;

/** The plan file, as `planJson` writes it. */
export const planSchema = object({
  formatVersion: v.literal(1, 'the format version 1'),
  complete: flag,
  reason: orNull(
    v.picklist(
      ['forecast-ended', 'no-wind-data', 'no-plan-allowed', 'too-slow'],
      'one of forecast-ended, no-wind-data, no-plan-allowed, too-slow',
    ),
  ),
  distanceToGoNm: number,
  departure: instant,
  end: instant,
  options,
  boat: text,
  wardrobe: v.exactOptional(object({ sails: list(sailSchema), sailPlans: list(sailPlanSchema) })),
  route: list(
    object({
      name: text,
      latDeg: number,
      lonDeg: number,
      toNext: v.exactOptional(v.picklist(['rhumb', 'great-circle'], 'one of rhumb, great-circle')),
    }),
  ),
  inputs: list(
    object({
      role: v.picklist(INPUT_ROLES, `one of ${INPUT_ROLES.join(', ')}`),
      file: text,
      sha256: text,
      member: v.exactOptional(text),
      columns: v.exactOptional(v.record(text, object({ name: text, unit: v.exactOptional(text) }))),
    }),
  ),
  ownRules: v.exactOptional(list(text)),
  warnings: list(fault),
  estimate: v.exactOptional(
    object({
      basis: list(text),
      undecided: list(
        object({
          sailPlan: text,
          rival: text,
          hours: number,
          assumptions: list(v.picklist(ASSUMPTIONS, `one of ${ASSUMPTIONS.join(', ')}`)),
          turnsIf: list(text),
        }),
      ),
    }),
  ),
  totals,
  wear: v.exactOptional(wear),
  curve: v.exactOptional(
    list(object({ changes: number, arrival: instant, hours: number, chosen: flag, estimated: flag })),
  ),
  squalls: v.exactOptional(object({ allowedFor: flag, expected: number, hours: number })),
  changes: v.exactOptional(
    list(
      object({
        time: instant,
        from: planId,
        to: planId,
        minutes: number,
        hands: number,
        handsShort: number,
        wakesWatch: flag,
        inNeed: flag,
        tooSoon: flag,
        daylight: flag,
        steps: list(object({ operation: text, sail: text, minutes: number, hands: number })),
        hours: number,
        gainKn: orNull(number),
        barred: orNull(object({ time: instant, reason: barReason })),
        runnerUp: orNull(object({ sailPlan: planId, costMinutes: number })),
        fasterBarred: list(object({ sailPlan: text, reason: barReason, smgKn: number })),
        lastByDaylight: orNull(instant),
        firstByDaylight: orNull(instant),
        gustShare: orNull(number),
      }),
    ),
  ),
  foresight: v.exactOptional(
    object({
      horizonHours: number,
      replanHours: number,
      wholeKnownEnd: instant,
      wholeKnownComplete: flag,
      costHours: orNull(number),
      costWithPricesHours: orNull(number),
    }),
  ),
  synthetic: v.exactOptional(
    object({
      seed: number,
      from: instant,
      shares: object({ passage: number, weather: number, observation: number }),
      eFoldHours: number,
    }),
  ),
  hours: list(hour),
}) satisfies v.GenericSchema<
  unknown,
  Omit<
    PlanFile,
    'wardrobe' | 'wear' | 'estimate' | 'curve' | 'foresight' | 'changes' | 'squalls' | 'synthetic' | 'ownRules'
  >
>;
