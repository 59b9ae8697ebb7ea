/**
 * A zero between two points of opposite sign (regula falsi, the Illinois way), to a billionth of the unit of `x`. Where the
 * function has a gap there (undefined) or a jump, what comes back is no zero: the caller looks.
 */
export function falsePosition(
  f: (x: number) => number | undefined,
  x0: number,
  f0: number,
  x1: number,
  f1: number,
): number {
  let [a, fa, b, fb] = [x0, f0, x1, f1];
  for (let step = 0; step < 60; step += 1) {
    if (fa === 0) return a;
    if (fb === 0 || Math.abs(b - a) < 1e-9) return b;
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx === undefined) return b;
    if (Math.abs(fx) < 1e-10) return x;
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return b;
}
