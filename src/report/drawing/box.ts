/** A rectangle on the page. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A rectangle round a point. */
export const boxRound = (x: number, y: number, width: number, height: number): Box => ({
  left: x - width / 2,
  top: y - height / 2,
  width,
  height,
});

/** How much of two rectangles lies on each other. */
export function overlapOf(a: Box, b: Box): number {
  const width = Math.min(a.left + a.width, b.left + b.width) - Math.max(a.left, b.left);
  const height = Math.min(a.top + a.height, b.top + b.height) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}
