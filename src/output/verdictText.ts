import type { Fault } from '../errors.js';
import type { WindHours } from '../study/study.js';
import type { Difference, Turn, Worth } from '../worth/worth.js';
import { fixed, UNNAMED_CURRENCY } from './format.js';
import { passagesText } from './studyText.js';

/** A sum of money, whole; small ones to two decimals. */
export const moneyText = (value: number, currency: string | null): string =>
  `${fixed(value, Math.abs(value) < 20 && !Number.isInteger(Number(value.toFixed(6))) ? 2 : 0)} ${currency ?? UNNAMED_CURRENCY}`;

/** A band of wind and angle in words. */
export const windText = ({ twsFromKn, twaFromDeg }: Pick<WindHours, 'twsFromKn' | 'twaFromDeg'>): string =>
  `${twsFromKn} to ${twsFromKn + 5} kn at TWA ${twaFromDeg} to ${twaFromDeg + 20}`;

/** The answer in one paragraph. */
export const verdictText = (worth: Worth, warnings: readonly Fault[]): string =>
  verdictLines(worth, warnings).join(' ');

/** The answer sentence by sentence, what it comes to first. */
export const verdictLines = (worth: Worth, warnings: readonly Fault[]): readonly string[] => [
  headline(worth),
  ...reasons(worth, warnings),
];

function headline(worth: Worth): string {
  const { verdict, money, currency, newSails, a, b, alike } = worth;
  if (alike)
    return `A and B are the same: ${a} and ${b} have the same sails, rules and speeds. There is nothing to compare, and nothing to pay for.`;
  const [what, inText] = newSails.length === 1 ? [`The ${newSails[0]}`, `the ${newSails[0]}`] : [b, b];
  const { prices, net, chancePays, passagesToBreakEven, milesToBreakEven } = money;
  const chance =
    chancePays === null ? '' : ` (by these passages alone the chance that it pays is ${fixed(100 * chancePays, 0)} %)`;
  const over = `over ${prices.years} years and ${fixed(prices.milesPerYear.mid, 0)} miles a year`;
  const even =
    passagesToBreakEven === null
      ? ''
      : `${fixed(passagesToBreakEven, 1)} such passages, ${fixed(milesToBreakEven!, 0)} miles`;
  // Where nothing is bought there is no price to be paid for.
  if (
    money.cost === 0 &&
    newSails.length === 0 &&
    prices.from.price === 'none' &&
    net !== null &&
    verdict.answer !== 'cannot-tell' &&
    verdict.answer !== 'no-difference'
  )
    return `Nothing is bought here: ${over} ${b} ${net.mid < 0 ? 'costs' : 'saves'} ${moneyText(Math.abs(net.mid), currency)} by what hours, nights, fuel and wear are worth${chance}.`;
  switch (verdict.answer) {
    case 'no-difference':
      return `${what} changes nothing on these passages.`;
    case 'pays':
      return `${what} pays ${over}: ${moneyText(net!.mid, currency)} are left${chance}; it has paid after ${even}.`;
    case 'does-not-pay': {
      if (net === null) return `${what} does not pay on these passages: it is better in nothing that is looked at.`;
      const later = even === '' ? '' : `; it would have paid after ${even}`;
      return `${what} does not pay on these passages: ${over} ${moneyText(-net.mid, currency)} are lost${chance}${later}.`;
    }
    case 'not-in-money':
      if (net !== null)
        return `In money alone ${inText} does not pay on these passages, for nothing but the wear of sails has a price here; what it does for hours, nights and quiet is for the owner to weigh.`;
      return money.cost === null && worth.flown.length === 0
        ? `Nothing is bought here: what ${inText} does for hours, nights and quiet is for the owner to weigh.`
        : `Without its price nobody can say whether ${inText} pays: it saves ${moneyText(money.savedPerPassage.mid, currency)} on a passage, and what it does for hours, nights and quiet is for the owner to weigh.`;
    case 'cannot-tell':
      return verdict.estimated
        ? `It cannot be told whether ${inText} ${verdict.by === 'net' ? 'pays' : 'is faster'}: speeds are estimated, and within what they may be off the answer has both signs (${turnsText(worth)}).`
        : `It cannot be told whether ${inText} ${verdict.by === 'net' ? 'pays' : 'is faster'}: within the band of speed the answer has both signs (${turnsText(worth)}). The number of passages does not change that.`;
  }
}

/** What turns it, at its ends, beside the same passages as they are. */
function turnsText({ turns, verdict, currency, passages }: Worth): string {
  const first = turns.find(({ input }) => verdict.turnedBy.includes(input));
  if (first === undefined) return '';
  const answer = ({ hours, net }: Turn['usual']) =>
    verdict.by === 'net' ? moneyText(net ?? 0, currency) : `${fixed(0 - hours, 1)} h saved`;
  const ends = [first.low, first.high].flatMap((end) => (end === null ? [] : [`${end.text}: ${answer(end)}`]));
  const told = [`${triedOn(first, passages)} ${answer(first.usual)} as it is`, ...ends].join('; ');
  // The sample may lie on one side with all of its ends: it is what it moves that counts.
  return first.passages === passages.both
    ? told
    : `${told}; moved by as much, the mean of all ${passages.both} has both signs`;
}

/** The passages of which a turned answer tells: those that were sailed anew, whose mean is another than that of all. */
const triedOn = ({ passages: tried }: Pick<Turn, 'passages'>, { both }: Worth['passages']) =>
  tried < both
    ? `on the ${passagesText(tried)} on which this was tried`
    : both === 1
      ? 'on this passage'
      : `on these ${passagesText(both)}`;

