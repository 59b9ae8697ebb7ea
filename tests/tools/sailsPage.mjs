import { writeFileSync } from 'node:fs';
import { KINDS, SOURCES } from '../../dist/catalogue/catalogue.js';
import { kindLines, tableRows, wearRows } from '../../dist/cli/catalogueText.js';
import { LEGEND } from '../../dist/cli/figureText.js';

const row = (cells) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
const table = ([head, ...rows]) => [row(head), row(head.map(() => '---')), ...rows.map(row)].join('\n');

/** The catalogue of kinds as a page of the documentation, from the same table the program uses. */
export function sailsPage() {
  return `${[
    '# Kinds of sail',
    'What a boat file need not say: the defaults of every kind, made by `npm run docs` from `src/catalogue/kinds.ts`; `windwardrobe sails` prints the same.',
    '**Defaults to start from, not limits to trust.** The skipper, the sailmaker and the builder of the boat know better; whatever stands in the boat file wins. Most of it is common practice or a placeholder, and each number says so.',
    'Angles are apparent wind angles. Limits are in the gust: `AWS max` apparent, `true max` true wind over the water; a limit that is published or practised in mean wind was multiplied by 1.3 and is then "derived". `AWS min` is the mean apparent wind under which the sail collapses. Of a range the cautious end is taken.',
    `Letters: ${LEGEND}`,
    table(tableRows()),
    ...KINDS.flatMap((entry) => [
      `## ${entry.kind}`,
      table([['', ''], ...kindLines(entry).map(([label, text]) => [label.trim(), text])]),
    ]),
    '## Wear',
    'What wear is reckoned with beside what stands at each kind ([model.md](model.md)); a boat file may set some of it sail by sail under `life`.',
    table(wearRows()),
    '## Sources',
    'Most were readable only in part or at second hand; weigh them so.',
    table([['id', 'source'], ...Object.entries(SOURCES)]),
  ].join('\n\n')}\n`;
}

if (process.argv[1] === new URL(import.meta.url).pathname) writeFileSync('docs/sails.md', sailsPage());
