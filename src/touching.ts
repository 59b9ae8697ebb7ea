/** What a cell of a grid, row by row, belongs to; undefined as beyond the grid. */
export type Keys = readonly (number | undefined)[];

/** For each cell the first cell of those that hang together with it and have its key; undefined where it has none. */
export function touching(keys: Keys, columns: number): Keys {
  const regions: (number | undefined)[] = keys.map(() => undefined);
  keys.forEach((key, start) => {
    if (key === undefined || regions[start] !== undefined) return;
    const waiting = [start];
    regions[start] = start;
    while (waiting.length > 0) {
      const cell = waiting.pop()!;
      const column = cell % columns;
      const near = [
        cell - columns,
        cell + columns,
        ...(column > 0 ? [cell - 1] : []),
        ...(column < columns - 1 ? [cell + 1] : []),
      ];
      for (const next of near) {
        if (keys[next] !== key || regions[next] !== undefined) continue;
        regions[next] = start;
        waiting.push(next);
      }
    }
  });
  return regions;
}
