import type { Side } from './messages.js';

/** A row of the table of wardrobes. */
export interface Row {
  readonly name: string;
  /** One for each wardrobe. */
  readonly cells: readonly string[];
  /** How much more it is with the second wardrobe, with its sign and unit; absent where nothing is to be compared. */
  readonly difference?: string;
}

/** Whether differences mean something: of a passage that breaks off nobody knows what it adds up to. */
export const isCompared = (sides: readonly Side[]): boolean =>
  sides.length === 2 && sides.every(({ complete }) => complete);

/** The plan in numbers: what there is none of anywhere is left out, but for hours and changes. */
export function comparisonOf(sides: readonly Side[]): readonly Row[] {
  const row = (
    name: string,
    values: readonly Value[],
    { unit, decimals }: { unit: string; decimals: number },
  ): Row => ({
    name,
    cells: values.map((value) => (typeof value === 'number' ? value.toFixed(decimals) : value)),
    ...(isCompared(sides) ? differenceOf(values, unit, decimals) : {}),
  });
  const ofFigures = sides[0]!.figures.flatMap(({ name, unit, decimals }, i) => {
    const values = sides.map(({ figures }) => figures[i]!.value);
    const isLeftOut = i >= ALWAYS && values.every((value) => value === null || Number(value.toFixed(decimals)) === 0);
    return isLeftOut
      ? []
      : [
          row(
            headed(name),
            values.map((value) => value ?? 'not known'),
            { unit, decimals },
          ),
        ];
  });
  const sails = [...new Set(sides.flatMap((side) => side.sails.map(({ id }) => id)))];
  return [
    { name: 'Ends, UTC', cells: sides.map(({ end }) => instant(end)) },
    { name: 'Arrives', cells: sides.map(({ complete }) => (complete ? 'yes' : 'no')) },
    ...ofFigures,
    ...sails.map((id) =>
      row(
        `${id}, h`,
        sides.map((side) => flown(side, id)),
        { unit: 'h', decimals: 1 },
      ),
    ),
  ];
}

/** A figure, or in words why there is none. */
type Value = number | string;

/** Hours, changes and those by night are told though there are none. */
const ALWAYS = 3;

export const instant = (time: string) => time.slice(0, 16).replace('T', ' ');

const headed = (name: string) => (name.startsWith('of these') ? name : name[0]!.toUpperCase() + name.slice(1));

/** A sail that is not there is not flown. */
const NOT_FLOWN = ['not aboard', 'ashore'] as const;

function flown({ sails }: Side, id: string): Value {
  const sail = sails.find((one) => one.id === id);
  return sail === undefined ? NOT_FLOWN[0] : (sail.hours ?? NOT_FLOWN[1]);
}

/** Of what is shown, so that whoever reckons it again finds the same. */
function differenceOf(values: readonly Value[], unit: string, decimals: number): Pick<Row, 'difference'> {
  const [a, b] = values.map((value) =>
    NOT_FLOWN.some((word) => word === value)
      ? 0
      : typeof value === 'number'
        ? Number(value.toFixed(decimals))
        : undefined,
  );
  if (a === undefined || b === undefined) return {};
  const more = b - a;
  const size = Math.abs(more).toFixed(decimals);
  const sign = Number(size) === 0 ? '' : more > 0 ? '+' : '−';
  return { difference: `${sign}${size}${unit === '' ? '' : ` ${unit}`}` };
}
