import type { Hour, Passage, TradeoffPoint } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import { isOnKnifeEdge } from '../totals/totals.js';
import { zoneClock, zoneLabel } from '../zoneTime.js';
import { duration, fixed } from './format.js';

/** When she arrives by the ship's clock, and whether by daylight; none where she does not. */
export function landfallText({ complete, end, hours, warnings }: Passage): string | undefined {
  const last = hours.at(-1);
  if (!complete || last === undefined) return undefined;
  const { date, clock } = zoneClock(parseInstant(end) as number, last.zoneHours);
  const dark = warnings.some(({ code }) => code === 'arrival-dark');
  return `${date} ${clock} by the ship's clock (${zoneLabel(last.zoneHours)}), ${dark ? 'in the dark' : 'by daylight'}`;
}

/** What the choice rests on and leaves out, a line each. */
export function choiceNotes({ options, squalls, foresight, curve = [] }: Passage): string[] {
  if (options.choice === 'fastest') {
    return [
      'Each hour by itself the fastest plan: changes cost no time and of the house rules only windows and daylight hold. Nobody sails so; it is the baseline, and its sail changes are the most there would be.',
    ];
  }
  const { pricePerChangeMinutes } = options.house;
  const chosen = curve.find((point) => point.chosen);
  return [
    `A sail change is worth ${fixed(pricePerChangeMinutes, 0)} min of arrival time; tradeoff.csv has the earliest arrival for every number of changes.`,
    ...(chosen === undefined || foresight !== undefined ? [] : curveNotes(curve, chosen)),
    ...(squalls === undefined ? [] : [squallText(squalls, options.house.squallChance !== null)]),
    ...(foresight === undefined ? [] : [foresightText(foresight)]),
  ];
}

/** What more changes would bring, and why there are not fewer. */
function curveNotes(curve: NonNullable<Passage['curve']>, chosen: TradeoffPoint): string[] {
  const [first, best] = [curve[0]!, curve.at(-1)!];
  // Where she is sailed with the fewest changes that arrive.
  const short = curve.find(({ changes, estimated }) => estimated && changes === chosen.changes - 1);
  const earlier = chosen.hours - best.hours;
  return [
    ...(earlier * 60 < 1
      ? []
      : [`With ${best.changes} changes instead of ${chosen.changes} she would be ${duration(earlier)} earlier.`]),
    ...(short === undefined || chosen.estimated
      ? []
      : [
          `With ${short.changes === 0 ? 'no change' : `${short.changes} changes or fewer`} she would not arrive within the forecast, so that is passed over.`,
        ]),
    ...(first.changes > 0 && first === chosen && !chosen.estimated
      ? [`With fewer than ${first.changes} ${first.changes === 1 ? 'change' : 'changes'} she cannot get there.`]
      : []),
  ];
}

function squallText({ allowedFor, expected, hours }: NonNullable<Passage['squalls']>, ownChance: boolean): string {
  const about = `About ${fixed(expected, 1)} squalls are to be expected (their chance is ${ownChance ? 'that of the house rules' : 'a placeholder without a source'})`;
  return allowedFor
    ? `${about}; the limit gust allows for them in ${fixed(hours, 0)} h.`
    : `SQUALLS ARE NOT ALLOWED FOR. A forecast on a grid does not show them. ${about}.`;
}

function foresightText({
  horizonHours,
  replanHours,
  costHours,
  costWithPricesHours,
}: NonNullable<Passage['foresight']>): string {
  const planned = `Planned with the weather known ${horizonHours} h ahead, again every ${replanHours} h`;
  if (costHours === null || costWithPricesHours === null)
    return `${planned}: she does not arrive, or would not have with all weather known.`;
  const later = `${duration(Math.abs(costHours))} ${costHours < 0 ? 'earlier' : 'later'}`;
  // Tables and what is sailed by them differ by minutes.
  const priced =
    costWithPricesHours < 0
      ? `${duration(-costWithPricesHours)} are gained by luck`
      : `not knowing the rest costs ${duration(costWithPricesHours)}`;
  return `${planned}: she arrives ${later} than with all weather known, and with the prices of changes ${priced}. tradeoff.csv is of all weather known.`;
}

/** Hours on a knife's edge: the plan stands in less than half of the winds near the forecast's; one line for hours in a row. */
export function knifeEdgeLines(hours: readonly Hour[]): string[] {
  const lines: string[] = [];
  for (let from = 0; from < hours.length; from += 1) {
    if (!isOnKnifeEdge(hours[from]!)) continue;
    let to = from;
    while (to + 1 < hours.length && isOnKnifeEdge(hours[to + 1]!) && hours[to + 1]!.sailPlan === hours[from]!.sailPlan)
      to += 1;
    const least = Math.min(...hours.slice(from, to + 1).map(({ standsShare }) => standsShare!));
    lines.push(
      `${hours[from]!.time}, ${to - from + 1} h under ${hours[from]!.sailPlan}: stands in ${fixed(100 * least, 0)} % of them`,
    );
    from = to;
  }
  return lines;
}
