import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseXml, type XmlDocument, XmlElement, type XmlNode, XmlText } from '@rgrove/parse-xml';
import { parse } from 'csv-parse/sync';
import MarkdownIt from 'markdown-it';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { withoutUnseen } from '../src/errors.js';
import {
  crossoverCsv,
  crossoverJson,
  crossoverOf,
  crossoverText,
  estimatePolars,
  hoursCsv,
  InputError,
  type NextSail,
  nextSailCsv,
  nextSailJson,
  nextSailMarkdown,
  nextSailText,
  type PassageRecord,
  passageJsonLine,
  passagesCsvHeader,
  passagesCsvRow,
  planJson,
  planMarkdown,
  planPassage,
  polarsCsv,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  type StudyBehind,
  type StudyToPrint,
  studyJson,
  studyMarkdown,
  studyTotalsText,
  totalsOf,
  totalsText,
  trackGeojson,
  trackGpx,
  tradeoffCsv,
  type Worth,
  wearOf,
  worthCsv,
  worthJson,
  worthMarkdown,
  worthText,
} from '../src/index.js';
import {
  crossoverReport,
  crossoverSvg,
  nextSailReport,
  planReport,
  studyReport,
  worthReport,
} from '../src/report/report.js';
import { HOSTILE_CASES } from './support/hostileTexts.js';
import { documentIn } from './support/htmlReport.js';
import { renamed } from './support/renamed.js';
import { BOAT, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

// Every name of a result is made hostile, also where a reader would have refused it, and what is written is read by somebody else.

const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));
const ran = (...args: readonly string[]) => {
  const { status, stderr } = spawnSync('node', [resolve('dist/cli/bin.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
};
const read = (out: string, name: string) => readFileSync(join(folder, out, name), 'utf8');

const marked = (text: string) =>
  text
    .replaceAll('"main+jib"', '"qqmain+qqjib"')
    .replaceAll(/"(main|jib)(?=[":])/g, '"qq$1')
    .replaceAll('Test boat', 'qqboat')
    .replaceAll('reef1+jib', 'qqreefed');
const plan = await (async () => {
  const boat = readBoat(marked(BOAT).replace('"areaM2": 78,', '"areaM2": 78, "price": 5000,'));
  const polars = readPolars(POLARS.replaceAll(/^main/gm, 'qqmain').replaceAll('reef1+jib', 'qqreefed'), { boat });
  const route = readRoute(ROUTE.replace('Start', 'qqstart').replace('End', 'qqend'));
  const { forecast, warnings } = await readForecast({
    name: 'qqwind.csv',
    open: () => [
      forecastCsv('u10,v10,qqcolumn', (time, lat) => [TIMES.indexOf(time) === 2 ? -19 : -6, lat === 10 ? 1 : 3, 1]),
    ],
  });
  const passage = planPassage({ route, boat, polars, forecast }, { departure: TIMES[0]!, planSet: 'qqreefed' });
  return {
    passage: { ...passage, warnings: [...warnings, ...passage.warnings] },
    totals: totalsOf(passage, boat),
    wear: wearOf(passage, boat),
    boat,
    route,
    inputs: [
      {
        role: 'forecast' as const,
        file: 'qqwind.csv',
        sha256: '0'.repeat(64),
        member: 'qqmember',
        columns: { gust: { name: 'qqgust', unit: 'kn' } },
      },
    ],
    polars,
  };
})();

const crossover = (() => {
  const boat = readBoat(
    marked(readFileSync('data-samples/kinds.json', 'utf8')).replace(/"name": "[^"]*"/, '"name": "qqboat"'),
  );
  return { found: crossoverOf(boat, estimatePolars(boat), { night: true }), inputs: plan.inputs };
})();

interface Studied {
  readonly study: StudyToPrint;
  readonly records: readonly PassageRecord[];
  readonly sails: readonly string[];
  readonly worth: Worth;
  readonly behind: StudyBehind;
  readonly next: NextSail;
}
let studied: Studied;
beforeAll(() => {
  const sample = JSON.parse(readFileSync('data-samples/no-downwind.json', 'utf8')) as { sails: { id: string }[] };
  const boat = {
    ...sample,
    name: 'qqboat',
    knownSpeeds: undefined,
    sails: sample.sails
      .filter(({ id }) => ['main', 'jib', 'code'].includes(id))
      .map((sail) => ({ ...sail, id: `qq${sail.id}`, reefs: [] })),
  };
  const wind = forecastCsv('u10,v10', (time) => [time === TIMES[1] ? -12 : -8, 1]);
  for (const [name, text] of Object.entries({
    'qqroute.csv': ROUTE,
    'qqwind.csv': wind,
    'qqboat.json': JSON.stringify(boat),
  }))
    writeFileSync(join(folder, name), text);
  const given = ['--boat', 'qqboat.json', '--route', 'qqroute.csv', '--forecast', 'qqwind.csv', '--depart-from'];
  const starts = [
    TIMES[0]!,
    '--depart-to',
    '2027-01-10T04:00Z',
    '--depart-every',
    '2',
    '--sample',
    '1',
    '--threads',
    '1',
  ];
  ran(
    'worth',
    ...given,
    ...starts,
    '--add',
    'vented-downwind',
    '--price',
    '9000',
    '--hour-value',
    '5',
    '--out',
    'worth',
  );
  ran('next-sail', ...given, ...starts, '--out', 'next');
  const study = JSON.parse(read('worth', 'study.json')) as StudyToPrint;
  const { study: behind, ...worth } = JSON.parse(read('worth', 'worth.json')) as Worth & { study: StudyBehind };
  const next = JSON.parse(read('next', 'next-sail.json')) as NextSail & { study: StudyBehind };
  const records = read('worth', 'passages.jsonl')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as PassageRecord);
  const sails = [...new Set(records.flatMap((record) => record.sails.map(({ id }) => id)))];
  studied = { study: { ...study, warnings: plan.passage.warnings }, records, sails, worth, behind: study, next };
}, 300_000);

