export { type CropBox, cropBoxOf } from './crop.js';
export { readRoute } from './readRoute.js';
export { layTrack, type Track, type TrackPoint, trackAt } from './track.js';
export { GREAT_CIRCLE_OVER_NM, legKindOf, type Route, type Waypoint } from './waypoint.js';
