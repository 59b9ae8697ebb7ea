export { type CropBox, cropBoxOf } from './crop.js';
export { readRoute } from './readRoute.js';
export { layTrack, type Track, type TrackPoint, trackAt } from './track.js';
export type { Route, Waypoint } from './waypoint.js';
