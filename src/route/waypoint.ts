import { type LegKind, type Position, sailingBetween } from '../geo/geo.js';

/** A place of the route, and how the leg that leaves it is sailed. */
export interface Waypoint extends Position {
  readonly name: string;
  /** Kind of the leg to the next waypoint; absent: great circle over 500 Nm, else rhumb line. Nothing at the last. */
  readonly toNext?: LegKind;
}

/** The navigator's route, sailed as drawn. */
export interface Route {
  readonly waypoints: readonly Waypoint[];
}

/** Legs longer than this are great circles unless the route says otherwise. */
const GREAT_CIRCLE_OVER_NM = 500;

/** How the leg between two waypoints is sailed. */
export function legKindOf(from: Waypoint, to: Position): LegKind {
  if (from.toNext !== undefined) return from.toNext;
  return sailingBetween(from, to, 'great-circle').distanceNm > GREAT_CIRCLE_OVER_NM ? 'great-circle' : 'rhumb';
}

/** Two centimetres: places as near as that were never meant as two. */
export const SHORTEST_LEG_NM = 1e-5;

/** Whether two places are one: nothing lies between them that could be sailed. */
export function isSamePlace(one: Position, other: Position): boolean {
  return sailingBetween(one, other, 'great-circle').distanceNm < SHORTEST_LEG_NM;
}

/** What a waypoint without a name is called: `WP1` for the first of the route. */
export const defaultName = (index: number) => `WP${index + 1}`;

/** Whether a text of a file names a kind of leg. */
export function isLegKind(text: unknown): text is LegKind {
  return text === 'rhumb' || text === 'great-circle';
}
