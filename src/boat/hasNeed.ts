import type { Need } from '../catalogue/catalogue.js';
import type { BoatFile } from './boat.js';

/** Whether a boat has what a sail may need. */
export function hasNeed({ hull, rig = {} }: Pick<BoatFile, 'hull' | 'rig'>, need: Need): boolean {
  const has: Readonly<Record<Need, boolean>> = {
    sprit: (rig.spritM ?? 0) > 0,
    pole: (rig.poleM ?? 0) > 0,
    'inner forestay': rig.innerForestay === true,
    'two bows': hull.type === 'catamaran',
  };
  return has[need];
}
