import { defineConfig } from 'vitest/config';

// The whole suite runs twice: in UTC, and once more in a zone with an odd offset and summer time the other way round.
const project = (name: string, TZ: string) => ({
  test: { name, include: ['tests/**/*.test.ts'], env: { TZ }, pool: 'forks' as const, testTimeout: 60_000 },
});

export default defineConfig({
  test: { projects: [project('utc', 'UTC'), project('chatham', 'Pacific/Chatham')] },
});
