// Weather of your own making: a grid in memory instead of CSV. Here invented trades that veer and freshen as days go by.
import { readFile } from 'node:fs/promises';
import { describeForecast, planPassage, readBoat, readPolars, readRoute, totalsOf } from 'windwardrobe';

const text = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(await text('boat.json'));
const polars = readPolars(await text('polars.csv'), { boat });
const route = readRoute('name,lat,lon,to_next\nCape Verde,16.9,-25.0,great-circle\nBarbados,13.1,-59.6,\n');

const rising = (from, to, step) => Float64Array.from({ length: (to - from) / step + 1 }, (_, i) => from + i * step);
const start = Date.UTC(2027, 0, 11) / 1000;
const epochSeconds = rising(start, start + 20 * 86400, 6 * 3600);
const [lats, lons] = [rising(10, 20, 2.5), rising(-65, -20, 5)];
const windEastKn = new Float32Array(epochSeconds.length * lats.length * lons.length);
const windNorthKn = new Float32Array(windEastKn.length);
epochSeconds.forEach((time, t) => {
  const days = (time - start) / 86400;
  const fromRadians = ((60 + 2 * days) * Math.PI) / 180;
  lats.forEach((latDeg, y) => {
    lons.forEach((_, x) => {
      const speedKn = 14 + days / 2 + (latDeg - 15) / 2;
      // Times first, then latitudes, then longitudes; components are those of the air, which goes where the wind is not from.
      const at = (t * lats.length + y) * lons.length + x;
      windEastKn[at] = -speedKn * Math.sin(fromRadians);
      windNorthKn[at] = -speedKn * Math.cos(fromRadians);
    });
  });
});
const grid = { epochSeconds, lats, lons, wraps: false, fields: { windEastKn, windNorthKn } };
const forecast = { file: 'invented trades', grids: [grid] };

const [{ quantity, min, max, stepHours }] = describeForecast(forecast);
console.log(`${quantity}: ${min.toFixed(1)} to ${max.toFixed(1)} kn, every ${stepHours} h`);
const passage = planPassage({ route, forecast, boat, polars }, { departure: '2027-01-12T09:00Z' });
const { arrival, distanceNm, sails } = totalsOf(passage, boat);
console.log(`${distanceNm.toFixed(0)} Nm, there at ${arrival}`);
for (const { id, hours, nightHours } of sails.filter((sail) => sail.hours > 0))
  console.log(`${id}: ${hours.toFixed(0)} h, ${nightHours.toFixed(0)} of them by night`);
