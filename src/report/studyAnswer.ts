import { chancePassed, duration, fixed, passagesText, type StudyToPrint } from '../output/output.js';
import { whenText } from './charts/instants.js';
import type { NamedRoute } from './charts/routesMap.js';
import type { Figures } from './document/figures.js';
import { escaped } from './drawing/svg.js';

/** How many passages, from where to where and in which boat; names of files where there are no better ones. */
export function studyTitle(study: StudyToPrint, routes: readonly NamedRoute[], boatNames: readonly string[]): string {
  const ways = routes.map(({ route: { waypoints } }) => `${waypoints[0]!.name} to ${waypoints.at(-1)!.name}`);
  const [of, in_] = [ways.length === 0 ? study.routes : ways, boatNames.length === 0 ? study.boats : boatNames];
  return `${passagesText(study.summary.all.passages)}: ${[...new Set(of)].join(', ')}; ${[...new Set(in_)].join(', ')}`;
}

/** How long it takes and when to go, what it does to the sails, and what the chances are. */
export function studyAnswer({ summary }: StudyToPrint, { told, tied }: Figures): readonly string[] {
  const { all, starts, bestStarts } = summary;
  const { hours } = all;
  const under =
    hours === null
      ? 'No passage arrives.'
      : `A passage takes ${told('summary.all.hours.mean', duration(hours.mean))} in the mean, ${told('summary.all.hours.p5', duration(hours.p5))} to ${told('summary.all.hours.p95', duration(hours.p95))} in nine of ten.`;
  const best = starts.findIndex(({ name }) => name === bestStarts[0]);
  const bestHours = starts[best]?.hours ?? null;
  const when =
    starts.length < 2 || bestHours === null
      ? ''
      : ` Best start by the weights: ${told(`summary.starts[${best}].name`, whenText(starts[best]!.name))} UTC, ${told(`summary.starts[${best}].hours.mean`, duration(bestHours.mean))}.`;
  const most = all.sails
    .map((sail, i) => ({ ...sail, i }))
    .sort((a, b) => b.hours.mean - a.hours.mean)
    .slice(0, 3)
    .map(
      ({ id, hours: set, i }) =>
        `${escaped(id)} ${told(`summary.all.sails[${i}].hours.mean`, `${fixed(set.mean, 0)} h`)}`,
    );
  const { changes } = all.metrics;
  const sails = `Set longest: ${most.join(', ')} a passage${changes === null ? '' : `; ${told('summary.all.metrics.changes.mean', fixed(changes.mean, 1))} sail changes`}.`;
  const chances = all.chances.map((chance, i) => {
    const share = chance.share === null ? 'not known' : `${fixed(100 * chance.share, 0)} %`;
    const of = `summary.all.chances[${i}]`;
    return `${tied(`${chancePassed(chance)}: `, `${of}.limit`)} ${tied(share, `${of}.share`)}`;
  });
  return [`${under}${when}`, sails, ...(chances.length === 0 ? [] : [`Chances: ${chances.join('; ')}.`])];
}
