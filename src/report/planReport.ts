import type { Land } from '../land/land.js';
import {
  changeReasons,
  choiceNotes,
  climateLines,
  duration,
  estimateLines,
  estimateNotes,
  fixed,
  knifeEdgeSection,
  landfallText,
  type PlanToPrint,
  placeholderNote,
  planFirstLine,
  planJson,
  watchPlan,
  wearTold,
} from '../output/output.js';
import { daysRunsChart } from './charts/daysRuns.js';
import { whenText } from './charts/instants.js';
import { passageMap } from './charts/passageMap.js';
import { type PlanInLog, plansInLog } from './charts/plansInLog.js';
import { sailHoursChart } from './charts/sailHours.js';
import { timelineChart } from './charts/timeline.js';
import { tradeoffChart } from './charts/tradeoff.js';
import { wearChart } from './charts/wearBars.js';
import { windowsChart } from './charts/windows.js';
import { behindMarkup } from './document/behind.js';
import { documentOf, type Section } from './document/document.js';
import { figureOf, folded } from './document/figure.js';
import { type Figures, figuresOf } from './document/figures.js';
import { paragraphOf } from './document/html.js';
import { keysOf } from './document/keys.js';
import { markdownHtml } from './document/markdownHtml.js';
import { wardrobeMarks, wearMarks } from './document/marksTable.js';
import { escaped } from './drawing/svg.js';
import { changesTable, curveTable, hoursTable, planTable, runsTable, sailsTable, windowsTable } from './planTables.js';

/** What a report takes beside the records it shows. */
export interface ReportOptions {
  /** The coast that maps are drawn with; absent: none is drawn, and the map says so. */
  readonly land?: Land;
  /** The version of the program that made the plan. */
  readonly version?: string;
}

/**
 * A plan as one self-contained file of HTML for people: the answer, map, timeline, windows, hours, trade-off, runs, wear, the watch plan and
 * all it is made from. Every figure in it stands in `planJson` of the same plan.
 *
 * @example
 * planReport(sample.plan) // '<!doctype html>…'
 */
export function planReport(plan: PlanToPrint, { land, version }: ReportOptions = {}): string {
  const { passage, route, boat, wear, inputs } = plan;
  const figures = figuresOf(JSON.parse(planJson(plan)));
  const plans = plansInLog(plan);
  const reasons = changeReasons(passage);
  const keys = keysOf(plans.map((shown) => ({ ...shown, told: `${fixed(shown.hours, 0)} h` })));
  const section = (id: string, title: string, ...markup: readonly string[]): Section => ({
    id,
    title,
    markup: markup.join(''),
  });
  const { curve } = passage;
  const sections: Section[] = [
    section(
      'map',
      'The passage',
      figureOf(
        passageMap(plan, plans, reasons, land),
        [keys],
        folded('Noon positions and all hours', hoursTable(plan)),
      ),
    ),
    section(
      'timeline',
      'Which sails, when',
      figureOf(timelineChart(plan, plans, reasons), [keys], changesTable(plan, reasons)),
      ...markdownSections(knifeEdgeSection(passage)),
    ),
    section(
      'windows',
      "Apparent wind over the wardrobe's windows",
      figureOf(windowsChart(plan), [], windowsTable(plan)),
    ),
    section('hours', 'Hours on each sail', figureOf(sailHoursChart(plan), [], sailsTable(plan), planTable(plan))),
    ...(curve === undefined
      ? []
      : [
          section(
            'tradeoff',
            'What sail changes buy',
            figureOf(tradeoffChart(curve), [], folded('The curve as a table', curveTable(curve))),
            ...choiceNotes(passage).map(paragraphOf),
          ),
        ]),
    section('runs', "Day's runs", figureOf(daysRunsChart(plan), [], folded("Day's runs as a table", runsTable(plan)))),
    ...(wear === undefined
      ? []
      : [section('wear', 'Wear, and life left', figureOf(wearChart(wear), []), markdownHtml(wearTold(wear)))]),
    section('watches', 'Watch plan', markdownHtml(watchPlan(plan).slice(1))),
    section(
      'behind',
      'What it is made from',
      ...estimateNotes(passage).map(paragraphOf),
      ...placeholderNote(plan).map(paragraphOf),
      wardrobeMarks(boat.sails),
      wearMarks(wear?.constants ?? []),
      behindMarkup({
        warnings: passage.warnings,
        inputs,
        options: passage.options,
        placeholders: passage.options.placeholders,
        formatVersion: passage.formatVersion,
        ...(version === undefined ? {} : { version }),
      }),
    ),
  ];
  return documentOf({
    title: `${boat.name}: ${route.waypoints[0]!.name} to ${route.waypoints.at(-1)!.name}`,
    firstLine: planFirstLine(passage),
    status: [...estimateLines(passage), ...climateLines(passage)],
    answer: answerOf(plan, plans, figures),
    sections,
    fills: plans.map(({ fill }) => fill),
  });
}

const markdownSections = (sections: readonly string[]) => (sections.length === 0 ? [] : [markdownHtml(sections, 1)]);

/** When she arrives, with which sails, and what to look out for. */
function answerOf(
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
    return `${told(path, `${fixed(set, 0)} h`)} under ${escaped(id)} (${code})`;
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
          `${told(`curve[${least}].changes`, `${curve[least]!.changes}`)} changes would arrive ${told(`curve[${least}].arrival`, whenText(curve[least]!.arrival))}`,
        ]),
    ...(wear?.first === null || wear?.first === undefined ? [] : [`first wears ${escaped(wear.first.sail)}`]),
  ].join('; ');
  return [arrival, `${sails}.`, ...(lookOut === '' ? [] : [`${lookOut}.`])];
}
