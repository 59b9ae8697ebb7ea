import { crossoverOf } from '../crossover/crossover.js';
import { describeFault, type Fault, InputError } from '../errors.js';
import { nextSailCsv, nextSailJson, nextSailMarkdown, nextSailText } from '../output/output.js';
import { nextSailReport } from '../report/report.js';
import { kindsFor, type NextSail, nextSailOf, turnedBoats, worthCases } from '../worth/worth.js';
import type { CommandIo } from './io.js';
import { checkStudy, readStudy } from './studyAsked.js';
import { sailInto } from './studySailed.js';
import { version } from './version.js';
import { type NextSailOptions, ownerPrices, sampleOf, speedBandOf } from './worthOptions.js';
import { crewWarnings, gathering, type Side, sideWith, withMargins } from './worthSides.js';

/**
 * Tries every kind of sail that fits once on the same passages, and ranks them by what they save.
 * @throws InputError with every fault
 */
export async function nextSail(given: NextSailOptions, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  const prices = ownerPrices(given, faults);
  const sample = sampleOf(given.sample, faults);
  const band = speedBandOf(given.speedBand, faults);
  const read = await readStudy({ ...given, boat: [given.boat] }, io, faults);
  const whole = withMargins(read.study);
  const a: Side = whole.boats[0]!;
  const { sides, leftOut } = sidesOf(a, given.boat);
  const turned = sides.map((side) => turnedBoats(a, side, band).filter(({ input }) => input === 'speed-band'));
  const compared = [a, ...sides].map(({ name, boat, polars }) => ({ name, boat, polars }));
  const study = { ...whole, ...worthCases(whole, compared, turned.flat(), sample) };
  checkStudy(study, compared);
  const passages = gathering();
  const crew = study.options.crew ?? a.boat.crew;
  const warnings = [...read.loaded.warnings, ...sides.flatMap((side) => crewWarnings(a, side, crew))];
  return sailInto(given.out, { ...read, study, loaded: { ...read.loaded, warnings } }, io, {
    dependsOn: [study.boats.map(({ boat }) => boat.house), sample],
    add: passages.add,
    finish(sailed) {
      // The gust margin went to the boats; it is told where it was given.
      const printed = { ...sailed, options: read.study.options };
      const ofA = passages.studyOf(a);
      const { holes, holesUnknown } = crossoverOf(a.boat, a.polars);
      const next = nextSailOf(
        ofA,
        sides.map((side, i) => ({
          ...passages.studyOf(side),
          kind: side.wanted!.kind,
          sail: side.sail!,
          turned: turned[i]!.map((one) => passages.turned(one, a, side)),
        })),
        prices,
        { holes, holesUnknown },
        leftOut,
      );
      return {
        files: {
          'next-sail.json': nextSailJson(next, printed),
          'next-sail.csv': nextSailCsv(next),
          'next-sail.md': nextSailMarkdown(next, printed),
          'report.html': nextSailReport(next, printed, { version: version() }),
        },
        printed: nextSailText(next, printed),
        isComplete: passages.areComplete([a, ...sides]),
      };
    },
  });
}

/** The boat with each kind that fits, and the kinds that do not. */
function sidesOf(a: Side, file: string): { readonly sides: readonly Side[]; readonly leftOut: NextSail['leftOut'] } {
  const sides: Side[] = [];
  const leftOut: NextSail['leftOut'][number][] = [];
  for (const { kind, unfit } of kindsFor(a.boat)) {
    if (unfit !== null) {
      leftOut.push({ kind, why: unfit });
      continue;
    }
    try {
      sides.push(sideWith(a, { kind }, file));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      leftOut.push({ kind, why: 'no-speeds', said: describeFault(error.faults[0]!) });
    }
  }
  return { sides, leftOut };
}
