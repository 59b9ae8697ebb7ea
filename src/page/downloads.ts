import { strToU8, zipSync } from 'fflate';
import { h } from './dom.js';
import type { Side } from './messages.js';

const TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  json: 'application/json',
  md: 'text/markdown',
  gpx: 'application/gpx+xml',
  geojson: 'application/geo+json',
  html: 'text/html',
  zip: 'application/zip',
};

const held: string[] = [];

/** Lets go of what an earlier answer held to be taken away. */
export function release(): void {
  for (const url of held.splice(0)) URL.revokeObjectURL(url);
}

function link(name: string, part: BlobPart, text: string): HTMLElement {
  const url = URL.createObjectURL(new Blob([part], { type: TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain' }));
  held.push(url);
  return h('a', { href: url, download: name }, text);
}

/** What `plan` writes. Of two wardrobes the names tell which one's it is, and so does the folder in the archive. */
export function filesToTake({ prefix, files }: Side): HTMLElement {
  const folder = prefix.replace(/-$/, '');
  const inFolder = (file: string) => (folder === '' ? file : `${folder}/${file}`);
  const zipped = zipSync(
    Object.fromEntries(Object.entries(files).map(([file, text]) => [inFolder(file), strToU8(text)])),
  );
  return h(
    'ul',
    { class: 'downloads' },
    ...Object.entries(files).map(([file, text]) => h('li', {}, link(`${prefix}${file}`, text, file))),
    h('li', {}, link(folder === '' ? 'plan-a.zip' : `${folder}.zip`, new Uint8Array(zipped), 'all of them, zipped')),
  );
}

/** The boat as she sailed. */
export function boatToTake({ boatFiles, sails }: Side): HTMLElement {
  const ashore = sails.flatMap(({ id, hours }) => (hours === null ? [id] : []));
  const links = Object.entries(boatFiles).flatMap(([file, text], i) => [
    ...(i === 0 ? [] : [' and ']),
    link(file, text, file),
  ]);
  return h(
    'p',
    { class: 'boat-files' },
    'The boat as she sails here, to plan with again: ',
    ...links,
    '.',
    ...(ashore.length === 0
      ? []
      : [` What is left ashore stays in it: ${ashore.map((id) => `--without ${id}`).join(' ')} leaves it there.`]),
  );
}
