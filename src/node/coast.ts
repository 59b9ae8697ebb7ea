import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { type Land, landOf } from '../land/land.js';

/**
 * The land of Natural Earth at 1:50 million (the world-atlas package): good for a warning, not for pilotage.
 * @example
 * const land = await worldLand();
 * landOnTrack(sample.route, land) // []
 */
export async function worldLand(): Promise<Land> {
  const path = createRequire(import.meta.url).resolve('world-atlas/land-50m.json');
  const topology = JSON.parse(await readFile(path, 'utf8')) as Topology<{ land: GeometryCollection }>;
  return landOf(feature(topology, topology.objects.land));
}
