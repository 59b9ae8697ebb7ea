import type {
  Boat,
  BoatWith,
  Climatology,
  Crossover,
  EstimatedPolars,
  Forecast,
  NextSail,
  Passage,
  PassageRecord,
  PlanToPrint,
  PolarSet,
  Route,
  SailTried,
  Study,
  StudyToPrint,
  Worth,
  WorthStudy,
} from 'windwardrobe';

/** What examples in doc comments start from; `src/index.ts` says so to readers of the reference. */
export interface Sample {
  readonly path: (name: string) => string;
  readonly folder: string;
  readonly routeCsv: string;
  readonly forecastCsv: string;
  readonly climatologyCsv: string;
  readonly boatJson: string;
  readonly polarsCsv: string;
  readonly route: Route;
  readonly forecast: Forecast;
  readonly climatology: Climatology;
  readonly boat: Boat;
  readonly polars: PolarSet;
  readonly passage: Passage;
  readonly plan: PlanToPrint;
  readonly kinds: Boat;
  readonly kindsPolars: EstimatedPolars;
  readonly crossover: Crossover;
  readonly study: Study;
  readonly records: readonly PassageRecord[];
  readonly studied: StudyToPrint;
  readonly without: WorthStudy;
  readonly vented: BoatWith;
  readonly withVented: WorthStudy;
  readonly tried: SailTried;
  readonly worth: Worth;
  readonly next: NextSail;
}

export const sample: Sample;
