import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ALIASES, CLIMATE_ALIASES, GRIB_NAMES, MEMBER_NAMES, MONTH_NAMES, RUN_NAMES } from '../src/weather/aliases.js';
import { QUANTITIES, UNITS } from '../src/weather/quantities.js';
import { apiText, ENTRIES } from './tools/apiText.mjs';
import { sailsPage } from './tools/sailsPage.mjs';

const examples = readdirSync('examples').filter((file) => file.endsWith('.mjs'));

describe('what is published is what runs', () => {
  test('docs/api.txt lists the public signatures (npm run docs accepts a change)', () => {
    expect(readFileSync('docs/api.txt', 'utf8')).toBe(apiText(ENTRIES));
  });

  test('docs/sails.md is the catalogue (npm run docs accepts a change)', () => {
    expect(readFileSync('docs/sails.md', 'utf8')).toBe(sailsPage());
  });

  test.each(examples)('examples/%s prints its committed text', (file) => {
    const printed = execFileSync('node', [`examples/${file}`], { encoding: 'utf8' });
    expect(printed).toBe(readFileSync(`examples/${file.replace('.mjs', '.txt')}`, 'utf8'));
  });

  test('every example stands in their index', () => {
    const index = readFileSync('examples/README.md', 'utf8');
    expect(examples.length).toBeGreaterThan(10);
    expect(examples.filter((file) => !index.includes(`[${file}](${file})`))).toEqual([]);
  });

  test.each([
    ['README.md', 'plan-passage.mjs'],
    ['docs/developer.md', 'from-files.mjs'],
  ])('the example in %s is the one that is run, in 15 lines', (page, file) => {
    const example = readFileSync(`examples/${file}`, 'utf8');
    expect(readFileSync(page, 'utf8')).toContain(`\`\`\`js\n${example}\`\`\``);
    expect(example.trimEnd().split('\n').length).toBeLessThanOrEqual(15);
  });

  test('docs/file-formats.md names every column of the hour log', () => {
    const formats = readFileSync('docs/file-formats.md', 'utf8');
    const printed = execFileSync('node', ['dist/cli/bin.js', 'plan', '--help'], { encoding: 'utf8' });
    expect(printed).toContain('hours.csv');
    const source = readFileSync('src/output/hoursCsv.ts', 'utf8');
    const columns = [...source.matchAll(/^ {2}\['([a-z_]+)',/gm)].map((match) => match[1]!);
    expect(columns.length).toBeGreaterThan(25);
    expect(columns.filter((column) => !formats.includes(`\`${column}\``))).toEqual([]);
  });

  test('docs/file-formats.md names every name of a quantity, and every unit', () => {
    const formats = readFileSync('docs/file-formats.md', 'utf8').toLowerCase();
    const names = [
      ...Object.keys({ ...ALIASES, ...CLIMATE_ALIASES }),
      ...QUANTITIES,
      ...RUN_NAMES,
      ...MEMBER_NAMES,
      ...MONTH_NAMES,
    ];
    expect(names.filter((name) => !formats.includes(`\`${name}\``))).toEqual([]);
    expect(Object.keys(GRIB_NAMES).filter((name) => !new RegExp(`[\` ]${name}[\` ]`).test(formats))).toEqual([]);
    expect(Object.keys(UNITS.speed).filter((name) => !new RegExp(`[\`\\s]${name}[\`\\s]`).test(formats))).toEqual([]);
  });

  test('the lock file holds no download address', () => {
    const lock = readFileSync('package-lock.json', 'utf8');
    expect(lock).not.toContain('"resolved"');
  });
});
