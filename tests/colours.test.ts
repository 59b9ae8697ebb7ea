import { describe, expect, test } from 'vitest';
import { passageMap } from '../src/report/charts/passageMap.js';
import { plansInLog } from '../src/report/charts/plansInLog.js';
import { fillsFor } from '../src/report/drawing/palette.js';
import { REPORT_STYLE } from '../src/report/report.js';
import { documentIn } from './support/htmlReport.js';
import { contrastOf, differenceOf, rowsOf, seenAs, VISIONS } from './support/vision.js';

const fills = fillsFor(7, () => 0);
const pairs = fills.flatMap((one, i) => fills.slice(i + 1).map((other) => [one, other] as const));

describe.each(VISIONS)('seen with %s vision', (vision) => {
  const seen = (colour: string) => seenAs(colour, vision);
  const least = (of: 'colour' | 'tint') =>
    Math.min(...pairs.map(([one, other]) => differenceOf(seen(one[of]), seen(other[of]))));

  test('the colours of plans differ: lines clearly, tints so that they are noticed', () => {
    expect(new Set(fills.map(({ colour }) => colour)).size).toBe(7);
    // About 2.3 is just noticed side by side. Tints lie beside each other, in patterns that differ; lines lie apart.
    expect(least('colour')).toBeGreaterThan(15);
    expect(least('tint')).toBeGreaterThan(5);
  });

  test('every pattern is seen on its tint', () => {
    for (const { tint, ink } of fills) expect(contrastOf(seen(tint), seen(ink))).toBeGreaterThan(4);
  });

  test.each(['light', 'dark', 'print'] as const)('texts and marks stand out from the page: %s', (scheme) => {
    const of = variablesOf(scheme);
    const contrast = (mark: string, ground: string) => contrastOf(seen(of(mark)), seen(of(ground)));
    // The bounds of WCAG 2.2, 1.4.3 for text and 1.4.11 for what a drawing is read by.
    for (const text of ['ink', 'soft', 'mark']) expect(contrast(text, 'paper'), text).toBeGreaterThan(4.5);
    expect(contrast('warn-ink', 'warn')).toBeGreaterThan(4.5);
    for (const [mark, ground] of MARKS) expect(contrast(mark, ground), `${mark} on ${ground}`).toBeGreaterThan(3);
  });
});

test('a white is a white to all, and black and white are as far apart as they can be', () => {
  for (const vision of VISIONS)
    for (const row of rowsOf(vision)) expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 5);
  expect(contrastOf(seenAs('#000000', 'full'), seenAs('#ffffff', 'full'))).toBeCloseTo(21, 6);
  expect(differenceOf(seenAs('#000000', 'full'), seenAs('#ffffff', 'full'))).toBeCloseTo(100, 2);
});

describe('in grey', () => {
  const grey = (colour: string) => seenAs(colour, 'no colour');

  test('the colours of plans do not tell them apart, which is why each has its own pattern, dash and letter', () => {
    const least = Math.min(...pairs.map(([one, other]) => differenceOf(grey(one.colour), grey(other.colour))));
    expect(least).toBeLessThan(2.3);
    for (const { tint, ink } of fills) expect(contrastOf(grey(tint), grey(ink))).toBeGreaterThan(4);
    expect(new Set(fills.map(({ motif }) => motif.name)).size).toBe(fills.length);
  });

  test('no two plans of a passage of eight have the same dash on the map, nor the same letter', () => {
    const ids = Array.from({ length: 8 }, (_, i) => `plan-${i}`);
    const hours = ids.map((sailPlan, i) => ({ ...HOUR, sailPlan, latDeg: i, time: `2027-01-11T0${i}:00:00Z` }));
    const sailPlans = ids.map((id) => ({ id, hours: 1 }));
    const waypoints = [
      { name: 'A', latDeg: 0, lonDeg: 0 },
      { name: 'B', latDeg: 8, lonDeg: 0 },
    ];
    const made = { passage: { hours, changes: [] }, totals: { sailPlans }, route: { waypoints, legs: [] } };
    const plan = made as unknown as Parameters<typeof passageMap>[0];
    const plans = plansInLog(plan);
    const { markup } = passageMap(plan, plans, [], undefined).draw(720);
    const lines = [...documentIn(`<svg>${markup}</svg>`).querySelectorAll('.track:not(.edge)')];
    expect(new Set(lines.map((line) => line.getAttribute('stroke-dasharray'))).size).toBe(8);
    expect(new Set(plans.map(({ code }) => code)).size).toBe(8);
  });
});

const HOUR = { lonDeg: 0, distanceNm: 0, courseDeg: 0, twdDeg: 0, twsKn: 10, zoneHours: 0, leg: 1, runNm: 60 };

/** What is told by lines and areas: the mark, and what it lies on. */
const MARKS = [
  ['mark', 'paper'],
  ['strong', 'paper'],
  ['mark', 'night'],
  ['strong', 'night'],
  ['mark', 'sea'],
  ['ink', 'sea'],
  ['strong', 'window'],
  ['soft', 'land'],
] as const;

/** The colours of the style sheet by their names. */
function variablesOf(scheme: 'light' | 'dark' | 'print'): (name: string) => string {
  const blocks = {
    light: REPORT_STYLE,
    dark: REPORT_STYLE.slice(REPORT_STYLE.indexOf('prefers-color-scheme:dark')),
    print: REPORT_STYLE.slice(REPORT_STYLE.indexOf('@media print')),
  };
  const root = /:root\{([^}]*)\}/.exec(blocks[scheme])?.[1] ?? '';
  const colours = new Map([...root.matchAll(/--([\w-]+):(#[0-9a-f]+)/g)].map(([, name, colour]) => [name!, colour!]));
  return (name) => {
    const colour = colours.get(name)!;
    return colour.length === 4 ? `#${[...colour.slice(1)].map((digit) => digit + digit).join('')}` : colour;
  };
}
