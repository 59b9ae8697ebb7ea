export { type Geometry, geometriesOf, keyPath, lonLatOf, shown } from './geometries.js';
export { parseJson } from './parseJson.js';
export { addSchemaFaults } from './schemaFaults.js';
