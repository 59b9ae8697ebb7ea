import { byId } from './dom.js';

/** Something is under way: in words, and the share of it that is done where that can be counted. */
export function busy(text: string, share?: number): void {
  const bar = byId<HTMLProgressElement>('progress');
  bar.hidden = false;
  if (share === undefined) bar.removeAttribute('value');
  else bar.value = share;
  byId('stop').hidden = false;
  byId('status').textContent = `${text}…`;
  byId('answer').setAttribute('aria-busy', 'true');
}

/** Nothing is under way, and what came of it. */
export function idle(text: string): void {
  byId('progress').hidden = true;
  byId('stop').hidden = true;
  byId('status').textContent = text;
  byId('answer').removeAttribute('aria-busy');
}
