import { showAnswer, showFaults } from './answerView.js';
import { byId, h } from './dom.js';
import { showFiles } from './filesView.js';
import type { Answer, Ask, Looked, PutFile } from './messages.js';
import { rulesOn, showPrice, showPriceTaken, showRules } from './rulesView.js';
import { showWardrobes, wardrobesOn } from './wardrobeView.js';

/** The files of the samples, beside the page: a boat with polars, and one whose speeds are estimated. */
const SAMPLES = {
  sample: ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'],
  'sample-plain': ['route.csv', 'forecast.csv', 'no-downwind.json'],
} as const;
/** A boat has one of these, and a passage too: the last one put here is the one. */
const ONLY_ONE: ReadonlySet<Looked['kind']> = new Set(['route', 'boat']);
/** Changes that follow each other so soon are planned once. */
const SETTLE_MILLISECONDS = 350;

/** A file on the page with its number. */
type FileHere = Looked & { readonly id: number };

const version = document.querySelector<HTMLMetaElement>('meta[name=version]')?.content ?? '';
let worker = started();
let files: readonly FileHere[] = [];
/** How many files were put here so far. */
let count = 0;
/** How many times files are being looked at. */
let looking = 0;
/** Whether a plan is under way that is still wanted. */
let isPlanning = false;
/** How many times something was asked for: what is late is passed over. */
let run = 0;
/** Whether a plan is shown, which then follows what is changed. */
let isShown = false;
/** What was wrong with files when it was planned last, by their names. */
let faultsOfPlan = new Map<string, readonly string[]>();
let settling: ReturnType<typeof setTimeout> | undefined;

