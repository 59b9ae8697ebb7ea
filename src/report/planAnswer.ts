import { duration, fixed, landfallText, type PlanToPrint } from '../output/output.js';
import { hoursText, whenText } from './charts/instants.js';
import type { PlanInLog } from './charts/plansInLog.js';
import type { Figures } from './document/figures.js';
import { escaped } from './drawing/svg.js';

/** When she arrives, with which sails, and what to look out for. */
export function planAnswer(
  { passage, totals, wear }: PlanToPrint,
  plans: readonly PlanInLog[],
  { told }: Figures,
): readonly string[] {
  const { hours, curve, complete } = passage;
  const count = (path: string, value: number, one: string, many: string) =>
    `${told(path, `${value}`)} ${value === 1 ? one : many}`;
  const way = `${told('totals.hours', duration(totals.hours))} for ${told('totals.distanceNm', `${fixed(totals.distanceNm, 0)} Nm`)}`;
  const landfall = landfallText(passage);
  const arrival = complete
    ? `Arrives ${told('end', whenText(passage.end))} UTC${landfall === undefined ? '' : ` (${escaped(landfall)})`}: ${way}.`
    : `Does not arrive: the plan breaks off ${told('end', whenText(passage.end))} UTC after ${way}, with ${told('distanceToGoNm', `${fixed(passage.distanceToGoNm, 0)} Nm`)} to go.`;
  const most = plans.slice(0, 2).map(({ id, code, hours: set }) => {
    const path = `totals.sailPlans[${totals.sailPlans.findIndex((tally) => tally.id === id)}].hours`;
    return `${told(path, hoursText(set))} under ${escaped(id)} (${code})`;
  });
  const { day, night } = totals.changesAt;
  const sails = [
    `${count('totals.sailChanges', totals.sailChanges, 'sail change', 'sail changes')}, ${told('totals.changesAt.day', `${day}`)} by day and ${told('totals.changesAt.night', `${night}`)} by night`,
    ...most,
  ].join('; ');
  const strongest = hours.reduce((top, hour, i) => (hour.gustKn > (hours[top]?.gustKn ?? -1) ? i : top), 0);
  const chosen = curve?.findIndex((point) => point.chosen) ?? -1;
  const least = (curve?.length ?? 0) - 1;
  const lookOut = [
    ...(hours.length === 0
      ? []
      : [
          `The limit gust reaches ${told(`hours[${strongest}].gustKn`, `${fixed(hours[strongest]!.gustKn, 0)} kn`)} (${told(`hours[${strongest}].time`, whenText(hours[strongest]!.time))} UTC)`,
        ]),
    ...(curve === undefined || chosen < 0 || chosen === least
      ? []
      : [
          `${told(`curve[${least}].changes`, `${curve[least]!.changes}`)} ${curve[least]!.changes === 1 ? 'change' : 'changes'} would arrive ${told(`curve[${least}].arrival`, whenText(curve[least]!.arrival))}`,
        ]),
    ...(wear?.first === null || wear?.first === undefined ? [] : [`first wears ${escaped(wear.first.sail)}`]),
  ].join('; ');
  return [arrival, `${sails}.`, ...(lookOut === '' ? [] : [`${lookOut}.`])];
}
