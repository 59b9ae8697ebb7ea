// Writes forecast.csv, climatology.csv, polars.csv and monohull-polars.csv of the invented sample scenario. Seeded: the same bytes every time.
// Run: node data-samples/generate.mjs [folder]
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const SEED = 20270110;
const START = Date.UTC(2027, 0, 10);
const DAYS = 24;
const STEP_HOURS = 6;
const LATS = range(10, 32.5, 2.5);
const LONS = range(-65, -10, 2.5);
const RAD = Math.PI / 180;

/** A small generator of random numbers 0 to 1 (mulberry32, public domain). */
function randomOf(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function range(from, to, step) {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
}

const bell = (x, centre, width) => Math.exp(-(((x - centre) / width) ** 2));

/** Smooth disturbances: a few waves of random phase, wandering west. */
function disturbances(random) {
  const waves = Array.from({ length: 6 }, () => ({
    kLat: (random() - 0.5) * 0.5,
    kLon: (random() - 0.5) * 0.35,
    perDay: 0.6 + random() * 1.2,
    phase: random() * 2 * Math.PI,
  }));
  return (lat, lon, day) =>
    waves.reduce((sum, w) => sum + Math.sin(w.kLat * lat + w.kLon * lon + w.perDay * day + w.phase), 0) / waves.length;
}

/** Sea-level pressure, hPa: a high to the north that drifts and breathes, lower pressure towards the equator. */
function pressure(lat, lon, day) {
  const centre = -44 + 7 * Math.sin((2 * Math.PI * day) / 17);
  const strength = 13 + 1.5 * Math.sin((2 * Math.PI * day) / 9 + 1);
  return 1010 + strength * bell(lat, 34, 16) * bell(lon, centre, 36) + 0.22 * lat;
}

/** Wind at 10 m, m/s towards east and north: gradient wind turned 20° to the low and slowed by the sea, and what rides on it. */
function windAt(lat, lon, day, noise) {
  const h = 0.05;
  const metres = 111195 * 2 * h;
  const northGradient = (100 * (pressure(lat + h, lon, day) - pressure(lat - h, lon, day))) / metres;
  const eastGradient =
    (100 * (pressure(lat, lon + h, day) - pressure(lat, lon - h, day))) / (metres * Math.cos(lat * RAD));
  const coriolis = 1.2 * 2 * 7.292e-5 * Math.sin(Math.max(lat, 11) * RAD);
  const [ug, vg] = [-northGradient / coriolis, eastGradient / coriolis];
  const [cos, sin] = [0.76 * Math.cos(20 * RAD), 0.76 * Math.sin(20 * RAD)];
  let u = ug * cos - vg * sin;
  let v = ug * sin + vg * cos;
  // Easterly wave: 22° long, 6° a day to the west, strongest at 14 N, in the second week.
  v += 4.2 * bell(lat, 14, 7) * bell(day, 12, 5) * Math.sin((2 * Math.PI * (lon + 6 * day)) / 22);
  // Squally spell, and a lull further on.
  const spell = squalls(lat, lon, day);
  const lull = 1 - 0.72 * bell(lat, 17, 6) * bell(lon, -46, 9) * bell(day, 13.2, 1.1);
  const strength = lull * (1 + 0.22 * spell) * (1 + 0.14 * noise.speed(lat, lon, day));
  const turn = 9 * RAD * noise.turn(lat, lon, day);
  u *= strength;
  v *= strength;
  [u, v] = [u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)];
  return [u, v];
}

const squalls = (lat, lon, day) => bell(lat, 18, 6) * bell(lon, -35, 9) * bell(day, 9.3, 1.3);

