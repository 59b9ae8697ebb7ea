import { describeFault } from '../errors.js';
import type { Land } from '../land/land.js';
import {
  choiceNotes,
  climateLines,
  estimateLines,
  estimateNotes,
  type PlanToPrint,
  placeholderNote,
  planFirstLine,
  planJson,
  watchPlan,
} from '../output/output.js';
import { optionMarks } from '../passage/passage.js';
import { changesShown } from './charts/changesShown.js';
import { daysRunsChart } from './charts/daysRuns.js';
import { extentOf } from './charts/extent.js';
import { hoursText } from './charts/instants.js';
import { passageMap } from './charts/passageMap.js';
import { plansInLog } from './charts/plansInLog.js';
import { sailHoursChart } from './charts/sailHours.js';
import { timelineChart } from './charts/timeline.js';
import { tradeoffChart } from './charts/tradeoff.js';
import { wearChart } from './charts/wearBars.js';
import { windowsChart } from './charts/windows.js';
import { behindMarkup } from './document/behind.js';
import { documentOf, type Section } from './document/document.js';
import { captioned, figureOf, folded } from './document/figure.js';
import { figuresOf } from './document/figures.js';
import { paragraphOf } from './document/html.js';
import { keysOf } from './document/keys.js';
import { markdownHtml } from './document/markdownHtml.js';
import { wardrobeMarks, wearMarks } from './document/marksTable.js';
import { knifeEdgeMarkup } from './knifeEdgeTable.js';
import { planAnswer } from './planAnswer.js';
import { changesTable, curveTable, hoursTable, planTable, runsTable, sailsTable, windowsTable } from './planTables.js';
import { wearMarkup } from './planWear.js';

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
  const changes = changesShown(plan);
  const keys = keysOf(plans.map((shown) => ({ ...shown, told: hoursText(shown.hours) })));
  const section = (id: string, title: string, ...markup: readonly string[]): Section => ({
    id,
    title,
    markup: markup.join(''),
  });
  const { curve } = passage;
  const strongest = extentOf(passage.hours.map(({ gustKn }) => gustKn))[1];
  const gusts = [`hours[${passage.hours.findIndex(({ gustKn }) => gustKn === strongest)}].gustKn`];
  const hoursOf = plan.totals.sails.map((_, i) => `totals.sails[${i}].hours`);
  const runEnds = ['bestRun', 'worstRun'].flatMap((run) => [`totals.${run}.distanceNm`, `totals.${run}.date`]);
  const curveEnds = [0, (curve?.length ?? 0) - 1, curve?.findIndex(({ chosen }) => chosen)].flatMap((i) => [
    `curve[${i}].changes`,
    `curve[${i}].hours`,
  ]);
  const notes = choiceNotes(passage).map(paragraphOf);
  const sections: Section[] = [
    section(
      'map',
      'The passage',
      figureOf(
        passageMap(plan, plans, changes, land),
        [keys],
        folded('Noon positions and all hours', hoursTable(plan)),
      ),
    ),
    section(
      'timeline',
      'Which sails, when',
      figureOf(captioned(timelineChart(plan, plans, changes), figures, ...gusts), [keys], changesTable(plan, changes)),
      // Where there is no trade-off, what the choice rests on is told here.
      ...(curve === undefined ? notes : []),
      knifeEdgeMarkup(plan, figures),
    ),
    section(
      'windows',
      "Apparent wind over the wardrobe's windows",
      figureOf(windowsChart(plan), [], windowsTable(plan, figures)),
    ),
    section(
      'hours',
      'Hours on each sail',
      figureOf(
        captioned(sailHoursChart(plan), figures, 'totals.hours', ...hoursOf),
        [],
        sailsTable(plan),
        planTable(plan),
      ),
    ),
    ...(curve === undefined
      ? []
      : [
          section(
            'tradeoff',
            'What sail changes buy',
            figureOf(
              captioned(tradeoffChart(curve), figures, ...curveEnds),
              [],
              folded('The curve as a table', curveTable(curve)),
            ),
            ...notes,
          ),
        ]),
    section(
      'runs',
      "Day's runs",
      figureOf(
        captioned(daysRunsChart(plan), figures, ...runEnds),
        [],
        folded("Day's runs as a table", runsTable(plan, figures)),
      ),
    ),
    ...(wear === undefined
      ? []
      : [section('wear', 'Wear, and life left', figureOf(wearChart(wear), []), wearMarkup(wear, figures))]),
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
        marks: optionMarks(passage.options),
        formatVersion: passage.formatVersion,
        ...(version === undefined ? {} : { version }),
      }),
    ),
  ];
  return documentOf({
    title: `${boat.name}: ${route.waypoints[0]!.name} to ${route.waypoints.at(-1)!.name}`,
    firstLine: planFirstLine(passage),
    status: [...estimateLines(passage), ...climateLines(passage)],
    answer: planAnswer(plan, plans, figures),
    warnings: passage.warnings.map(describeFault),
    sections,
    fills: plans.map(({ fill }) => fill),
  });
}
