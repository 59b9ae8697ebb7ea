import type { Hour, Passage } from '../passage/passage.js';
import { parseInstant } from '../time.js';
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
export function choiceNotes({ options, squalls, foresight, curve }: Passage): string[] {
  if (options.choice === 'fastest') {
    return [
      'Each hour by itself the fastest plan: changes cost no time and of the house rules only windows and daylight hold. Nobody sails so; it is the baseline, and its sail changes are the most there would be.',
    ];
  }
  const { pricePerChangeMinutes } = options.house;
  const best = curve?.at(-1);
  const chosen = curve?.find((point) => point.chosen);
  return [
    `A sail change is worth ${fixed(pricePerChangeMinutes, 0)} min of arrival time; tradeoff.csv has the earliest arrival for every number of changes.`,
    ...(best === undefined || chosen === undefined || best.changes <= chosen.changes
      ? []
      : [
          `With ${best.changes} changes instead of ${chosen.changes} she would be ${duration(chosen.hours - best.hours)} earlier.`,
        ]),
    ...(squalls === undefined ? [] : [squallText(squalls, options.house.squallChance !== null)]),
    ...(foresight === undefined ? [] : [foresightText(foresight)]),
  ];
}

function squallText({ allowedFor, expected, hours }: NonNullable<Passage['squalls']>, ownChance: boolean): string {
  const about = `About ${fixed(expected, 1)} squalls are to be expected (their chance is ${ownChance ? 'that of the house rules' : 'a placeholder without a source'})`;
  return allowedFor
    ? `${about}; the limit gust allows for them in ${fixed(hours, 0)} h.`
    : `SQUALLS ARE NOT ALLOWED FOR. A forecast on a grid does not show them. ${about}.`;
}

function foresightText({ horizonHours, replanHours, costHours }: NonNullable<Passage['foresight']>): string {
  const cost =
    costHours === null
      ? 'she does not arrive, or would not have with all weather known'
      : `not knowing the rest costs ${costHours < 0 ? `less than nothing, ${duration(-costHours)} gained by luck` : duration(costHours)}`;
  return `Planned with the weather known ${horizonHours} h ahead, again every ${replanHours} h: ${cost}.`;
}

/** Hours on a knife's edge: the plan stands in less than half of the winds near the forecast's; one line for hours in a row. */
export function knifeEdgeLines(hours: readonly Hour[]): string[] {
  const isEdge = ({ standsShare }: Hour) => standsShare !== null && standsShare < KNIFE_EDGE;
  const lines: string[] = [];
  for (let from = 0; from < hours.length; from += 1) {
    if (!isEdge(hours[from]!)) continue;
    let to = from;
    while (to + 1 < hours.length && isEdge(hours[to + 1]!) && hours[to + 1]!.sailPlan === hours[from]!.sailPlan)
      to += 1;
    const least = Math.min(...hours.slice(from, to + 1).map(({ standsShare }) => standsShare!));
    lines.push(
      `${hours[from]!.time}, ${to - from + 1} h under ${hours[from]!.sailPlan}: stands in ${fixed(100 * least, 0)} % of them`,
    );
    from = to;
  }
  return lines;
}

const KNIFE_EDGE = 0.5;