function forecastCsv() {
  const random = randomOf(SEED);
  const noise = { speed: disturbances(random), turn: disturbances(random), gust: disturbances(random) };
  const lines = ['time,lat,lon,u10,v10,gust,current_u,current_v,wave_height,wave_period,wave_from_direction'];
  for (let hour = 0; hour <= DAYS * 24; hour += STEP_HOURS) {
    const day = hour / 24;
    const time = `${new Date(START + hour * 3600_000).toISOString().slice(0, 16)}Z`;
    for (const lat of LATS) {
      for (const lon of LONS) {
        const [u, v] = windAt(lat, lon, day, noise);
        const speed = Math.hypot(u, v);
        const gust = speed * (1.28 + 0.05 * noise.gust(lat, lon, day) + 0.42 * squalls(lat, lon, day)) + 0.2;
        // North Equatorial Current westwards, the Canary Current southwards in the east.
        const west = 0.27 * bell(lat, 14.5, 6.5) * (1 + 0.3 * noise.gust(lon, lat, day * 0.2));
        const south = 0.16 * bell(lon, -15, 9) * bell(lat, 26, 6);
        const height = Math.sqrt((0.019 * speed * speed) ** 2 + 1.15 ** 2);
        const waveFrom = (((Math.atan2(-u, -v) / RAD + 360 + 12 * bell(lat, 26, 10)) % 360) + 360) % 360;
        lines.push(
          [
            time,
            lat,
            lon,
            u.toFixed(2),
            v.toFixed(2),
            gust.toFixed(2),
            (-west - 0.4 * south).toFixed(2),
            (-south).toFixed(2),
            height.toFixed(2),
            (4.4 + 0.46 * speed).toFixed(1),
            waveFrom.toFixed(0),
          ].join(','),
        );
      }
    }
  }
  return `${lines.join('\n')}\n`;
}

/** Mean wind of every month, m/s: a belt of trades that lies further north in summer, steady in its middle and unsteady at its edges. */
function climatologyCsv() {
  const lines = ['month,lat,lon,u,v,wind_speed'];
  for (let month = 1; month <= 12; month += 1) {
    // 1 at the end of July, −1 at the end of January.
    const summer = -Math.cos((2 * Math.PI * (month - 1)) / 12);
    for (const lat of range(10, 35, 2.5)) {
      for (const lon of range(-65, -10, 5)) {
        const inBelt = bell(lat, 17 + 2.5 * summer, 11);
        const speed = 5.2 + (2.6 - 0.7 * Math.sin((2 * Math.PI * (month - 3)) / 12)) * inBelt * bell(lon, -45, 45);
        const steadiness = 0.45 + 0.5 * inBelt * (0.93 + 0.07 * summer);
        // North-east off Africa, east in the west.
        const from = (62 + 22 * bell(lon, -62, 26) - 30 * bell(lat, 30, 9)) * RAD;
        const vector = speed * steadiness;
        const [u, v] = [-vector * Math.sin(from), -vector * Math.cos(from)];
        lines.push([month, lat, lon, u.toFixed(2), v.toFixed(2), speed.toFixed(2)].join(','));
      }
    }
  }
  return `${lines.join('\n')}\n`;
}

const TWS = [6, 8, 10, 12, 15, 18, 21, 25, 30, 36, 44];
const TWA = [40, 50, 60, 75, 90, 100, 110, 120, 135, 150, 165, 180];

// How well each sort of plan drives by angle, 1 at its best.
const DRIVE = {
  //        40    50    60    75    90   100   110   120   135   150   165   180
  working: [0.26, 0.44, 0.62, 0.86, 0.97, 1.0, 1.0, 0.93, 0.66, 0.42, 0.33, 0.3],
  code: [0, 0.36, 0.62, 0.92, 1.0, 0.98, 0.93, 0.8, 0.55, 0.37, 0, 0],
  reacher: [0, 0, 0, 0.62, 0.88, 0.97, 1.0, 0.97, 0.8, 0.55, 0.38, 0],
  running: [0, 0, 0, 0, 0.34, 0.48, 0.62, 0.73, 0.82, 0.8, 0.73, 0.66],
  winged: [0, 0, 0, 0, 0, 0, 0.4, 0.5, 0.62, 0.74, 0.78, 0.76],
  storm: [0, 0.34, 0.5, 0.7, 0.82, 0.86, 0.88, 0.86, 0.76, 0.66, 0.6, 0.56],
};

