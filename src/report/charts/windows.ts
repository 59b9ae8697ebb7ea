import { scaleLinear } from 'd3-scale';
import { type Sail, settingOf } from '../../boat/boat.js';
import { fixed, type PlanToPrint } from '../../output/output.js';
import { awsLimitAt, highestLimit, isLimit, type Window } from '../../sail/sail.js';
import type { Chart } from '../document/figure.js';
import type { Box } from '../drawing/box.js';
import { element, rounded, textAt } from '../drawing/svg.js';
import { extentOf } from './extent.js';
import { axisBelow, axisLeft, axisName, tip } from './plot.js';

type Hours = PlanToPrint['passage']['hours'];

/** A cloth of the wardrobe, the windows of its settings that plans use, and the hours it was set. */
interface ClothShown {
  readonly id: string;
  readonly windows: readonly { readonly name: string; readonly window: Window }[];
  readonly hours: Hours;
}

/** The apparent wind of the hours in which each sail was set, over the windows it may be set in: a small chart for each sail. */
export function windowsChart(plan: PlanToPrint): Chart {
  const cloths = clothsOf(plan);
  const set = cloths.filter(({ hours }) => hours.length > 0);
  const limits = cloths.flatMap(({ windows }) => windows.flatMap(({ window }) => highestLimit(window.awsMaxKn) ?? []));
  const [, strongest] = extentOf([...plan.passage.hours.map(({ gustAwsKn }) => gustAwsKn), ...limits]);
  const most = Math.min(MOST_KN, Math.max(20, strongest) * 1.05);
  return {
    title: "Apparent wind over the wardrobe's windows",
    says: `For each of ${cloths.length} sails apparent wind angle to the right and speed upwards; shaded is where its window lets it be set, full or reefed. Each hour it was set is a line from the mean to the limit gust, which is what the window is held against. ${
      cloths.length - set.length === 0
        ? 'Every sail was set.'
        : `Never set: ${cloths
            .filter(({ hours }) => hours.length === 0)
            .map(({ id }) => id)
            .join(', ')}.`
    }`,
    draw(width) {
      const columns = Math.max(1, Math.floor(width / 226));
      const wide = width / columns;
      const markup = cloths.map((cloth, i) =>
        panelOf(cloth, most, {
          left: (i % columns) * wide + 30,
          top: Math.floor(i / columns) * ROW + 24,
          width: wide - 42,
          height: ROW - 70,
        }),
      );
      return { markup: markup.join(''), height: Math.ceil(cloths.length / columns) * ROW };
    },
  };
}

/** Beyond it no sail is told of. */
const MOST_KN = 70;
const ROW = 196;

function clothsOf({ boat, passage }: PlanToPrint): readonly ClothShown[] {
  const cloths = boat.sails.filter((sail): sail is Sail => sail.clothOf === undefined);
  const settings = boat.sailPlans.map((plan) => ({
    id: plan.id,
    settings: plan.sails.flatMap((text) => {
      const setting = settingOf(boat, text);
      return setting === undefined ? [] : [{ text, ...setting }];
    }),
  }));
  return cloths.map(({ id }) => {
    const own = settings.map((plan) => ({ ...plan, settings: plan.settings.filter(({ cloth }) => cloth === id) }));
    const windows = new Map(own.flatMap((plan) => plan.settings.map(({ text, window }) => [text, window] as const)));
    const plans = new Set(own.filter((plan) => plan.settings.length > 0).map((plan) => plan.id));
    return {
      id,
      windows: [...windows].map(([name, window]) => ({ name, window })),
      hours: passage.hours.filter(({ sailPlan }) => plans.has(sailPlan ?? '')),
    };
  });
}

function panelOf({ id, windows, hours }: ClothShown, most: number, box: Box): string {
  const x = scaleLinear([0, 180], [box.left, box.left + box.width]);
  const y = scaleLinear([0, most], [box.top + box.height, box.top]);
  const marks = hours.flatMap(({ awaDeg, awsKn, gustAwsKn, time }) => {
    if (awaDeg === null) return [];
    const at = x(Math.abs(awaDeg));
    const told = `${time}: AWA ${fixed(Math.abs(awaDeg), 0)}°, AWS ${fixed(awsKn, 0)} kn, in the gust ${fixed(gustAwsKn, 0)} kn`;
    return [
      element(
        'g',
        {},
        tip(told),
        element('line', { x1: at, y1: y(Math.min(most, awsKn)), x2: at, y2: y(Math.min(most, gustAwsKn)) }),
        element('circle', { cx: at, cy: y(Math.min(most, gustAwsKn)), r: 1.7 }),
      ),
    ];
  });
  return element(
    'g',
    { class: 'panel' },
    textAt(box.left, box.top - 8, `${id}${hours.length === 0 ? ': never set' : ''}`, { class: 'bar-name' }),
    ...windows.map(({ name, window }) =>
      element('path', { class: 'window', d: areaOf(window, most, x, y) }, tip(name)),
    ),
    axisLeft(
      box,
      y.ticks(4).map((value) => ({ at: y(value), text: `${value}` })),
    ),
    axisBelow(
      box,
      [0, 45, 90, 135, 180].map((value) => ({ at: x(value), text: `${value}°` })),
    ),
    axisName(box.left - 26, box.top - 8, 'kn'),
    element('g', { class: 'met' }, ...marks),
  );
}

/** Where a window lets its sail be set. */
function areaOf(window: Window, most: number, x: (deg: number) => number, y: (kn: number) => number): string {
  const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn } = window;
  const limit = (deg: number) => (isLimit(awsMaxKn) ? Math.min(most, awsLimitAt(awsMaxKn, deg)) : most);
  const corners = isLimit(awsMaxKn) && typeof awsMaxKn !== 'number' ? awsMaxKn.map(([deg]) => deg) : [];
  const angles = [awaMinDeg, ...corners.filter((deg) => deg > awaMinDeg && deg < awaMaxDeg), awaMaxDeg];
  const least = Math.min(most, isLimit(awsMinKn) ? awsMinKn : 0);
  const over = angles.map((deg) => `L${rounded(x(deg))} ${rounded(y(limit(deg)))}`).join('');
  return `M${rounded(x(awaMinDeg))} ${rounded(y(least))}${over}L${rounded(x(awaMaxDeg))} ${rounded(y(least))}Z`;
}
