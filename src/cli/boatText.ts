import { type Boat, type Sail, type SailPlan, settingOf } from '../boat/boat.js';
import {
  type Effort,
  type Gybe,
  kindOf,
  OPERATIONS,
  type Origin,
  SOURCES,
  sheetLoadKg,
  spinnakerSheetLoadKg,
} from '../catalogue/catalogue.js';
import { describeFault, type Fault, withoutUnseen } from '../errors.js';
import { awsLimitAt, commonAngles, highestLimit, isLimit, type Window } from '../sail/sail.js';
import { tenth } from '../units.js';
import { behind, LEGEND, limitRange, STATUS_LETTERS } from './figureText.js';
import { textTable } from './textTable.js';

/** A boat in full: rig, every sail with its window, reefs and handling, every sail plan with the window of all its sails. */
export function boatShowText(boat: Boat, warnings: readonly Fault[]): string {
  return [
    `${visible(boat.name)}, a ${boat.hull.type}${rigText(boat)}`,
    '',
    `Sails. A value with a letter is not in the boat file but follows from the kind and the rig: ${LEGEND}`,
    'Limits are in the gust: AWS, and true wind; "AWS min" is the mean under which a sail collapses. Angles in degrees, speeds in knots.',
    '"sheet kg" is the load on the sheet at the AWS limit by the rule for close-hauled headsails; of a spinnaker on each clew, a placeholder.',
    '',
    textTable(sailRows(boat)),
    ...followedLines(boat),
    '',
    'Setting, dousing, reefing and gybing: minutes, hands and the share of her speed she keeps meanwhile, by day, then by night.',
    '',
    textTable(boat.sails.flatMap(handlingRows)),
    '',
    `Sail plans (${boat.sailPlans.length}). "derived": it follows from the sails aboard; the others are in the boat file.`,
    '',
    textTable([
      ['id', 'sails', 'AWA', 'AWS max', 'true max', ''],
      ...boat.sailPlans.map((plan) => planRow(boat, plan)),
    ]),
    ...(warnings.length === 0 ? [] : ['', ...warnings.map((warning) => `warning: ${describeFault(warning)}`)]),
    ...sourceLines(boat),
    '',
  ].join('\n');
}

const visible = (text: string) => withoutUnseen(text, ' ');

function rigText({ rig }: Boat): string {
  if (rig === undefined) return ', rig not in the boat file';
  const { iM, jM, pM, eM, ispM, spritM, poleM, innerForestay } = rig;
  const lengths = Object.entries({ I: iM, J: jM, P: pM, E: eM, hoist: ispM, sprit: spritM, pole: poleM });
  const known = lengths.flatMap(([name, length]) => (length === undefined ? [] : [`${name} ${length} m`]));
  return `, ${[...known, ...(innerForestay === true ? ['an inner forestay'] : [])].join(', ') || 'rig without dimensions'}`;
}

const SAIL_HEAD = ['id', 'kind', 'm²', 'AWA', 'AWS min', 'AWS max', 'true max', 'set by', 'daylight only', 'sheet kg'];

function sailRows({ sails }: Boat): string[][] {
  return [SAIL_HEAD, ...sails.flatMap((sail) => [sailRow(sail), ...reefRows(sail)])];
}

function sailRow(sail: Sail): string[] {
  const { id, kind, areaM2, window, setBy, daylightOnly } = sail;
  const letter = letterOf(sail);
  return [
    behind(id, letter('id')),
    kind,
    areaM2 === undefined ? '' : `${areaM2}${letter('areaM2')}`,
    `${window.awaMinDeg}${letter('window.awaMinDeg')}-${window.awaMaxDeg}${letter('window.awaMaxDeg')}`,
    limit(window.awsMinKn, letter('window.awsMinKn')),
    limit(window.awsMaxKn, letter('window.awsMaxKn')),
    limit(window.twsMaxKn, letter('window.twsMaxKn')),
    setBy === undefined ? '' : behind(setBy, letter('setBy')),
    daylightOnly === undefined ? '' : behind(daylightOnly ? 'yes' : 'no', letter('daylightOnly')),
    sheetLoad(sail),
  ];
}

function reefRows(sail: Sail): string[][] {
  const { id, areaM2, window } = sail;
  const letter = letterOf(sail);
  const isFurled = sail.setBy === 'furler' && kindOf(sail.kind).place !== 'mast';
  return (sail.reefs ?? []).map(({ areaShare, awaMinDeg, awsMaxKn, twsMaxKn }, r) => [
    `  ${id}:${r + 1}`,
    isFurled ? `part-furled ${r + 1}` : `reef ${r + 1}`,
    areaM2 === undefined
      ? `× ${areaShare}${letter(`reefs[${r}].areaShare`)}`
      : `${(areaM2 * areaShare).toFixed(1)}${letter(`reefs[${r}].areaShare`) || letter('areaM2')}`,
    awaMinDeg === undefined ? '' : `${awaMinDeg}${letter(`reefs[${r}].awaMinDeg`)}-${window.awaMaxDeg}`,
    '',
    limit(awsMaxKn, letter(`reefs[${r}].awsMaxKn`)),
    limit(twsMaxKn, letter(`reefs[${r}].twsMaxKn`)),
    '',
    '',
    '',
  ]);
}