const PLANS = [
  ['main+jib', 'working', 120],
  ['reef1+jib', 'working', 103],
  ['reef2+jib', 'working', 87],
  ['reef3+jib', 'working', 73],
  ['reef3+heavy-jib', 'working', 59],
  ['main+code', 'code', 150],
  ['code', 'code', 72],
  ['main+reacher', 'reacher', 188],
  ['reacher', 'reacher', 110],
  ['vented', 'running', 140],
  ['main+poled-jib', 'winged', 120],
  ['reef1+poled-jib', 'winged', 103],
  ['reef2+poled-jib', 'winged', 87],
  ['poled-jib', 'winged', 42],
  ['storm-jib', 'storm', 14],
  ['trysail+storm-jib', 'storm', 27],
];

/** Areas of the monohull's sails and of their settings, and how each drives; her plans follow from her kinds. */
const MONOHULL_SAILS = {
  main: [36.8, 28.7, 21.3, 14.7],
  genoa: [52.4, 41.4, 28.8],
  'poled-genoa': [52.4, 31.4],
  gennaker: [68.8],
  staysail: [17.9],
  'storm-jib': [9.5],
  trysail: [11.9],
};
const MONOHULL_PLANS = [
  'main+genoa main+genoa.1 main.1+genoa main.1+genoa.1 main.1+genoa.2 main.1+staysail main.2+genoa.1 main.2+genoa.2',
  'main.2+staysail main.3+genoa.1 main.3+genoa.2 main.3+staysail main.3+storm-jib main+gennaker gennaker',
  'main+poled-genoa main.1+poled-genoa main.1+poled-genoa.1 main.2+poled-genoa main.2+poled-genoa.1',
  'main.3+poled-genoa main.3+poled-genoa.1 poled-genoa poled-genoa.1 main main.1 main.2 main.3 genoa genoa.1 genoa.2',
  'staysail storm-jib trysail trysail+storm-jib',
].flatMap((line) => line.split(' '));

function monohullPlan(id) {
  const sails = id.split('+').map((setting) => setting.split('.'));
  const area = sails.reduce((sum, [sail, reef = 0]) => sum + MONOHULL_SAILS[sail][reef], 0);
  const has = (name) => sails.some(([sail]) => sail === name);
  const sort = has('gennaker')
    ? 'reacher'
    : has('poled-genoa')
      ? 'winged'
      : has('storm-jib') || has('trysail')
        ? 'storm'
        : 'working';
  return [id, sort, area];
}

/** Knots: a third power of driving area, wind to the 3/4, bent below the most a hull makes. */
function speed(area, drive, tws, { share, mostKn }) {
  const free = share * (area * drive) ** (1 / 3) * tws ** 0.75;
  return free === 0 ? 0 : (free ** -4 + mostKn ** -4) ** -0.25;
}

const CATAMARAN = { share: 0.2215, mostKn: 13 };
const MONOHULL = { share: 0.255, mostKn: 8.3 };
/** Speed of bare poles before the wind; nothing abeam or ahead. */
const BARE_POLES = [0, 0, 0, 0, 0, 0, 0.055, 0.07, 0.09, 0.1, 0.105, 0.11];

function polarsCsv(plans, hull) {
  const lines = ['sail_plan,tws_kn,twa_deg,stw_kn'];
  for (const [plan, sort, area] of plans) {
    for (const tws of TWS) {
      TWA.forEach((twa, i) => {
        const drive = DRIVE[sort][i];
        if (drive > 0) lines.push([plan, tws, twa, speed(area, drive, tws, hull).toFixed(2)].join(','));
      });
    }
  }
  return `${lines.join('\n')}\n`;
}

function barePolesCsv() {
  const rows = TWS.flatMap((tws) =>
    TWA.flatMap((twa, i) =>
      BARE_POLES[i] > 0 ? [`bare-poles,${tws},${twa},${(BARE_POLES[i] * tws).toFixed(2)}`] : [],
    ),
  );
  return `${rows.join('\n')}\n`;
}

const folder = process.argv[2] ?? fileURLToPath(new URL('.', import.meta.url));
mkdirSync(folder, { recursive: true });
writeFileSync(`${folder}/forecast.csv`, forecastCsv());
writeFileSync(`${folder}/climatology.csv`, climatologyCsv());
writeFileSync(`${folder}/polars.csv`, polarsCsv(PLANS, CATAMARAN));
writeFileSync(`${folder}/monohull-polars.csv`, polarsCsv(MONOHULL_PLANS.map(monohullPlan), MONOHULL) + barePolesCsv());
