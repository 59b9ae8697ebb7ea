import * as v from 'valibot';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import type { Watches } from './boat.js';
import { watchesSchema } from './schema.js';

/** Adds a fault for times of change of watch that do not rise within the day, and for more watches than people to stand them. */
export function checkWatches(json: unknown, file: string, faults: FaultList): void {
  const { watches, crew } = (json ?? {}) as { watches?: Partial<Watches> | null; crew?: unknown };
  const { changes, teams } = watches ?? {};
  if (v.is(watchesSchema.entries.changes, changes)) {
    changes.forEach((time, i) => {
      // Hours and minutes of two digits each rise as their texts do.
      if (i > 0 && time <= changes[i - 1]!)
        faults.add({ file, path: `watches.changes[${i}]`, ...says.risingTimes(time) });
    });
  }
  if (typeof crew === 'number' && v.is(watchesSchema.entries.teams.wrapped, teams) && teams > crew) {
    faults.add({ file, path: 'watches.teams', ...says.teamsOfCrew(crew, teams) });
  }
}
