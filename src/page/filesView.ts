import { byId, h } from './dom.js';
import type { Looked } from './messages.js';

const KINDS: Readonly<Record<NonNullable<Looked['kind']>, string>> = {
  route: 'route',
  forecast: 'forecast',
  climatology: 'climatology',
  boat: 'boat',
  polars: 'polars',
  plan: 'plan: not used here',
};

/** A file on the page with all that is wrong with it, by itself and in what was planned. */
interface FileShown {
  readonly looked: Looked;
  readonly faults: readonly string[];
}

/** The files on the page: what each is, what is in it, and every fault of it beside it. */
export function showFiles(files: readonly FileShown[], takeAway: (looked: Looked) => void): void {
  byId('files').replaceChildren(
    ...files.map(({ looked, faults }) => {
      const { file, kind, told } = looked;
      return h(
        'li',
        { class: faults.length > 0 ? 'bad' : 'good' },
        h(
          'div',
          { class: 'file-line' },
          h('span', { class: 'file-name' }, file.name),
          h('span', {}, kind === undefined ? 'not known' : KINDS[kind]),
          h(
            'button',
            { type: 'button', onclick: () => takeAway(looked) },
            'Take away',
            h('span', { class: 'heard' }, ` ${file.name}`),
          ),
        ),
        ...(faults.length > 0 ? [faultList(faults)] : []),
        ...(told === ''
          ? []
          : [h('details', {}, h('summary', {}, `What is in ${file.name}`), h('pre', { tabindex: 0 }, told))]),
      );
    }),
  );
}

/** Faults as the command line tells them. */
export const faultList = (lines: readonly string[]) =>
  h('ul', { class: 'faults', 'aria-label': 'Faults' }, ...lines.map((line) => h('li', {}, line)));
