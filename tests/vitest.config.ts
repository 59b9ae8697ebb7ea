import { configDefaults, defineConfig } from 'vitest/config';

// The whole suite runs twice: in UTC, and once more in a zone with an odd offset and summer time the other way round.
// What takes long and knows no zone runs in UTC only.
const LONG = [
  'tests/fuzz.test.ts',
  'tests/examplesInComments.test.ts',
  'tests/package.test.ts',
  'tests/hostile*.test.ts',
  'tests/browser.test.ts',
  'tests/page*.test.ts',
  'tests/boatFile.test.ts',
  'tests/report*.test.ts',
  'tests/stories.test.ts',
  'tests/realClimate.test.ts',
  'tests/estimate*.test.ts',
  'tests/crossover*.test.ts',
  'tests/studyCommand.test.ts',
  'tests/worth*.test.ts',
  'tests/speedsCommand.test.ts',
  'tests/tabled.test.ts',
  'tests/published.test.ts',
  'tests/cli-options.test.ts',
  'tests/boatFile.test.ts',
  'tests/wear*.test.ts',
  'tests/leeway.test.ts',
  'tests/catalogue.test.ts',
  'tests/wardrobe.test.ts',
];

const project = (name: string, TZ: string, left: readonly string[] = []) => ({
  test: {
    name,
    include: ['tests/**/*.test.ts'],
    exclude: [...configDefaults.exclude, ...left],
    env: { TZ },
    pool: 'forks' as const,
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 60_000,
  },
});

export default defineConfig({
  // Every core: the default leaves one idle, which of two is half the time.
  test: { maxWorkers: '100%', projects: [project('utc', 'UTC'), project('chatham', 'Pacific/Chatham', LONG)] },
});
