import type { FaultList } from '../errors.js';
import { highestLimit, isLimit } from '../sail/sail.js';
import { says } from '../wording.js';
import type { Sail, SailGiven } from './boat.js';

/** Adds a fault where what is given in part contradicts what the kind fills in: nobody can guess which is meant. */
export function checkFilled(
  { window, kind, reefs = [], derived = {} }: Sail,
  given: SailGiven,
  path: string,
  file: string,
  faults: FaultList,
) {
  const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn } = window;
  if (awaMinDeg >= awaMaxDeg) {
    const [own, other] =
      given.window?.awaMinDeg === undefined ? ['awaMaxDeg', 'awaMinDeg'] : ['awaMinDeg', 'awaMaxDeg'];
    const side = own === 'awaMinDeg' ? 'less' : 'more';
    const said = says.besideDefault(side, other!, window[other as 'awaMinDeg'], kind, `${window[own as 'awaMinDeg']}`);
    faults.add({ file, path: `${path}.window.${own}`, ...said });
  }
  const { awaMaxDeg: wide } = given.window ?? {};
  reefs.forEach((reef, r) => {
    const before = reefs[r - 1];
    if (before !== undefined && reef.areaShare >= before.areaShare) {
      faults.add({ file, path: `${path}.reefs[${r}].areaShare`, ...says.smallerReef() });
    }
    if (wide !== undefined || reef.awaMinDeg === undefined || reef.awaMinDeg < awaMaxDeg) return;
    const said = says.besideDefault('less', 'awaMaxDeg', awaMaxDeg, kind, `${reef.awaMinDeg}`);
    faults.add({ file, path: `${path}.reefs[${r}].awaMinDeg`, ...said });
  });
  const highest = highestLimit(awsMaxKn);
  if (isLimit(awsMinKn) && highest !== undefined && awsMinKn >= highest && 'window.awsMaxKn' in derived) {
    faults.add({
      file,
      path: `${path}.window.awsMinKn`,
      ...says.besideDefault('less', 'awsMaxKn', highest, kind, `${awsMinKn}`),
    });
  }
}
