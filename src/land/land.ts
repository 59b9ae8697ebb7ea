/**
 * Whether a route lies over land. The coast is an argument (GeoJSON polygons) and this an entry of its own, so that who
 * does not ask carries neither.
 * `sample` in examples is explained with `windwardrobe` itself.
 * @packageDocumentation
 */
export { type Land, landOf, type Ring } from './landOf.js';
export { type LandOptions, landOnTrack } from './landOnTrack.js';
