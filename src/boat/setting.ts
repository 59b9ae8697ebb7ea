import type { Window } from '../sail/sail.js';
import type { Boat, Sail } from './boat.js';

/** A sail as a sail plan sets it: which cloth works, how far reefed, and the window that then holds. */
export interface Setting {
  readonly sail: Sail;
  /** Id of the cloth that works: the sail itself, or the sail it is another setting of. */
  readonly cloth: string;
  /** 0 for the full sail. */
  readonly reef: number;
  readonly window: Window;
}

/** Cuts `main:1` into the sail's id and the reef's number (0 without one; NaN where it is no number). */
export function parseSetting(text: string): { id: string; reef: number } {
  const [id = '', reef, ...rest] = text.split(':');
  if (reef === undefined) return { id, reef: 0 };
  return { id, reef: /^[1-9]\d?$/.test(reef) && rest.length === 0 ? Number(reef) : Number.NaN };
}

/** The setting that a sail plan names (`main:1`); undefined where the boat has no such sail or reef. */
export function settingOf(boat: Pick<Boat, 'sails'>, text: string): Setting | undefined {
  const { id, reef } = parseSetting(text);
  const sail = boat.sails.find((candidate) => candidate.id === id);
  if (sail === undefined) return undefined;
  const cloth = sail.clothOf ?? sail.id;
  const window = reefedWindow(sail, reef);
  return window === undefined ? undefined : { sail, cloth, reef, window };
}

/** The window of a sail with so many reefs; undefined where it has fewer. */
export function reefedWindow(sail: Sail, reef: number): Window | undefined {
  if (reef === 0) return sail.window;
  const taken = sail.reefs?.[reef - 1];
  if (taken === undefined) return undefined;
  const { awaMinDeg, awaMaxDeg, awsMinKn = null } = sail.window;
  const { awsMaxKn = null, twsMaxKn = null } = taken;
  return { awaMinDeg: taken.awaMinDeg ?? awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn };
}

/** A setting of a sail as a sail plan names it, and as its id does: `main:1`, `main.1`. */
export const settingText = (id: string, reef: number): string => (reef === 0 ? id : `${id}:${reef}`);
export const settingIdPart = (id: string, reef: number): string => (reef === 0 ? id : `${id}.${reef}`);
