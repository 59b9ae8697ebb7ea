/** Where a way of choosing has come to, and what it has in hand. */
export interface Label {
  place: number;
  /** Price so far beyond time and the constant price of changes, minutes. */
  price: number;
  /** Minutes that the last change will still take, what is kept of the way meanwhile, and the option it comes from. */
  busyMinutes: number;
  busyKept: number;
  busyFrom: number;
  option: number;
  changes: number;
  /** Stages since the last change, no further than matters. */
  since: number;
  /** Steps of the store used. */
  used: number;
  /** Row of the label it came from; −1 for the first. */
  parent: number;
}

type Column = Float64Array | Int32Array | Int16Array;
/** Labels in columns: a label is a row. */
export type Columns = { readonly [Key in keyof Label]: Column };

/** Labels that are kept; their columns grow. */
export interface Labels {
  readonly length: number;
  /** Replaced when they grow: ask again after adding. */
  readonly columns: Columns;
  add(label: Readonly<Label>): void;
  addRow(columns: Columns, row: number): void;
  /** The options of the stages that led to a label, the first first. */
  stepsTo(row: number): number[];
}

const FIRST_ROOM = 4096;

/** No labels yet. */
export function noLabels(): Labels {
  let columns = columnsOf(FIRST_ROOM);
  let length = 0;
  const nextRow = () => {
    if (length === columns.place.length) columns = widened(columns, 2 * length);
    length += 1;
    return length - 1;
  };
  return {
    get length() {
      return length;
    },
    get columns() {
      return columns;
    },
    add(label) {
      const row = nextRow();
      putLabel(columns, row, label);
    },
    addRow(from, at) {
      const row = nextRow();
      copyRow(from, at, columns, row);
    },
    stepsTo(row) {
      const steps: number[] = [];
      for (let at = row; columns.parent[at]! >= 0; at = columns.parent[at]!) {
        steps.push(columns.option[at]!);
      }
      return steps.reverse();
    },
  };
}

/** Columns of so many rows. */
export const columnsOf = (rows: number): Columns => ({
  place: new Float64Array(rows),
  price: new Float64Array(rows),
  busyMinutes: new Float64Array(rows),
  busyKept: new Float64Array(rows),
  busyFrom: new Int16Array(rows),
  option: new Int16Array(rows),
  changes: new Int16Array(rows),
  since: new Int16Array(rows),
  used: new Int16Array(rows),
  parent: new Int32Array(rows),
});

/** The same rows with room for more. */
export function widened(columns: Columns, rows: number): Columns {
  const wider = columnsOf(rows);
  for (const key of Object.keys(columns) as (keyof Label)[]) wider[key].set(columns[key]);
  return wider;
}

// Written out: asked for every label of every stage.

/** Writes a label over a row. */
export function putLabel(columns: Columns, row: number, label: Readonly<Label>): void {
  columns.place[row] = label.place;
  columns.price[row] = label.price;
  columns.busyMinutes[row] = label.busyMinutes;
  columns.busyKept[row] = label.busyKept;
  columns.busyFrom[row] = label.busyFrom;
  columns.option[row] = label.option;
  columns.changes[row] = label.changes;
  columns.since[row] = label.since;
  columns.used[row] = label.used;
  columns.parent[row] = label.parent;
}

/** Copies a row over another. */
export function copyRow(from: Columns, at: number, to: Columns, row: number): void {
  to.place[row] = from.place[at]!;
  to.price[row] = from.price[at]!;
  to.busyMinutes[row] = from.busyMinutes[at]!;
  to.busyKept[row] = from.busyKept[at]!;
  to.busyFrom[row] = from.busyFrom[at]!;
  to.option[row] = from.option[at]!;
  to.changes[row] = from.changes[at]!;
  to.since[row] = from.since[at]!;
  to.used[row] = from.used[at]!;
  to.parent[row] = from.parent[at]!;
}
