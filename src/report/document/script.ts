/**
 * What marks tell stands beside them when they are pointed at, and when they are reached by keyboard, which browsers do not do by themselves.
 * Without it all of it is in the tables. A page that shows a report in a frame names the digest of this text in its policy.
 *
 * @example
 * planReport(sample.plan).includes(REPORT_SCRIPT) // true
 */
export const REPORT_SCRIPT = `
(() => {
  const box = document.createElement('div');
  box.id = 'tip';
  box.hidden = true;
  document.body.append(box);
  const markOf = (event) => event.target instanceof Element ? event.target.closest('[data-tip]') : null;
  for (const title of document.querySelectorAll('.chart title')) {
    const mark = title.parentElement;
    mark.setAttribute('data-tip', title.textContent);
    if (mark.localName === 'a') mark.setAttribute('aria-label', title.textContent);
    title.remove();
  }
  const show = (event) => {
    const mark = markOf(event);
    if (mark === null) { box.hidden = true; return; }
    box.textContent = mark.getAttribute('data-tip');
    box.hidden = false;
    const at = mark.getBoundingClientRect();
    const x = event.clientX || at.left + at.width / 2;
    const left = Math.max(4, Math.min(x + 12, document.documentElement.clientWidth - box.offsetWidth - 4));
    const above = at.top - box.offsetHeight - 8;
    box.style.left = left + scrollX + 'px';
    box.style.top = (above > 0 ? above : at.bottom + 8) + scrollY + 'px';
  };
  // Shown inside of another page it has no address of its own to lead to.
  if (location.protocol === 'about:') document.addEventListener('click', (event) => {
    const link = event.target instanceof Element ? event.target.closest('a[href^="#"]') : null;
    if (link === null) return;
    event.preventDefault();
    location.hash = link.getAttribute('href');
  });
  document.addEventListener('pointerover', show);
  document.addEventListener('focusin', show);
  document.addEventListener('focusout', () => { box.hidden = true; });
  document.addEventListener('keydown', (event) => { if (event.key === 'Escape') box.hidden = true; });
})();
`;
