import { afterAll, expect, test } from 'vitest';

interface Table {
  readonly about: {
    readonly source: string;
    readonly unit: string;
    readonly obtained: string;
    readonly strength: string;
  };
  readonly rows: readonly object[];
}

const STRENGTHS = [
  'printed',
  'reference library',
  'computed',
  'reported',
  'from memory',
  'common practice, no source',
  'placeholder',
];

/** A file of tables of outside truth. Every row must be met by some test: what is left over fails the test file. */
export function fixture<Tables extends Record<string, Table>>(file: string, tables: Tables) {
  const unmet = new Map<object, string>();
  for (const [name, { rows }] of Object.entries(tables)) {
    rows.forEach((row, i) => {
      unmet.set(row, `${file} ${name}[${i}]`);
    });
  }
  afterAll(() => {
    expect([...unmet.values()], 'rows that no test has met').toEqual([]);
  });
  test.each(Object.entries(tables))(`${file} %s says where it comes from`, (_, { about, rows }) => {
    for (const said of [about.source, about.unit, about.obtained]) expect(said).toMatch(/\w/);
    expect(STRENGTHS).toContain(about.strength);
    expect(rows).not.toEqual([]);
  });
  return {
    /** One test for each row of a table. */
    each<Name extends keyof Tables & string>(
      name: Name,
      title: string,
      check: (row: Tables[Name]['rows'][number], table: Tables[Name]) => void,
    ) {
      const table = tables[name]!;
      test.each(table.rows.map((row, i) => [labelOf(row, i), row] as const))(`${title}: %s`, (_, row) => {
        unmet.delete(row);
        check(row, table);
      });
    },
  };
}

function labelOf(row: object, index: number): string {
  const [label] = ['id', 'name', 'case', 'date'].flatMap((key) => Object.entries(row).filter(([name]) => name === key));
  if (label !== undefined) return String(label[1]);
  return `row ${index + 1} (${Object.values(row)
    .filter((value) => typeof value !== 'object')
    .join(', ')})`;
}

/** Expects a number within a tolerance of the true one. */
export function expectNear(actual: number, truth: number, tolerance: number, what: string) {
  expect(Math.abs(actual - truth), `${what}: ${actual} against ${truth}`).toBeLessThanOrEqual(tolerance);
}

/** Expects a direction or longitude within a tolerance of the true one, across north or the date line if need be. */
export function expectNearDeg(actualDeg: number, truthDeg: number, toleranceDeg: number, what: string) {
  const apart = Math.abs(((((actualDeg - truthDeg) % 360) + 540) % 360) - 180);
  expect(apart, `${what}: ${actualDeg} against ${truthDeg}`).toBeLessThanOrEqual(toleranceDeg);
}
