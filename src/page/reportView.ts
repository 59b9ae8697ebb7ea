import { h } from './dom.js';
import type { Side } from './messages.js';

/** The report of a wardrobe, chosen where there are two. */
export function reports(sides: readonly Side[]): readonly HTMLElement[] {
  const frame = h('iframe', { title: 'Report of the plan', id: 'report' });
  const show = (side: Side) => {
    frame.title = sides.length === 1 ? 'Report of the plan' : `Report of the plan with ${side.name}`;
    frame.srcdoc = side.files['report.html'] ?? '';
  };
  // By what stands in it: its root is at least as high as the frame, which would then never shrink again.
  const reachAll = () => {
    const body = frame.contentDocument?.body;
    if (body === undefined || body === null) return;
    const high = `${Math.ceil(body.getBoundingClientRect().bottom + body.ownerDocument.defaultView!.scrollY) + 4}px`;
    if (frame.style.height !== high) frame.style.height = high;
  };
  frame.addEventListener('load', () => {
    reachAll();
    const page = frame.contentDocument?.body;
    if (page !== undefined && page !== null) new ResizeObserver(reachAll).observe(page);
  });
  show(sides[0]!);
  return [h('h3', {}, 'The report'), ...(sides.length === 1 ? [] : [choice(sides, show)]), frame];
}

const choice = (sides: readonly Side[], show: (side: Side) => void) =>
  h(
    'fieldset',
    { class: 'choice' },
    h('legend', {}, 'Show the report of'),
    ...sides.map((side, i) =>
      h(
        'label',
        { class: 'tick' },
        h('input', { type: 'radio', name: 'shown', checked: i === 0, onchange: () => show(side) }),
        ` ${side.name}`,
      ),
    ),
  );
