/** What stands at a path of a record, like `curve[3].hours`; undefined where nothing does. */
export const valueAt = (record: unknown, path: string): unknown =>
  path
    .split(/[.[\]]+/)
    .filter((key) => key !== '')
    .reduce<unknown>(
      (value, key) =>
        value !== null && typeof value === 'object' ? (value as Record<string, unknown>)[key] : undefined,
      record,
    );
