/** Groups of places of a grid, row by row, that touch side by side and of which something holds; each by its places. */
export function touching(holds: readonly boolean[], columns: number): readonly (readonly number[])[] {
  const seen = new Set<number>();
  const groups: number[][] = [];
  holds.forEach((is, start) => {
    if (!is || seen.has(start)) return;
    const group: number[] = [];
    const waiting = [start];
    seen.add(start);
    while (waiting.length > 0) {
      const at = waiting.pop()!;
      group.push(at);
      const column = at % columns;
      const near = [
        at - columns,
        at + columns,
        ...(column > 0 ? [at - 1] : []),
        ...(column < columns - 1 ? [at + 1] : []),
      ];
      for (const next of near) {
        if (holds[next] !== true || seen.has(next)) continue;
        seen.add(next);
        waiting.push(next);
      }
    }
    groups.push(group);
  });
  return groups;
}
