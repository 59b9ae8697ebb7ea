import { readFileSync } from 'node:fs';

/** The version of the package. */
export function version(): string {
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
    version: string;
  };
  return version;
}