function reasons(worth: Worth, warnings: readonly Fault[]): string[] {
  const { differences, money, flown, verdict, currency, passages } = worth;
  if (verdict.answer === 'no-difference') return [];
  const flew = flown.reduce((sum, { hours }) => sum + hours.mean, 0);
  if (flown.length > 0 && flew === 0) {
    const beyond = warnings.find(({ code, file }) => code === 'beyond-crew' && file === worth.b);
    return [
      `It was never set on ${passagesText(passages.both)}${beyond === undefined ? '' : ': it takes more hands than her crew has'}.`,
    ];
  }
  const { hours } = differences;
  const mean = (metric: 'changes' | 'night-changes' | 'operations' | 'hand-hours' | 'without-main-hours') =>
    differences[metric]?.mid ?? 0;
  const [first] = flown;
  const timed = timedText(hours);
  const more = (value: number, what: string) =>
    Math.abs(value) < 0.05 ? [] : [`${fixed(Math.abs(value), 1)} ${value < 0 ? 'fewer' : 'more'} ${what}`];
  const also = [
    ...more(mean('changes'), 'sail changes'),
    ...more(mean('night-changes'), 'changes by night'),
    ...more(mean('operations'), 'operations'),
    ...more(mean('hand-hours'), 'hours of hands at them'),
    ...more(mean('without-main-hours'), 'hours without main'),
  ];
  const sentences = [
    `On a passage ${timed}${also.length === 0 ? '' : `, with ${also.join(', ')}`}.`,
    ...bandText(worth),
    ...(first === undefined
      ? []
      : [
          flown.length > 1
            ? `They flew ${flown.map(({ id, hours: own }) => `${fixed(own.mean, 0)} h (${id})`).join(', ')} of a passage${displacedText(worth)}.`
            : `It flew ${fixed(flew, 0)} h of a passage, ${fixed(100 * first.shareOfHours, 0)} % of them, and in ${fixed(100 * first.shareOfPassages, 0)} % of the passages${displacedText(worth)}.`,
        ]),
  ];
  if (money.cost !== null && money.costPerHourFlown !== null)
    sentences.push(
      `An hour under it costs ${moneyText(money.costPerHourFlown, currency)}${money.costPerHoist === null ? '' : `, a hoist ${moneyText(money.costPerHoist, currency)}`}.`,
    );
  const { net } = money;
  if (net !== null && passages.both === 1) sentences.push('One passage tells of no other.');
  if (
    net !== null &&
    net.low !== null &&
    net.high !== null &&
    net.low < 0 &&
    net.high > 0 &&
    verdict.answer !== 'cannot-tell'
  )
    sentences.push(
      `So few passages leave it open: by their number alone the net lies between ${moneyText(net.low, currency)} and ${moneyText(net.high, currency)}.`,
    );
  if (verdict.answer !== 'pays' && money.hourValueToPay !== null && money.hourValueToPay > 0)
    sentences.push(`It would pay if an hour were worth ${moneyText(money.hourValueToPay, currency)}.`);
  if (money.cost !== null && money.ownWear === null && worth.newSails.length > 0)
    sentences.push('How it wears is not known: it is taken to last.');
  if (money.never === 'wears-out') sentences.push('A passage takes more of its life than it saves.');
  const [one] = verdict.toMeasure;
  if (one !== undefined)
    sentences.push(
      `It would be settled by measured speeds: an hour under ${one.plan}${one.rival === null ? '' : ` and one under ${one.rival}`} in ${windText(one)}${verdict.toMeasure.length > 1 ? ', and the other winds listed' : ''}.`,
    );
  return sentences;
}

/** How much faster, and between what by the number of passages. */
function timedText(hours: Difference | null): string {
  if (hours === null || Math.abs(hours.mid) < 0.05) return 'it takes as long';
  const [from, to] = hours.mid < 0 ? [hours.high, hours.low] : [hours.low, hours.high];
  const sign = hours.mid < 0 ? -1 : 1;
  const ends =
    from === null || to === null
      ? ''
      : `, between ${fixed(sign * from, 1)} and ${fixed(sign * to, 1)} by the number of passages`;
  return `it is ${fixed(Math.abs(hours.mid), 1)} h ${hours.mid < 0 ? 'faster' : 'slower'} in the mean${ends}`;
}

/** What an estimate may be off, where it does not turn the answer. */
function bandText({ turns, verdict, flown, passages }: Worth): string[] {
  const band = turns.find(({ input }) => input === 'speed-band');
  if (!verdict.estimated || band === undefined || verdict.answer === 'cannot-tell' || flown.length === 0) return [];
  const ends = [band.low, band.high].flatMap((end) =>
    end === null ? [] : [{ hours: end.hours, when: `if it is ${end.text}` }],
  );
  const all = [{ hours: band.usual.hours, when: 'as it is' }, ...ends].map(({ hours, when }) => ({
    verb: Number(hours.toFixed(1)) > 0 ? 'loses' : 'saves',
    said: `${fixed(Math.abs(hours), 1)} h ${when}`,
  }));
  const told = all.map(({ verb, said }, i) => (verb === all[i - 1]?.verb ? said : `${verb} ${said}`));
  return [`Speeds are estimated: ${triedOn(band, passages)} it ${told.join(', ')}.`];
}

/** The sail that lost most hours to it. */
function displacedText({ sails }: Worth): string {
  const lost = sails
    .filter((sail) => sail.of !== 'new' && sail.of !== 'changed' && sail.hours.mid < -0.5)
    .sort((a, b) => a.hours.mid - b.hours.mid);
  return lost.length === 0
    ? ''
    : `; ${lost
        .slice(0, 2)
        .map(({ id, hours }) => `${id} was set ${fixed(-hours.mid, 0)} h less`)
        .join(', ')}`;
}
