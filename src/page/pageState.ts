import type { BoatSeen, FaultsOfFile, Looked, PutFile } from './messages.js';

/** A file on the page with its number. */
export type FileHere = Looked & { readonly id: number };

/** What a page knows, what it is waiting for, and what it shows. */
export interface PageState {
  readonly files: readonly FileHere[];
  /** How many files were put here so far. */
  readonly count: number;
  /** How many times files are being looked at. */
  readonly looking: number;
  /** How many times something was asked for: an answer to what was asked before is late. */
  readonly run: number;
  /** Whether a plan is under way that is still wanted. */
  readonly isPlanning: boolean;
  /** Whether a plan is shown, which then follows what is changed. */
  readonly isShown: boolean;
  /** What was wrong when it was planned last. */
  readonly faultsOfPlan: readonly FaultsOfFile[];
}

export const EMPTY: PageState = {
  files: [],
  count: 0,
  looking: 0,
  run: 0,
  isPlanning: false,
  isShown: false,
  faultsOfPlan: [],
};

/** A boat has one of these, and a passage too: the last one put here is the one. */
const ONLY_ONE: ReadonlySet<Looked['kind']> = new Set(['route', 'boat']);

/** Files were given to be looked at. */
export const askedToLook = (state: PageState): PageState => ({ ...state, looking: state.looking + 1 });

/** They were looked at: one of the same name, and of what there can be only one, makes way. */
export function lookedAt(state: PageState, looked: readonly Looked[]): PageState {
  const after = looked.reduce(withFile, state);
  return { ...after, looking: Math.max(0, state.looking - 1) };
}

function withFile(state: PageState, looked: Looked): PageState {
  const { file, kind } = looked;
  const others = state.files.filter((one) => one.file.name !== file.name && !(one.kind === kind && ONLY_ONE.has(kind)));
  return { ...outdated(state), files: [...others, { ...looked, id: state.count }], count: state.count + 1 };
}

/** A file was taken away. */
export const takenAway = (state: PageState, { file }: Looked): PageState => ({
  ...outdated(state),
  files: state.files.filter((one) => one.file !== file),
});

/** What is shown, or under way, is of other files than are here now. */
const outdated = (state: PageState): PageState => ({
  ...state,
  run: state.run + 1,
  isPlanning: false,
  isShown: false,
  faultsOfPlan: [],
});

/** A plan was asked for. */
export const askedToPlan = (state: PageState): PageState => ({
  ...state,
  run: state.run + 1,
  isPlanning: true,
  faultsOfPlan: [],
});

/** Whether an answer is to what was asked last. */
export const isAwaited = (state: PageState, run: number): boolean => state.isPlanning && run === state.run;

/** It was planned. */
export const planned = (state: PageState): PageState => ({ ...state, isPlanning: false, isShown: true });

/** It could not be planned. */
export const refused = (state: PageState, faultsOfPlan: readonly FaultsOfFile[]): PageState => ({
  ...state,
  isPlanning: false,
  isShown: false,
  faultsOfPlan,
});

/** Whoever reads and plans was let go of, or failed: nothing that was asked is answered any more. */
export const letGo = (state: PageState): PageState => ({
  ...state,
  run: state.run + 1,
  looking: 0,
  isPlanning: false,
});

/** Whether a change is to be planned at once. */
export const isFollowing = ({ isShown, isPlanning }: PageState): boolean => isShown || isPlanning;

/** What is still wanted before it can be planned, in words. */
export function wantedIn({ files }: PageState): readonly string[] {
  const has = (...kinds: readonly Looked['kind'][]) =>
    files.some(({ kind, faults }) => kinds.includes(kind) && faults.length === 0);
  return [
    ...(has('route') ? [] : ['a route']),
    ...(has('forecast', 'climatology') ? [] : ['a forecast']),
    ...(has('boat') ? [] : ['a boat']),
  ];
}

/** Whether a plan may be asked for. */
export const mayPlan = (state: PageState): boolean => state.looking === 0 && wantedIn(state).length === 0;

/** All that is wrong with a file, by itself and in what was planned; what is wrong with several stands at each. */
export const faultsWith = ({ faultsOfPlan }: PageState, { file, faults }: Looked): readonly string[] => [
  ...faults,
  ...faultsOfPlan.flatMap((one) => (one.file.split(TOGETHER).includes(file.name) ? one.told : [])),
];

/** Between the names of files that are read together. */
const TOGETHER = ' + ';

/** The boat on the page. */
export const boatOn = ({ files }: PageState): BoatSeen | undefined =>
  files.find(({ boat }) => boat !== undefined)?.boat;

/** What is planned with. */
export const filesToPlan = ({ files }: PageState): readonly PutFile[] =>
  files.flatMap(({ file, kind, id }) => (kind === undefined || kind === 'plan' ? [] : [{ file, kind, id }]));