const letterOf =
  ({ derived = {} }: Pick<Sail, 'derived'>) =>
  (path: string): string =>
    Object.hasOwn(derived, path) ? STATUS_LETTERS[derived[path]!.status] : '';

const limit = (value: Window['awsMaxKn'], letter: string) => (isLimit(value) ? `${limitRange(value)}${letter}` : '');

/** Limits that hang on one the owner gave: what moved them, and how to undo it. */
function followedLines({ sails }: Boat): string[] {
  const lines = sails.flatMap(({ id, derived = {} }) =>
    Object.entries(derived).flatMap(([path, { basis = '' }]) =>
      basis.startsWith('in the catalogue') ? [`  ${id}, ${path}: ${basis}; write your own, or null for none`] : [],
    ),
  );
  return lines.length === 0 ? [] : ['', 'Limits that follow yours', ...lines];
}

/** The sheet load of a headsail, and of a spinnaker on each clew, at its limit of AWS in the gust. */
function sheetLoad({ kind, areaM2, window: { awsMaxKn } }: Sail): string {
  const { place } = kindOf(kind);
  const highest = highestLimit(awsMaxKn);
  if (areaM2 === undefined || highest === undefined || place === 'mast' || place === 'storm-mast') return '';
  const isSpinnaker = place === 'flying' && kind !== 'code-zero';
  return (isSpinnaker ? spinnakerSheetLoadKg : sheetLoadKg)(areaM2, highest).toFixed(0);
}

function handlingRows(sail: Sail): string[][] {
  const { id, operations = {}, gybe } = sail;
  const letter = letterOf(sail);
  const rows = OPERATIONS.flatMap((name) => {
    const operation = operations[name];
    if (operation === undefined) return [];
    const part = (when: 'day' | 'night') => {
      const [effort, path] = [operation[when], `operations.${name}.${when}`];
      return `${labourText(effort, path, letter)}, keeps ${effort.keptShare}${letter(`${path}.keptShare`)}`;
    };
    return [[id, name === 'shakeOut' ? 'shake out' : name, part('day'), part('night')]];
  });
  if (gybe === undefined) return rows;
  return [
    ...rows,
    [
      id,
      'gybe',
      labourText(gybe, 'gybe', letter),
      behind(gybe.byNight ? 'the same' : 'not by night', letter('gybe.byNight')),
    ],
  ];
}

function labourText({ minutes, hands }: Effort | Gybe, path: string, letter: (path: string) => string): string {
  const crew = behind(`${hands} ${hands === 1 ? 'hand' : 'hands'}`, letter(`${path}.hands`));
  return `${behind(`${minutes} min`, letter(`${path}.minutes`))}, ${crew}`;
}

function planRow(boat: Boat, { id, sails, derived }: SailPlan): string[] {
  const windows = sails.map((text) => settingOf(boat, text)!.window);
  const [from, to] = commonAngles(windows);
  return [
    id,
    sails.length === 0 ? 'none' : sails.join(', '),
    from > to ? 'none' : `${from}-${to}`,
    limitsBetween(
      windows.map(({ awsMaxKn }) => awsMaxKn),
      from,
      to,
    ),
    limitsBetween(
      windows.map(({ twsMaxKn }) => twsMaxKn),
      from,
      to,
    ),
    derived === true ? 'derived' : '',
  ];
}

/** The lowest and highest of what all limits allow, over the angles of a plan. */
function limitsBetween(limits: readonly Window['awsMaxKn'][], fromDeg: number, toDeg: number): string {
  const known = limits.filter(isLimit);
  if (known.length === 0 || fromDeg > toDeg) return '';
  const corners = known.flatMap((one) => (typeof one === 'number' ? [] : one.map(([angle]) => angle)));
  const angles = [fromDeg, toDeg, ...corners.filter((angle) => angle > fromDeg && angle < toDeg)];
  return limitRange(
    angles.map((angle) => [angle, tenth(Math.min(...known.map((one) => awsLimitAt(one, angle))))] as const),
  );
}

function sourceLines({ sails }: Boat): string[] {
  const origins: Origin[] = sails.flatMap(({ derived = {} }) => Object.values(derived));
  const used = Object.entries(SOURCES).filter(([id]) => origins.some(({ source }) => source === id));
  return used.length === 0
    ? []
    : ['', 'Sources of what was filled in', ...used.map(([id, title]) => `  ${id.padEnd(4)} ${title}`)];
}
