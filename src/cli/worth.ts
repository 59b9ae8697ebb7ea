import { wardrobeWarnings } from '../boat/boat.js';
import { type Fault, InputError } from '../errors.js';
import { worldLand } from '../node/node.js';
import { worthCsv, worthJson, worthMarkdown, worthText } from '../output/output.js';
import { worthReport } from '../report/report.js';
import { says } from '../wording.js';
import { checkCurrencies, turnedBoats, type Worth, worthCases, worthOf } from '../worth/worth.js';
import type { CommandIo } from './io.js';
import { checkStudy, readStudy } from './studyAsked.js';
import { sailInto } from './studySailed.js';
import { version } from './version.js';
import { ownerPrices, rivalsGiven, sailGiven, sampleOf, speedBandOf, type WorthOptions } from './worthOptions.js';
import {
  crewWarnings,
  gathering,
  rivalsOf,
  type Side,
  sideWith,
  unlikeWarnings,
  unpriced,
  withMargins,
} from './worthSides.js';

/**
 * Sails the same passages with wardrobe A and with wardrobe B, its competitors beside it, and says whether B is worth its price.
 * @throws InputError with every fault
 */
export async function worth(given: WorthOptions, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  const wanted = sailGiven(given, faults);
  const prices = ownerPrices(given, faults);
  const asked = rivalsGiven(given, faults);
  const sample = sampleOf(given.sample, faults);
  const band = speedBandOf(given.speedBand, faults);
  const files = [given.boat, ...(given.against === undefined ? [] : [given.against])];
  const read = await readStudy({ ...given, boat: files }, io, faults);
  const whole = withMargins(read.study);
  const a: Side = whole.boats[0]!;
  const b: Side = wanted === undefined ? apart(whole.boats[1]!, a) : sideWith(a, wanted, given.boat);
  checkCurrencies(a.boat, b.boat, given.against ?? given.boat);
  const { rivals, warnings } = rivalsOf(a, b, asked, given.boat);
  const turned = turnedBoats(a, b, band);
  const compared = [a, b, ...rivals].map(({ name, boat, polars }) => ({ name, boat, polars, firmness: true }));
  const study = { ...whole, ...worthCases(whole, compared, turned, sample) };
  checkStudy(study, compared);
  const crew = study.options.crew ?? a.boat.crew;
  const all = [
    ...read.loaded.warnings,
    ...(given.against === undefined ? [] : unlikeWarnings(a, b, given.against)),
    ...wardrobeWarnings(b.boat, given.against ?? given.boat),
    ...rivals.flatMap((side) => ofNew(wardrobeWarnings(side.boat, side.name), a)),
    ...[b, ...rivals].flatMap((side) => crewWarnings(a, side, crew)),
    ...warnings,
  ];
  const passages = gathering();
  const land = await worldLand();
  return sailInto(given.out, { ...read, study, loaded: { ...read.loaded, warnings: all } }, io, {
    dependsOn: [
      unpriced(wanted),
      rivals.map((rival) => unpriced(rival.wanted)),
      study.boats.map(({ boat }) => boat.house),
      sample,
    ],
    add: passages.add,
    finish(sailed) {
      // The gust margin went to the boats; it is told where it was given.
      const printed = { ...sailed, options: read.study.options };
      let answer: Worth;
      try {
        answer = worthOf(passages.studyOf(a), passages.studyOf(b), prices, {
          rivals: rivals.map((rival) => ({ ...passages.studyOf(rival), ...priceOf(rival) })),
          turned: turned.map((one) => passages.turned(one, a, b)),
        });
      } catch (error) {
        // No passage is a result too: the study's own files tell of it.
        if (!(error instanceof InputError && error.faults[0]?.code === says.noneFinished(0).code)) throw error;
        return { files: {}, printed: `${error.message}\n`, isComplete: false };
      }
      return {
        files: {
          'worth.json': worthJson(answer, printed),
          'worth.csv': worthCsv(answer),
          'worth.md': worthMarkdown(answer, printed),
          'report.html': worthReport(answer, printed, { land, routes: study.routes, version: version() }),
        },
        printed: worthText(answer, printed),
        isComplete: passages.areComplete([a, b, ...rivals]),
      };
    },
  });
}

/** What is told of sails that A has not: the others are told with her. */
const ofNew = (warnings: readonly Fault[], { boat }: Side) =>
  warnings.filter(({ path = '' }) => Number(/^sails\[(\d+)\]/.exec(path)?.[1] ?? -1) >= boat.sails.length);

/** Passages are told apart by the names of their boats. */
const apart = (b: Side, { name }: Side): Side => (b.name === name ? { ...b, name: `${name} (B)` } : b);

const priceOf = ({ wanted }: Side) => (wanted?.price === undefined ? {} : { price: wanted.price });
