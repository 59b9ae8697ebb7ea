export { type CropBox, cropBoxAround, cropBoxOf } from './crop.js';
export { parsePosition } from './position.js';
export { readRoute } from './readRoute.js';
export { type RouteLeft, routeFrom } from './rejoin.js';
export { layTrack, type Track, type TrackPoint, trackAt } from './track.js';
export { legKindOf, type Route, type Waypoint } from './waypoint.js';
