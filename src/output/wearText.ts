import type { SailWear, Wear, WearConstant } from '../wear/wear.js';
import { fixed, inTwoDigits, twoDigits, UNNAMED_CURRENCY } from './format.js';
import { escaped, table } from './markdown.js';

type Range = Pick<WearConstant, 'low' | 'mid' | 'high'>;

/** A number with so many significant digits, without an exponent; one that begins with 1 has two, for 1.4 is not 1. */
function significant(value: number, digits: number): string {
  const beginsWithOne = /^1/.test(value.toExponential(0));
  return `${Number(value.toPrecision(beginsWithOne ? Math.max(2, digits) : digits))}`;
}

/** Wear as it goes into JSON: ranges to two digits, which is more than the constants deserve. Constants, hours and prices stay as they are. */
export function roundedWear(wear: Wear): Wear {
  const { sails, first, money } = wear;
  return {
    ...wear,
    sails: sails.map((sail) => ({
      ...sail,
      load: inTwoDigits(sail.load),
      ultraviolet: inTwoDigits(sail.ultraviolet),
      handling: inTwoDigits(sail.handling),
      total: inTwoDigits(sail.total),
      usedBefore: inTwoDigits(sail.usedBefore),
      left: inTwoDigits(sail.left),
      hoursLeft: inTwoDigits(sail.hoursLeft),
      lookAt: { ...sail.lookAt, hours: sail.lookAt.hours === null ? null : twoDigits(sail.lookAt.hours) },
      recalibratedBy: inTwoDigits(sail.recalibratedBy),
      money: inTwoDigits(sail.money),
      moneyPerNm: inTwoDigits(sail.moneyPerNm),
    })),
    first: first === null ? null : { ...first, passagesLeft: twoDigits(first.passagesLeft) },
    money: { ...money, passage: inTwoDigits(money.passage), perNm: inTwoDigits(money.perNm) },
  };
}

/** One digit where the ends are apart by more than a factor of two, else two: `20 (9 to 40)`. */
export function rangeText({ low, mid, high }: Range, by = 1): string {
  if (high * by < 0.05) return high > 0 ? 'next to 0' : '0';
  const digits = high > 2 * low ? 1 : 2;
  const [least, middle, most] = [low, mid, high].map((value) => significant(value * by, digits));
  return least === most ? middle! : `${middle} (${least} to ${most})`;
}

const percent = (range: Range | null) => (range === null ? 'not known' : `${rangeText(range, 100)} %`);

/** What was used before: of a whole life at most. */
function usedText(range: Range | null): string {
  if (range === null || range.low < 1)
    return percent(range && { low: range.low, mid: Math.min(1, range.mid), high: Math.min(1, range.high) });
  return 'all of it and more';
}

const CAUSES = { load: 'load', ultraviolet: 'sun', handling: 'handling' } as const;

const causeText = (cause: keyof typeof CAUSES, isSure: boolean) => `${CAUSES[cause]}${isSure ? '' : ', not surely'}`;

function lookAtText({ when, hours }: SailWear['lookAt']): string {
  if (when === 'before') return 'before this passage';
  if (when === 'after') return 'after this passage';
  if (when === 'unknown') return 'nobody knows how far it is worn';
  return hours === null ? 'not for this passage' : `after ${significant(hours, 1)} h more of this`;
}

/** What wears first, what it costs, and how much of that has no source: for a terminal. */
export function wearLines(wear: Wear | undefined): string[] {
  if (wear === undefined) return [];
  const unsourced = wear.constants.filter(({ status }) => status === 'placeholder').length;
  return [
    '',
    'Wear',
    `  ${firstText(wear)}`,
    ...moneyTexts(wear).map((text) => `  ${text}`),
    `  Of ${wear.constants.length} constants ${unsourced} are placeholders without a source: plan.md lists them; yours go under "life" of a sail in the boat file.`,
  ];
}

function firstText({ first, sails }: Wear): string {
  if (first === null) {
    const unknown = sails.filter(({ hours, total }) => hours > 0 && total === null).map(({ sail }) => sail);
    return unknown.length === 0
      ? 'Nothing wears.'
      : `What wears first is not known: of the cloths of ${unknown.join(', ')} nobody knows how they wear.`;
  }
  const { sail, cause, causeIsSure, passagesLeft, takenAsNew, orElse } = first;
  const left =
    passagesLeft < 1 ? 'less than one such passage is' : `about ${significant(passagesLeft, 1)} such passages are`;
  return [
    `First wears ${sail} (most by ${causeText(cause, causeIsSure)}): ${left} left in it`,
    takenAsNew ? ', taken as new, for the boat file does not say how far it is worn' : '',
    orElse.length === 0 ? '.' : `; or ${orElse.join(' or ')}: the constants cannot tell.`,
  ].join('');
}

