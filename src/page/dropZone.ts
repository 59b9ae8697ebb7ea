import { byId } from './dom.js';

/** Files may be dropped anywhere on the page; elsewhere a browser would leave it for them. */
export function takeDropped(take: (files: readonly File[]) => void): void {
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
    take([...(event.dataTransfer?.files ?? [])]);
  });
}