/** Everything that is written, of results whose names have a text before them. */
function outputs(before: string) {
  const all = renamed({ plan, crossover, studied }, before);
  const { polars, ...printed } = all.plan;
  // What the watch plan looks up of her sails goes by ids, which no file can have otherwise.
  const inPlan = {
    ...printed,
    boat: { ...plan.boat, name: printed.boat.name },
    passage: { ...plan.passage, warnings: printed.passage.warnings },
    totals: plan.totals,
    wear: plan.wear,
  };
  const { found, inputs } = all.crossover;
  const { study, records, sails, worth, behind, next } = all.studied;
  return {
    csv: {
      'hours.csv': hoursCsv(printed.passage),
      'tradeoff.csv': tradeoffCsv(printed.passage),
      'polars.csv': polarsCsv(polars.plans),
      'crossover.csv': crossoverCsv(found),
      'passages.csv': `${[passagesCsvHeader(sails), ...records.map((one) => passagesCsvRow(one, sails))].join('\n')}\n`,
      'worth.csv': worthCsv(worth),
      'next-sail.csv': nextSailCsv(next),
    },
    markdown: {
      'plan.md': planMarkdown(inPlan),
      'study.md': studyMarkdown(study),
      'worth.md': worthMarkdown(worth, behind),
      'next-sail.md': nextSailMarkdown(next, behind),
    },
    text: {
      plan: totalsText(inPlan),
      crossover: crossoverText(found),
      study: studyTotalsText(study),
      worth: worthText(worth, behind),
      'next-sail': nextSailText(next, behind),
    },
    html: {
      plan: planReport(inPlan),
      study: studyReport(study, { routes: [{ name: study.routes[0]!, route: printed.route }] }),
      worth: worthReport(worth, behind, { routes: [{ name: behind.routes[0]!, route: printed.route }] }),
      next: nextSailReport(next, behind),
      crossover: crossoverReport(found, inputs),
    },
    xml: { 'track.gpx': trackGpx(printed), 'crossover.svg': crossoverSvg(found) },
    json: {
      'track.geojson': trackGeojson(printed),
      'plan.json': planJson(printed),
      'crossover.json': crossoverJson(found, inputs),
      'passages.jsonl': `[${records.map(passageJsonLine).join(',')}]`,
      'study.json': studyJson(study),
      'worth.json': worthJson(worth, behind),
      'next-sail.json': nextSailJson(next, behind),
    },
  };
}
type Written = ReturnType<typeof outputs>;
let plain: Written;
beforeAll(() => {
  plain = outputs('');
});

/** Controls, marks that do not show, blanks other than a space, and what no text can hold become a space; several are one. */
const shown = (text: string) => text.replace(/[\p{Cc}\p{Cf}\p{Z}\p{Cs}\ufffe\uffff]+/gu, ' ');
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u;
/** As it comes back from a file: half a pair is no character there. */
const filed = (text: string) => Buffer.from(text, 'utf8').toString('utf8');
/** Ids of sails and plans: of a plan they are looked up, and no file can have others. */
const IDS = /^qq(?:main|jib|reefed)/;
const namesIn = (text: string) => [...new Set(text.match(/qq[a-z]+/g))];