function started(): Worker {
  const fresh = new Worker('worker.js', { type: 'module' });
  fresh.addEventListener('message', ({ data }: MessageEvent<Answer>) => answered(data));
  fresh.addEventListener('error', ({ message }) => {
    // One that failed, or could not be loaded, answers no more.
    fresh.terminate();
    worker = started();
    looking = 0;
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
      looking = Math.max(0, looking - 1);
      for (const looked of answer.looked) put(looked);
      idle(
        answer.looked.some(({ faults }) => faults.length > 0)
          ? 'There are faults: they stand beside the file.'
          : 'Read.',
      );
      return;
    case 'planned': {
      if (answer.run !== run) return;
      isPlanning = false;
      isShown = true;
      showAnswer(answer.sides, answer.tradeoff);
      showPriceTaken(answer.sides[0]!.priceMinutes);
      idle(
        answer.sides
          .map(({ name, complete, end, changes }) => {
            const who = answer.sides.length === 1 ? '' : `${name}: `;
            return `${who}${complete ? 'arrives' : 'breaks off'} ${end.slice(0, 16).replace('T', ' ')} UTC, ${changes} sail changes`;
          })
          .join('; '),
      );
      return;
    }
    case 'faults': {
      if (answer.run !== run) return;
      isPlanning = false;
      isShown = false;
      faultsOfPlan = byFile(answer.faults);
      drawFiles();
      showFaults([...byFile(answer.faults).values()].flat());
      const isOfFile = files.some(({ file }) => faultsOfPlan.has(file.name));
      idle(isOfFile ? 'It cannot be planned: faults stand beside the file.' : 'It cannot be planned.');
      return;
    }
    case 'failed':
      failed(answer.text);
  }
}

/** Faults by the files they are of, at most so many of each as the command line tells; those of several files stand beside each. */
function byFile(faults: readonly { readonly file: string; readonly told: string }[]): Map<string, readonly string[]> {
  const all = new Map<string, string[]>();
  for (const { file, told } of faults)
    for (const name of file.split(' + ')) all.set(name, [...(all.get(name) ?? []), told]);
  return new Map(
    [...all].map(([name, lines]) => [
      name,
      lines.length <= MOST_TOLD ? lines : [...lines.slice(0, MOST_TOLD), `and ${lines.length - MOST_TOLD} more faults`],
    ]),
  );
}

const MOST_TOLD = 20;

function failed(text: string): void {
  isPlanning = false;
  showFaults([`This should not happen: ${text}`]);
  idle('It failed.');
}

/** What is shown, or under way, is of other files than are here now. */
function outdated(): void {
  faultsOfPlan = new Map();
  run += 1;
  clearTimeout(settling);
  if (!isShown && !isPlanning) return;
  if (isPlanning) idle('The files have changed: plan again.');
  isShown = false;
  isPlanning = false;
  byId('answer').replaceChildren(h('p', {}, 'The files have changed: plan again.'));
}

/** Takes a file in: one of the same name, and of what there can be only one, makes way. */
function put(looked: Looked): void {
  outdated();
  const isSameBoat = files.some(({ file, kind }) => kind === 'boat' && file.name === looked.file.name);
  files = [
    ...files.filter(
      ({ file, kind }) => file.name !== looked.file.name && !(kind === looked.kind && ONLY_ONE.has(kind)),
    ),
    { ...looked, id: count },
  ];
  count += 1;
  if (looked.boat !== undefined) {
    byId<HTMLTextAreaElement>('boat-text').value = looked.boat.text;
    showRules(looked.boat, isSameBoat);
    showWardrobes(looked.boat, changed);
  }
  const departure = byId<HTMLInputElement>('departure');
  if (looked.from !== undefined && (departure.value === '' || departure.dataset.from === looked.file.name)) {
    departure.value = looked.from.slice(0, 16);
    departure.dataset.from = looked.file.name;
  }
  drawFiles();
}

function takeAway(looked: Looked): void {
  outdated();
  files = files.filter(({ file }) => file !== looked.file);
  const departure = byId<HTMLInputElement>('departure');
  if (departure.dataset.from === looked.file.name) departure.value = '';
  if (looked.boat !== undefined) showWardrobes(undefined, changed);
  drawFiles();
  byId('put').focus();
}

function drawFiles(): void {
  showFiles(
    files.map((looked) => ({ looked, faults: [...looked.faults, ...(faultsOfPlan.get(looked.file.name) ?? [])] })),
    takeAway,
  );
  const has = (...kinds: readonly Looked['kind'][]) =>
    files.some(({ kind, faults }) => kinds.includes(kind) && faults.length === 0);
  const wanted = [
    ...(has('route') ? [] : ['a route']),
    ...(has('forecast', 'climatology') ? [] : ['a forecast']),
    ...(has('boat') ? [] : ['a boat']),
  ];
  byId('wanted').textContent = wanted.length === 0 ? '' : `Still wanted: ${wanted.join(', ')}.`;
  byId<HTMLButtonElement>('plan').disabled = wanted.length > 0 || looking > 0;
}

async function take(list: readonly File[]): Promise<void> {
  if (list.length === 0) return;
  looking += 1;
  drawFiles();
  busy('Reading');
  ask({ ask: 'look', files: list });
}

async function takeSample(names: readonly string[]): Promise<void> {
  busy('Fetching the sample, which lies beside this page');
  const fetched = await Promise.all(
    names.map(async (name) => {
      const response = await fetch(`sample/${name}`);
      if (!response.ok) throw new Error(`sample/${name}: ${response.status}`);
      return new File([await response.blob()], name, { lastModified: 0 });
    }),
  );
  const departure = byId<HTMLInputElement>('departure');
  departure.value = '2027-01-11T12:00';
  delete departure.dataset.from;
  await take(fetched);
}

function plan(): void {
  const form = byId<HTMLFormElement>('form');
  if (byId<HTMLButtonElement>('plan').disabled) return;
  if (!form.reportValidity()) {
    if (isShown)
      byId('status').textContent = 'Not planned: a field is not as it must be. What is shown is as it was before.';
    return;
  }
  const boat = files.find((looked) => looked.boat !== undefined)?.boat;
  if (boat === undefined) return;
  run += 1;
  isPlanning = true;
  faultsOfPlan = new Map();
  drawFiles();
  busy('Planning');
  const compares = byId<HTMLInputElement>('compare').checked;
  const of = files.flatMap(({ file, kind, id }): PutFile[] =>
    kind === undefined || kind === 'plan' ? [] : [{ file, kind, id }],
  );
  ask({
    ask: 'plan',
    run,
    wanted: { files: of, rules: rulesOn(boat), wardrobes: wardrobesOn(document, compares), version },
  });
}

/** Something was changed: a plan that is shown, or under way, follows. */
function changed(): void {
  if (!isShown && !isPlanning) return;
  clearTimeout(settling);
  settling = setTimeout(plan, SETTLE_MILLISECONDS);
}

/** Lets go of what the worker is at: it cannot be asked to. */
function stop(): void {
  worker.terminate();
  worker = started();
  run += 1;
  looking = 0;
  isPlanning = false;
  drawFiles();
  idle('Stopped.');
}

function busy(text: string, share?: number): void {
  const bar = byId<HTMLProgressElement>('progress');
  bar.hidden = false;
  if (share === undefined) bar.removeAttribute('value');
  else bar.value = share;
  byId('stop').hidden = false;
  byId('status').textContent = `${text}…`;
  byId('answer').setAttribute('aria-busy', 'true');
}

function idle(text: string): void {
  byId('progress').hidden = true;
  byId('stop').hidden = true;
  byId('status').textContent = text;
  byId('answer').removeAttribute('aria-busy');
}

/** The boat file as it was edited takes the place of the one that was put here. */
function takeBoatText(): void {
  const name = files.find(({ kind }) => kind === 'boat')?.file.name ?? 'boat.json';
  take([new File([byId<HTMLTextAreaElement>('boat-text').value], name)]).catch(fails);
}

const fails = (error: unknown) => failed(error instanceof Error ? error.message : String(error));
const putting = byId<HTMLInputElement>('put');
putting.addEventListener('change', () => {
  take([...(putting.files ?? [])]).catch(fails);
  // The same file may be put here again once it was mended.
  putting.value = '';
});
for (const [id, names] of Object.entries(SAMPLES))
  byId(id).addEventListener('click', () => {
    takeSample(names).catch(fails);
  });
byId('stop').addEventListener('click', stop);
byId('boat-apply').addEventListener('click', takeBoatText);
byId('form').addEventListener('submit', (event) => {
  event.preventDefault();
  plan();
});
byId('form').addEventListener('change', ({ target }) => {
  if (target instanceof HTMLInputElement && target.id === 'departure') delete target.dataset.from;
  if (target instanceof HTMLElement && target.closest('[data-plans]') !== null) changed();
});
const compare = byId<HTMLInputElement>('compare');
compare.addEventListener('change', () => {
  byId('second').hidden = !compare.checked;
});
for (const id of ['price', 'price-number'])
  byId<HTMLInputElement>(id).addEventListener('input', ({ target }) => {
    const { valueAsNumber } = target as HTMLInputElement;
    if (!Number.isNaN(valueAsNumber) && id === 'price') showPrice(valueAsNumber);
    else if (!Number.isNaN(valueAsNumber)) byId<HTMLInputElement>('price').value = `${valueAsNumber}`;
  });

// Files may be dropped anywhere on the page; elsewhere a browser would leave it for them.
const zone = byId('zone');
for (const type of ['dragenter', 'dragover'])
  document.addEventListener(type, (event) => {
    event.preventDefault();
    zone.classList.add('over');
  });
document.addEventListener('dragleave', ({ relatedTarget }) => {
  if (relatedTarget === null) zone.classList.remove('over');
});
document.addEventListener('drop', (event) => {
  event.preventDefault();
  zone.classList.remove('over');
  take([...(event.dataTransfer?.files ?? [])]).catch(fails);
});
showWardrobes(undefined, changed);
drawFiles();
byId('answer').replaceChildren(h('p', {}, 'Put a route, a forecast and a boat here, or use the sample, and plan.'));
