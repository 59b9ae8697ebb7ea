import type { DaysRun, HoursBand, OperationCounts, Tally, Totals } from '../totals/totals.js';
import { duration, fixed } from './format.js';
import { table } from './markdown.js';

/** What a sailmaker would want to know of every sail, in Markdown. */
export function sailmakersTables({ sails, sailPlans }: Totals): string[] {
  const used = sails.filter(({ hours }) => hours > 0);
  if (used.length === 0) return [];
  const plans = sailPlans.filter(({ hours }) => hours > 0);
  return [
    '### The wind in them',
    'AWS is by the rows of the log: half of them are under the middle figure, one in twenty under the first and over the last. Near the limit: in gusts over 80 % of what the window allows.',
    table(['sail', 'AWS 5 %', '50 %', '95 %', 'near the limit', 'most hours at'], used.map(windRow)),
    table(['sail plan', 'AWS 5 %', '50 %', '95 %', 'near the limit', 'most hours at'], plans.map(windRow)),
    '### Hours by apparent wind speed, kn',
    bandTable('sail', used, ({ byAws }) => byAws),
    bandTable('sail plan', plans, ({ byAws }) => byAws),
    '### Hours by apparent wind angle, either side',
    bandTable('sail', used, ({ byAwa }) => byAwa),
    bandTable('sail plan', plans, ({ byAwa }) => byAwa),
    '### How they were handled',
    table(
      ['sail', 'set', 'doused', 'unfurled', 'furled', 'reefs in', 'reefs out', 'tacks', 'gybes'],
      used.map((sail) => [sail.id, ...operationCells(sail.operations), `${sail.tacks}`, `${sail.gybes}`]),
    ),
  ];
}

const operationCells = ({ set, douse, unfurl, furl, reef, shakeOut }: OperationCounts) =>
  [set, douse, unfurl, furl, reef, shakeOut].map(String);

function windRow({ id, awsKn, nearLimitHours, byAwa }: Tally): string[] {
  const kn = (value: number | undefined) => (value === undefined ? '' : `${fixed(value, 0)} kn`);
  const most = byAwa.reduce<HoursBand | undefined>(
    (top, band) => (band.hours > (top?.hours ?? 0) ? band : top),
    undefined,
  );
  return [
    id,
    kn(awsKn?.p5),
    kn(awsKn?.p50),
    kn(awsKn?.p95),
    `${fixed(nearLimitHours, 1)} h`,
    most === undefined ? '' : `AWA ${most.from} to ${most.to}°`,
  ];
}

function bandTable(what: string, tallies: readonly Tally[], bandsOf: (tally: Tally) => readonly HoursBand[]): string {
  const first = bandsOf(tallies[0]!);
  const met = first.flatMap((_, i) => (tallies.some((tally) => bandsOf(tally)[i]!.hours > 0) ? [i] : []));
  return table(
    [what, ...met.map((i) => bandHead(first[i]!))],
    tallies.map((tally) => [
      tally.id,
      ...met.map((i) => {
        const { hours } = bandsOf(tally)[i]!;
        return hours > 0 ? fixed(hours, 1) : '';
      }),
    ]),
  );
}

const bandHead = ({ from, to }: HoursBand) => (to === null ? `${from} and over` : `${from} to ${to}`);

/** Lines of the summary about days and changes. */
export function passageRows(totals: Totals): [string, string][] {
  const { changesAt, bestRun, worstRun, noPlanHours, sailChanges } = totals;
  const whole = totals.runs.filter((run) => run.whole);
  const mean = whole.reduce((sum, { distanceNm }) => sum + distanceNm, 0) / whole.length;
  return [
    ...(sailChanges === 0
      ? []
      : [
          [
            'Changes made',
            `${changesAt.day} by day, ${changesAt.night} by night${changesAt.watches.length === 0 ? '' : `, ${changesAt.wakingWatch} waking the watch below`}`,
          ] as [string, string],
        ]),
    ...(bestRun === null || worstRun === null
      ? []
      : [
          [
            "Day's runs",
            `best ${runText(bestRun)}, worst ${runText(worstRun)}, mean ${fixed(mean, 0)} Nm of ${whole.length}, noon to noon`,
          ] as [string, string],
        ]),
    ...(noPlanHours > 0 ? [['No plan fitted', duration(noPlanHours)] as [string, string]] : []),
  ];
}

const runText = ({ distanceNm, date }: DaysRun) => `${fixed(distanceNm, 0)} Nm (${date})`;

/** Day's runs and the changes by watch, in Markdown. */
export function daysRunTables({ runs, changesAt }: Totals): string[] {
  return [
    "## Day's runs",
    "Noon to noon by the ship's clock, which is set at noon; the first from departure, the last to the end.",
    table(
      ['to', 'hours', 'Nm', 'kn'],
      runs.map(({ date, hours, distanceNm, whole }) => [
        whole ? date : `${date} (part)`,
        fixed(hours, 1),
        fixed(distanceNm, 1),
        fixed(distanceNm / hours, 1),
      ]),
    ),
    ...(changesAt.watches.length === 0
      ? []
      : [
          '### Changes by watch',
          table(
            changesAt.watches.map(({ from, to }) => `${from} to ${to}`),
            [changesAt.watches.map(({ changes }) => `${changes}`)],
          ),
        ]),
  ];
}