describe.each(HOSTILE_CASES)('names with %s', (_, before) => {
  let written: Written;
  beforeAll(() => {
    written = outputs(before);
  });

  test('in CSV: no cell is a formula, and the name comes back', () => {
    for (const [file, text] of Object.entries(written.csv)) {
      const rows = parse(filed(text)) as string[][];
      const plainRows = parse(plain.csv[file as keyof Written['csv']]) as string[][];
      for (const [i, cells] of rows.entries()) {
        for (const [j, cell] of cells.entries()) {
          const named = filed(renamed(plainRows[i]![j]!, before));
          expect([named, `'${named}`], `${file}, row ${i}, cell ${j}`).toContain(cell);
          if (!/^-?\d+(\.\d+)?$/.test(cell)) expect(cell, file).not.toMatch(/^\s*[-=+@＝＋－＠]|^[\t\r\n]/);
        }
      }
      expect(rows.length, file).toBe(plainRows.length);
    }
  });

  test('in Markdown: no markup and no link that was not there, and the name is shown', () => {
    const markdown = new MarkdownIt({ html: true, linkify: true });
    const partsOf = (text: string) => markdown.parse(text, {}).flatMap((token) => [token, ...(token.children ?? [])]);
    const contentOf = (text: string) =>
      markdown
        .parse(text, {})
        .map(({ children }) =>
          (children ?? []).map(({ type, content }) => (type.startsWith('text') ? content : '')).join(''),
        )
        .join('\n');
    for (const [file, text] of Object.entries(written.markdown)) {
      const was = plain.markdown[file as keyof Written['markdown']];
      const shapeOf = (one: string) =>
        partsOf(one).flatMap(({ type, tag }) => (type.startsWith('text') ? [] : [`${type} ${tag}`]));
      expect(shapeOf(text), file).toEqual(shapeOf(was));
      const tagsIn = (one: string) => markdown.render(one).match(/<[^\s>]*/g);
      expect(tagsIn(text), file).toEqual(tagsIn(was));
      // A fault tells what cannot be seen by its code.
      const told = (name: string) => withoutUnseen(`${before}${name}`);
      const squeezed = (one: string) => shown(one).replaceAll(' ', '');
      const content = contentOf(text).replaceAll('\n', ' ');
      for (const name of namesIn(contentOf(was)).filter((one) => file !== 'plan.md' || !IDS.test(one)))
        expect(
          squeezed(content).includes(squeezed(before + name)) || content.includes(told(name)),
          `${file}: ${name}`,
        ).toBe(true);
      expect(text, file).not.toMatch(UNSEEN);
    }
  });

  test('in what is printed: nothing unseen, no line of its own', () => {
    for (const [file, text] of Object.entries(written.text)) {
      expect(text, file).not.toMatch(UNSEEN);
      const was = plain.text[file as keyof Written['text']];
      // Long names are broken into lines where words are.
      if (before.length < 60 && file !== 'worth') expect(text.split('\n').length, file).toBe(was.split('\n').length);
    }
  });

  test('in XML: well-formed, no element of its own, and the name as it may be shown', () => {
    const elementsOf = (node: XmlDocument | XmlElement): XmlElement[] =>
      node.children.flatMap((child: XmlNode) => (child instanceof XmlElement ? [child, ...elementsOf(child)] : []));
    const textsOf = (text: string) =>
      elementsOf(parseXml(text)).flatMap(({ children, attributes }) => [
        ...children.flatMap((child) => (child instanceof XmlText ? [child.text] : [])),
        ...Object.values(attributes),
      ]);
    const { 'track.gpx': gpx, 'crossover.svg': svg } = written.xml;
    expect(elementsOf(parseXml(gpx)).map(({ name }) => name)).toEqual(
      elementsOf(parseXml(plain.xml['track.gpx'])).map(({ name }) => name),
    );
    const was = textsOf(plain.xml['track.gpx']);
    expect(textsOf(gpx).map((text) => shown(text).trim())).toEqual(
      was.map((text) => shown(renamed(text, before)).trim()),
    );
    const known = new Set(elementsOf(parseXml(plain.xml['crossover.svg'])).map(({ name }) => name));
    for (const { name, attributes } of elementsOf(parseXml(svg))) {
      expect(known).toContain(name);
      expect(Object.keys(attributes).filter((key) => /^on|href/i.test(key))).toEqual([]);
    }
    expect(textsOf(svg)).toContain(shown(`Crossover chart: ${before}qqboat`).trim());
    for (const text of [gpx, svg]) expect(text).not.toMatch(UNSEEN);
  });

  test('in HTML: no element, link or script that was not there, and the name as it may be shown', () => {
    for (const [file, text] of Object.entries(written.html)) {
      const [document, was] = [documentIn(text), documentIn(plain.html[file as keyof Written['html']])];
      // What of a chart has room for its name differs by how long that is; all else stands as it stood.
      const outside = (one: Document) =>
        [...one.querySelectorAll('*')].flatMap(({ localName, namespaceURI }) =>
          // A figure in a name is marked as one where it equals one of the sentence's.
          namespaceURI?.endsWith('svg') || localName === 'data' ? [] : [localName],
        );
      const inCharts = (one: Document) =>
        [...one.querySelectorAll('svg *')].map(({ localName }) => localName).filter((name) => name !== 'text');
      const known = new Set([...was.querySelectorAll('*')].map(({ localName }) => localName));
      expect(new Set(inCharts(document)), file).toEqual(new Set(inCharts(was)));
      expect(outside(document), file).toEqual(outside(was));
      for (const element of document.querySelectorAll('*')) {
        expect(known, file).toContain(element.localName);
        for (const { name, value } of element.attributes) {
          expect(name, file).not.toMatch(/^on/);
          if (name === 'href') expect(value, file).toMatch(/^#[a-z0-9-]+$/);
        }
      }
      expect([...document.querySelectorAll('script, style')].map(({ textContent }) => textContent)).toEqual(
        [...was.querySelectorAll('script, style')].map(({ textContent }) => textContent),
      );
      if (file !== 'worth')
        expect(document.querySelector('h1')!.textContent, file).toContain(shown(`${before}qq`).trim());
      expect(text, file).not.toMatch(UNSEEN);
    }
  });

  test('in JSON: the name as it was', () => {
    for (const [file, text] of Object.entries(written.json)) {
      expect(filed(text), file).toBe(text);
      expect(JSON.parse(text), file).toEqual(renamed(JSON.parse(plain.json[file as keyof Written['json']]), before));
    }
  });

  test('what we read again has the name it had', () => {
    const { plans } = readPolars(written.csv['polars.csv']);
    // Line ends become line feeds, as in every file that is read.
    const trimmed = (text: string) => filed(text).replace(/\r\n?/g, '\n').trim();
    expect(Object.keys(plans).map(trimmed)).toEqual(
      Object.keys(plan.polars.plans).map((id) => trimmed(renamed(id, before))),
    );
    const names = readRoute(written.xml['track.gpx']).waypoints.map(({ name }) => name);
    expect(names).toEqual(plan.route.waypoints.map(({ name }) => shown(renamed(name, before)).trim()));
  });

  test('as an id of a sail, a plan or a sail within a plan it is refused, or is one like any other', () => {
    const isId = /^[a-z0-9][a-z0-9+._-]*$/.test(before);
    const id = JSON.stringify(before).slice(1, -1);
    for (const [from, to] of [
      [/"id": "main", "kind"/, `"id": "${id}", "kind"`],
      [/"id": "main", "sails"/, `"id": "${id}", "sails"`],
    ] as const) {
      const boat = () => readBoat(BOAT.replace(from, () => to));
      if (isId && from.source.endsWith('sails"')) expect(boat().sailPlans[0]!.id).toBe(before);
      else expect(boat).toThrow(InputError);
    }
    const inMemory = {
      ...plan.boat,
      sailPlans: plan.boat.sailPlans.map((one, i) => (i === 0 ? { ...one, id: before } : one)),
    };
    if (!isId)
      expect(() =>
        planPassage(
          { route: plan.route, boat: inMemory, polars: plan.polars, forecast: { file: 'none', grids: [] } },
          { departure: TIMES[0]! },
        ),
      ).toThrow(InputError);
  });

  test('in a route it is read, and too long it is refused', () => {
    const quoted = `"${before.replaceAll('"', '""')}"`;
    const name = filed(before).replace(/\r\n?/g, '\n').trim();
    const { waypoints } = readRoute(ROUTE.replace('Start', () => quoted));
    expect(waypoints[0]!.name).toBe(/^'[=+\-@]/.test(name) ? name.slice(1) : name);
    expect(() => readRoute(ROUTE.replace('Start', 'x'.repeat(201)))).toThrow(InputError);
  });
});