/** Prices of the catalogue are in euros. */
const currencyOf = ({ money, sails }: Pick<Wear, 'money' | 'sails'>) =>
  money.currency ?? (sails.some(({ priceFrom }) => priceFrom === 'default') ? 'EUR' : null);

function moneyTexts({ money, sails }: Wear): string[] {
  const { passage, perNm, unpriced } = money;
  const of = currencyOf({ money, sails }) ?? `${UNNAMED_CURRENCY}, which the boat file does not name`;
  const without = unpriced.length === 0 ? '' : ` Without a price: ${unpriced.join(', ')}.`;
  if (passage === null) return without === '' ? [] : [without.trim()];
  const perMile = perNm === null ? '' : `, ${rangeText(perNm)} for each mile`;
  return [`Worn off new sails by this passage: ${rangeText(passage)} ${of}${perMile}.${without}`];
}

/** The section of plan.md. */
export function wearSection(wear: Wear | undefined): string[] {
  if (wear === undefined) return [];
  return ['## Wear', ...wearTold(wear), ...constantTexts(wear.constants).map(escaped)];
}

/** What it says but for the constants. */
export function wearTold(wear: Wear): string[] {
  const notes = wear.sails.flatMap(sailNotes);
  return [
    'Share of each sail\'s life that this passage takes, in percent, by load, sun and handling (sets, reefs, turns, slatting). In brackets the least and the most that any ends of the constants give together; "not surely" is what other ends turn. Nothing in harbour is counted.',
    escaped(firstText(wear)),
    table(
      [
        'sail',
        'cloth',
        'hours',
        'load',
        'sun',
        'handling',
        'all',
        'most by',
        'used before',
        'left',
        'hours left of this',
        'look at it',
        `money, ${currencyOf(wear) ?? UNNAMED_CURRENCY}`,
      ],
      wear.sails.map(sailRow),
    ),
    ...moneyTexts(wear).map(escaped),
    ...(notes.length === 0 ? [] : [notes.map((note) => `- ${escaped(note)}`).join('\n')]),
    ...(wear.slattingUnknownHours > 0
      ? [
          `Slatting is not counted in ${fixed(wear.slattingUnknownHours, 0)} h of light air in which the waves are not known.`,
        ]
      : []),
  ];
}

function sailRow(sail: SailWear): string[] {
  const { cause, causeIsSure, hoursLeft, money, lookAt } = sail;
  return [
    sail.sail,
    sail.cloth,
    fixed(sail.hours, 0),
    percent(sail.load),
    percent(sail.ultraviolet),
    percent(sail.handling),
    percent(sail.total),
    cause === null ? '' : causeText(cause, causeIsSure),
    usedText(sail.usedBefore),
    percent(sail.left),
    hoursLeft === null ? '' : rangeText(hoursLeft),
    lookAtText(lookAt),
    money === null ? '' : rangeText(money),
  ];
}

function sailNotes({ sail, overDesignHours, recalibratedBy, priceFrom, total }: SailWear): string[] {
  return [
    ...(total === null
      ? [`${sail}: of such a cloth nothing is known; give its constants under "life" in the boat file.`]
      : []),
    ...(overDesignHours > 0
      ? [
          `${sail}: ${significant(overDesignHours, 2)} h in gusts over what its cloth is made for; they count as at that, for beyond it is strength that fails.`,
        ]
      : []),
    ...(recalibratedBy === null
      ? []
      : [`${sail}: wears ${rangeText(recalibratedBy)} times as fast as by the constants alone, by its inspection.`]),
    ...(priceFrom === 'default' && total !== null && total.mid > 0
      ? [`${sail}: its price is a placeholder, by area and cloth in EUR.`]
      : []),
  ];
}

const STATUS_WORDS = {
  placeholder: 'Placeholders without a source',
  'common-practice': 'Common practice, no source',
  derived: 'Derived',
  source: 'From a source',
  'boat-file': 'From the boat file',
} as const;

/** Every constant by how far it is to be trusted. */
function constantTexts(constants: readonly WearConstant[]): string[] {
  return Object.entries(STATUS_WORDS).flatMap(([status, words]) => {
    const ofStatus = constants.filter((constant) => constant.status === status);
    const owners = [...new Set(ofStatus.map(({ of }) => of))];
    const parts = owners.map(
      (of) =>
        `${of === 'all' ? 'for all sails' : `for ${of}`} ${ofStatus
          .filter((constant) => constant.of === of)
          .map(
            ({ name, source, ...range }) =>
              `${name} ${constantText(range)}${source === undefined ? '' : ` (${source})`}`,
          )
          .join(', ')}`,
    );
    return parts.length === 0 ? [] : [`${words}: ${parts.join('; ')}.`];
  });
}

function constantText({ low, mid, high }: Range): string {
  const [least, middle, most] = [low, mid, high].map((value) => significant(value, 4));
  return least === most ? middle! : `${middle} (${least} to ${most})`;
}
