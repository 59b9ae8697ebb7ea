import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';

/** Debian's Chromium, where it is on the PATH. */
const EXECUTABLE = (process.env.PATH ?? '')
  .split(delimiter)
  .flatMap((folder) => ['chromium', 'chromium-browser'].map((name) => join(folder, name)))
  .find(existsSync);

/** Whether tests in a browser are to fail where there is none. */
const isNeeded = process.env.WINDWARDROBE_NEEDS_BROWSER === '1';

/** Whether tests in a browser are left out, which is then said. */
export const isSkipped = EXECUTABLE === undefined && !isNeeded;
if (isSkipped) console.warn('skipped: the tests in a browser, because no chromium is on the PATH');

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A browser is started once a file of tests, on a machine that may be busy. */
export const START_MILLISECONDS = 60_000;

/** A browser with an empty folder for its user's data. */
export async function browserIn(folder: string): Promise<BrowserContext> {
  if (EXECUTABLE === undefined) throw new Error('WINDWARDROBE_NEEDS_BROWSER is 1, but no chromium is on the PATH');
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), {
    executablePath: EXECUTABLE,
    args: FLAGS,
    timeout: START_MILLISECONDS,
    acceptDownloads: true,
  });
  context.setDefaultTimeout(START_MILLISECONDS);
  return context;
}
