import type { Polar, PolarVariant } from '../polar/polar.js';

/** The band of each plan: what each assumption at its worse and its better end takes or adds, summed over the assumptions. */
export function bandOf(mid: Readonly<Record<string, Polar>>, variants: readonly PolarVariant[], least: number) {
  const assumptions = [...new Set(variants.map(({ assumption }) => assumption))];
  const band = (sign: 1 | -1) =>
    Object.fromEntries(
      Object.entries(mid).map(([id, polar]) => {
        const moved = assumptions.map((name) =>
          variants.flatMap((variant) => (variant.assumption === name ? (variant.plans[id] ?? []) : [])),
        );
        const stwKn = polar.stwKn.map((speed, i) => {
          const by = moved.map((polars) => Math.max(0, ...polars.map((other) => sign * (other.stwKn[i]! - speed))));
          const off = Math.max(
            least * speed,
            by.reduce((sum, one) => sum + one, 0),
          );
          return Math.max(0, speed + sign * off);
        });
        return [id, { ...polar, stwKn }];
      }),
    );
  return { low: band(-1), high: band(1) };
}
