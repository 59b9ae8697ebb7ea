import type { FaultList } from '../errors.js';
import { isGiven } from '../given.js';
import { says } from '../wording.js';
import type { PolarSet } from './polar.js';

/** Adds a fault for every polar made in memory that is no table of numbers. */
export function checkPolars(polars: PolarSet, file: string, faults: FaultList): void {
  if (!isGiven(polars, 'plans', file, 'readPolars or estimatePolars', faults)) return;
  for (const [id, { twsKn, twaDeg, stwKn, windHeightM = 10, twaReference = 'course' }] of Object.entries(
    polars.plans,
  )) {
    const isRising = (values: readonly number[]) =>
      values.every((value, i) => value >= 0 && !(value <= values[i - 1]!));
    const add = (path: string, expected: string, got: string) => {
      faults.add({ file, path: `${id}.${path}`, ...says.wrongValue(expected, got) });
    };
    if (!(windHeightM >= 1 && windHeightM <= 60)) add('windHeightM', 'a number from 1 to 60', `${windHeightM}`);
    if (twaReference !== 'course' && twaReference !== 'heading') {
      add('twaReference', 'course or heading', `${twaReference}`);
    }
    if (twsKn.length < 1 || !isRising(twsKn)) add('twsKn', 'at least 1 wind speed, rising', `[${twsKn.join(', ')}]`);
    if (twaDeg.length < 2 || !isRising(twaDeg) || twaDeg.at(-1)! > 180) {
      add('twaDeg', 'at least 2 angles from 0 to 180, rising', `[${twaDeg.join(', ')}]`);
    }
    if (
      stwKn.length !== twsKn.length * twaDeg.length ||
      !stwKn.every((speed) => speed >= 0 && Number.isFinite(speed))
    ) {
      add('stwKn', `${twsKn.length * twaDeg.length} speeds of 0 or more`, `${stwKn.length} numbers`);
    }
  }
}
