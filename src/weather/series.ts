import { lastAtMost } from '../rising.js';
import type { Field } from './forecast.js';
import type { Layer, Slot } from './layers.js';
import { isLongStep } from './steps.js';

/** Fields at a place and instant. */
export interface Series {
  /** Reads into `out`, a number for each field; false where there is no value. */
  read(latDeg: number, lonDeg: number, epochSeconds: number, out: Float64Array): boolean;
  /** The gap that the last reading was drawn across; undefined where there is none. */
  gap(): { readonly fromEpochSeconds: number; readonly toEpochSeconds: number } | undefined;
}

/** A time at which the fields have values at a place. */
interface Found {
  epochSeconds: number;
  slot: Slot | undefined;
  readonly values: Float64Array;
}

/**
 * A look-up of fields that stand together: linear in time between the nearest two times that have values at the place and
 * are no more than `maxGapSeconds` apart. The newest run that has both is taken; where none has, the nearest times of any.
 */
export function seriesOf(layers: readonly Layer[], fields: readonly Field[], maxGapSeconds: number): Series {
  const found = (): Found => ({ epochSeconds: 0, slot: undefined, values: new Float64Array(fields.length) });
  const [before, after, anyBefore, anyAfter] = [found(), found(), found(), found()];
  let gap: ReturnType<Series['gap']>;
  // Instants are mostly asked for one after another: where the last was is looked at first.
  const lastStarts = new Int32Array(layers.length);
  const startIn = (layer: Layer, l: number, epochSeconds: number): number => {
    const last = lastStarts[l]!;
    const { times } = layer;
    if (last >= 0 && times[last]! <= epochSeconds && epochSeconds < (times[last + 1] ?? Number.NEGATIVE_INFINITY))
      return last;
    const start = lastAtMost(times, epochSeconds);
    lastStarts[l] = start;
    return start;
  };

  /** True where one of the grids of that time covers the place: with values in `into`, or without where they are absent. */
  const readKnot = (layer: Layer, k: number, latDeg: number, lonDeg: number, into: Found): boolean => {
    let covers = false;
    for (const slot of layer.slots[k]!) {
      if (!slot.locator.locate(latDeg, lonDeg)) continue;
      covers = true;
      let isWhole = true;
      for (let f = 0; f < fields.length; f += 1) {
        const value = slot.locator.read(slot.locator.grid.fields[fields[f]!]!, slot.time);
        into.values[f] = value;
        if (Number.isNaN(value)) isWhole = false;
      }
      if (!isWhole) continue;
      into.epochSeconds = layer.times[k]!;
      into.slot = slot;
      return true;
    }
    return covers;
  };

  /** Finds the nearest times on both sides at which a layer covers the place. */
  const bracket = (layer: Layer, l: number, latDeg: number, lonDeg: number, epochSeconds: number): void => {
    before.slot = undefined;
    after.slot = undefined;
    const start = startIn(layer, l, epochSeconds);
    for (let k = start; k >= 0 && epochSeconds - layer.times[k]! <= maxGapSeconds; k -= 1) {
      if (readKnot(layer, k, latDeg, lonDeg, before)) break;
    }
    if (before.slot !== undefined && before.epochSeconds === epochSeconds) return;
    for (let k = start + 1; k < layer.times.length && layer.times[k]! - epochSeconds <= maxGapSeconds; k += 1) {
      if (readKnot(layer, k, latDeg, lonDeg, after)) break;
    }
  };

  const draw = (from: Found, to: Found, epochSeconds: number, out: Float64Array): boolean => {
    if (from.slot === undefined) return false;
    if (from.epochSeconds === epochSeconds) {
      out.set(from.values);
      return true;
    }
    const step = to.epochSeconds - from.epochSeconds;
    if (to.slot === undefined || step > maxGapSeconds) return false;
    const share = (epochSeconds - from.epochSeconds) / step;
    for (let f = 0; f < out.length; f += 1) out[f] = from.values[f]! * (1 - share) + to.values[f]! * share;
    if (isGap(from.slot, to.slot, step)) gap = { fromEpochSeconds: from.epochSeconds, toEpochSeconds: to.epochSeconds };
    return true;
  };

  return {
    read(latDeg, lonDeg, epochSeconds, out) {
      gap = undefined;
      anyBefore.slot = undefined;
      anyAfter.slot = undefined;
      for (let l = 0; l < layers.length; l += 1) {
        bracket(layers[l]!, l, latDeg, lonDeg, epochSeconds);
        if (draw(before, after, epochSeconds, out)) return true;
        keepNearer(before, anyBefore, (kept, one) => one > kept);
        keepNearer(after, anyAfter, (kept, one) => one < kept);
      }
      return layers.length > 1 && draw(anyBefore, anyAfter, epochSeconds, out);
    },
    gap: () => gap,
  };
}

function keepNearer(one: Found, kept: Found, isNearer: (kept: number, one: number) => boolean): void {
  if (one.slot === undefined || (kept.slot !== undefined && !isNearer(kept.epochSeconds, one.epochSeconds))) return;
  kept.slot = one.slot;
  kept.epochSeconds = one.epochSeconds;
  kept.values.set(one.values);
}

/** Whether a step is longer than usual: as its grid tells, or between two grids against the usual step of either. */
function isGap(from: Slot, to: Slot, stepSeconds: number): boolean {
  if (from.locator === to.locator && to.time === from.time + 1) return from.gapAfter;
  return isLongStep(stepSeconds, Math.max(from.usualStepSeconds, to.usualStepSeconds));
}
