import { kindOf } from '../catalogue/catalogue.js';
import type { BoatFile, Sail } from './boat.js';
import { completeSail } from './completeSail.js';
import { LONGEST_ID, MOST_SAILS } from './schema.js';

/**
 * Settings of the headsails on the forestay held out to windward, where the file names none: on a pole, or on a catamaran by a
 * line to the bow (one held a self-tacking jib so, S55).
 */
export function wingedSettings(sails: readonly Sail[], boat: BoatFile): Sail[] {
  const hasPole = (boat.rig?.poleM ?? 0) > 0;
  if (!hasPole && boat.hull.type !== 'catamaran') return [];
  if (sails.some(({ kind }) => kindOf(kind).place === 'winged')) return [];
  const [prefix, how] = hasPole ? ['poled', 'on the pole'] : ['winged', 'held out by a line to the bow'];
  const ids = new Set(sails.map(({ id }) => id));
  return sails
    .filter(({ kind, clothOf }) => clothOf === undefined && WINGED.includes(kind))
    .slice(0, MOST_SAILS - sails.length)
    .map((cloth) => {
      let id = `${prefix}-${cloth.id}`.slice(0, LONGEST_ID);
      for (let n = 2; ids.has(id); n += 1) id = `${`${prefix}-${cloth.id}`.slice(0, LONGEST_ID - 4)}-${n}`;
      ids.add(id);
      const setting = completeSail({ id, kind: 'poled-out-headsail', clothOf: cloth.id }, { ...boat, sails });
      const whole = { status: 'derived', basis: `${cloth.id} ${how}` } as const;
      return { ...setting, derived: { id: whole, kind: whole, clothOf: whole, ...setting.derived } };
    });
}

const WINGED: readonly Sail['kind'][] = ['self-tacking-jib', 'overlapping-genoa'];
