import { describeFault } from '../errors.js';
import { escaped } from './markdown.js';
import type { StudyBehind } from './studyJson.js';

/** What was warned of, and what a result in Markdown is made from. */
export function behindSections({
  warnings,
  inputs,
  options,
}: Pick<StudyBehind, 'warnings' | 'inputs' | 'options'>): string[] {
  return [
    ...(warnings.length === 0
      ? []
      : ['## Warnings', warnings.map((warning) => `- ${escaped(describeFault(warning))}`).join('\n')]),
    '## Made from',
    inputs.map(({ role, file, sha256 }) => `- ${role}: ${escaped(file)} (SHA-256 ${sha256})`).join('\n'),
    `- options: ${escaped(JSON.stringify(options))}`,
  ];
}
