import { inShort, showAnswer, showFaults, showText } from './answerView.js';
import { offerDeparture, setDeparture, withdrawDeparture } from './departureView.js';
import { byId } from './dom.js';
import { takeDropped } from './dropZone.js';
import { showFiles } from './filesView.js';
import type { Answer, Ask, Looked } from './messages.js';
import {
  askedToLook,
  askedToPlan,
  boatOn,
  EMPTY,
  faultsWith,
  filesToPlan,
  isAwaited,
  isFollowing,
  letGo,
  lookedAt,
  mayPlan,
  type PageState,
  planned,
  refused,
  takenAway,
  wantedIn,
} from './pageState.js';
import { limitRules, linkPrices, rulesOn, showRules } from './rulesView.js';
import { fetchedSample, SAMPLE_DEPARTURE, SAMPLES } from './sample.js';
import { busy, idle } from './statusView.js';
import { showWardrobes, wardrobesOn } from './wardrobeView.js';

/** Changes that follow each other so soon are planned once. */
const SETTLE_MILLISECONDS = 350;

const version = document.querySelector<HTMLMetaElement>('meta[name=version]')?.content ?? '';
let state: PageState = EMPTY;
let worker = started();
let settling: ReturnType<typeof setTimeout> | undefined;

function started(): Worker {
  const fresh = new Worker('worker.js', { type: 'module' });
  fresh.addEventListener('message', ({ data }: MessageEvent<Answer>) => answered(data));
  fresh.addEventListener('error', ({ message }) => {
    // One that failed, or could not be loaded, answers no more.
    fresh.terminate();
    worker = started();
    failed(message === '' ? 'the worker could not be started; try again' : message);
  });
  return fresh;
}

const ask = (asked: Ask) => worker.postMessage(asked);

function answered(answer: Answer): void {
  switch (answer.answer) {
    case 'progress':
      busy(answer.text, answer.share);
      return;
    case 'looked':
      took(answer.looked);
      return;
    case 'planned':
      if (!isAwaited(state, answer.run)) return;
      state = planned(state);
      showAnswer(answer);
      idle(inShort(answer));
      return;
    case 'faults': {
      if (!isAwaited(state, answer.run)) return;
      state = refused(state, answer.faults);
      drawFiles();
      showFaults(answer.faults.flatMap(({ told }) => told));
      const isOfFile = state.files.some((looked) => faultsWith(state, looked).length > 0);
      idle(isOfFile ? 'It cannot be planned: faults stand beside the file.' : 'It cannot be planned.');
      return;
    }
    case 'failed':
      failed(answer.text);
  }
}

function failed(text: string): void {
  state = letGo(state);
  drawFiles();
  showFaults([`This should not happen: ${text}`]);
  idle('It failed.');
}

/** Files were looked at, and are here now. */
function took(looked: readonly Looked[]): void {
  const before = state;
  state = lookedAt(state, looked);
  for (const { file, boat, from } of looked) {
    if (boat !== undefined) {
      byId<HTMLTextAreaElement>('boat-text').value = boat.text;
      showRules(
        boat,
        before.files.some((one) => one.kind === 'boat' && one.file.name === file.name),
      );
      showWardrobes(boat, changed);
    }
    if (from !== undefined) offerDeparture(from, file.name);
  }
  drawFiles();
  tellOutdated(before);
  idle(looked.some(({ faults }) => faults.length > 0) ? 'There are faults: they stand beside the file.' : 'Read.');
}

function takeAway(looked: Looked): void {
  const before = state;
  state = takenAway(state, looked);
  withdrawDeparture(looked.file.name);
  if (looked.boat !== undefined) showWardrobes(undefined, changed);
  drawFiles();
  tellOutdated(before);
  byId('put').focus();
}

/** What was shown, or under way, was of other files. */
function tellOutdated(before: PageState): void {
  clearTimeout(settling);
  if (!isFollowing(before)) return;
  if (before.isPlanning) idle('The files have changed: plan again.');
  showText('The files have changed: plan again.');
}

function drawFiles(): void {
  showFiles(
    state.files.map((looked) => ({ looked, faults: faultsWith(state, looked) })),
    takeAway,
  );
  const wanted = wantedIn(state);
  byId('wanted').textContent = wanted.length === 0 ? '' : `Still wanted: ${wanted.join(', ')}.`;
  byId<HTMLButtonElement>('plan').disabled = !mayPlan(state);
}

function take(files: readonly File[]): void {
  if (files.length === 0) return;
  state = askedToLook(state);
  drawFiles();
  busy('Reading');
  ask({ ask: 'look', files });
}

async function takeSample(names: readonly string[]): Promise<void> {
  busy('Fetching the sample, which lies beside this page');
  const files = await fetchedSample(names);
  setDeparture(SAMPLE_DEPARTURE);
  take(files);
}

function plan(): void {
  const boat = boatOn(state);
  if (!mayPlan(state) || boat === undefined) return;
  if (!byId<HTMLFormElement>('form').reportValidity()) {
    if (state.isShown) idle('Not planned: a field is not as it must be. What is shown is as it was before.');
    return;
  }
  state = askedToPlan(state);
  drawFiles();
  busy('Planning');
  const wanted = {
    files: filesToPlan(state),
    rules: rulesOn(boat),
    wardrobes: wardrobesOn(document, compares()),
    version,
  };
  ask({ ask: 'plan', run: state.run, wanted });
}

const compares = () => byId<HTMLInputElement>('compare').checked;

/** Something was changed: a plan that is shown, or under way, follows. */
function changed(): void {
  if (!isFollowing(state)) return;
  clearTimeout(settling);
  settling = setTimeout(plan, SETTLE_MILLISECONDS);
}

/** Lets go of what the worker is at: it cannot be asked to. */
function stop(): void {
  worker.terminate();
  worker = started();
  state = letGo(state);
  drawFiles();
  idle('Stopped.');
}

/** The boat file as it was edited takes the place of the one that was put here. */
function takeBoatText(): void {
  const name = state.files.find(({ kind }) => kind === 'boat')?.file.name ?? 'boat.json';
  take([new File([byId<HTMLTextAreaElement>('boat-text').value], name)]);
}

const putting = byId<HTMLInputElement>('put');
putting.addEventListener('change', () => {
  take([...(putting.files ?? [])]);
  // The same file may be put here again once it was mended.
  putting.value = '';
});
for (const [id, names] of Object.entries(SAMPLES))
  byId(id).addEventListener('click', () => {
    takeSample(names).catch((error: unknown) => failed(error instanceof Error ? error.message : String(error)));
  });
takeDropped(take);
byId('stop').addEventListener('click', stop);
byId('boat-apply').addEventListener('click', takeBoatText);
byId('form').addEventListener('submit', (event) => {
  event.preventDefault();
  plan();
});
byId('departure').addEventListener('change', () => setDeparture());
byId('form').addEventListener('change', ({ target }) => {
  if (target instanceof HTMLElement && target.closest('[data-plans]') !== null) changed();
});
byId<HTMLInputElement>('compare').addEventListener('change', () => {
  byId('second').hidden = !compares();
});
limitRules();
linkPrices();
showWardrobes(undefined, changed);
drawFiles();
showText('Put a route, a forecast and a boat here, or use the sample, and plan.');
