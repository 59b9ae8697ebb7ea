// A boat of kinds and rig dimensions: what follows from them, and where each number comes from.
import { readBoat } from 'windwardrobe';
import { codeSailOf, kindOf, SOURCES, sheetLoadKg, stormSailLimits } from 'windwardrobe/sails';

const boat = readBoat(
  JSON.stringify({
    name: 'Invented',
    hull: { type: 'catamaran' },
    rig: { iM: 17, jM: 5.2, pM: 16.5, eM: 6, spritM: 1.5 },
    sails: [
      { id: 'main', kind: 'full-roach-main', reefs: [{ areaShare: 0.75 }, { areaShare: 0.5 }] },
      { id: 'jib', kind: 'self-tacking-jib' },
      { id: 'code', kind: 'code-zero', midGirthRatio: 0.6, window: { awaMaxDeg: 115 } },
    ],
  }),
);
console.log(`sail plans: ${boat.sailPlans.map(({ id }) => id).join(', ')}`);
for (const { id, areaM2, window, derived } of boat.sails) {
  console.log(`${id}: ${areaM2} m² (${derived.areaM2.status}), AWA ${window.awaMinDeg} to ${window.awaMaxDeg}`);
}
const given = boat.sails.flatMap(({ id, derived }) => ('window.awaMaxDeg' in derived ? [] : [id]));
console.log(`angle given by the owner: ${given.join(', ')}`);

const { awaMinDeg, awaMaxDeg } = kindOf('vented-downwind').window;
console.log(`vented: AWA ${awaMinDeg.value} to ${awaMaxDeg.value} (${awaMinDeg.status})`);
const { source } = kindOf('symmetric-cruising').window.twsMaxKn;
console.log(`cruising symmetric: true gust limit by ${SOURCES[source]}`);
console.log(
  `code sails of mid-girth 0.55 and 0.70 draw best at ${codeSailOf(0.55).bestAwaDeg} and ${codeSailOf(0.7).bestAwaDeg}`,
);
console.log(
  `storm jib at most ${stormSailLimits(17).stormJibM2.toFixed(1)} m²; 45 m² of jib in 30 kn: ${sheetLoadKg(45, 30).toFixed(0)} kg on the sheet`,
);
