import { visit } from 'jsonc-parser';
import { type FaultList, quoted, shown } from '../errors.js';
import { foreignFormat } from '../foreignFormat.js';
import { says } from '../wording.js';

/**
 * Reads a JSON text. What is no JSON is a fault with its line, and so is a key that an object has twice: a JSON parser keeps
 * the last one and says nothing. Undefined comes back after a fault.
 */
export function parseJson(text: string, file: string, faults: FaultList): unknown {
  if (typeof text !== 'string') {
    faults.add({ file, ...says.notText(shown(text)) });
    return undefined;
  }
  const before = faults.count;
  const foreign = foreignFormat(text);
  if (foreign !== undefined) {
    faults.add({ file, ...says.notText(foreign) });
    return undefined;
  }
  const plain = text.replace(/^\uFEFF/, '');
  try {
    // JSON knows a −0, which no record is to hold.
    const json: unknown = JSON.parse(plain, (_, value: unknown) => (value === 0 ? 0 : value));
    addRepeatedKeys(plain, file, faults);
    return faults.count > before ? undefined : json;
  } catch (error) {
    faults.add({ file, ...flawOf(error, plain) });
    return undefined;
  }
}

function flawOf(error: unknown, text: string) {
  if (text.trim() === '') return says.json('nothing');
  // What overflows the stack is not wrong as JSON, but no input of ours.
  if (error instanceof RangeError) return says.json('one nested too deeply');
  const offset = offsetOf(error, text);
  const rest = text.slice(offset).split('\n')[0]!.trim();
  const line = text.slice(0, offset).split('\n').length;
  return { line, ...says.json(rest === '' ? 'its end too early' : `a fault at ${quoted(rest)}`) };
}

function addRepeatedKeys(text: string, file: string, faults: FaultList): void {
  const met: Set<string>[] = [];
  visit(text, {
    onObjectBegin: () => {
      met.push(new Set());
    },
    onObjectEnd: () => {
      met.pop();
    },
    onObjectProperty: (key, _offset, _length, startLine) => {
      const keys = met.at(-1)!;
      if (keys.has(key)) faults.add({ file, line: startLine + 1, path: key, ...says.repeatedKey() });
      keys.add(key);
    },
  });
}

/** Where a JSON text breaks: as the engine tells, which not all do and not always, else as a parser with places finds it. */
function offsetOf(error: unknown, text: string): number {
  const told = /position (\d+)/.exec(error instanceof Error ? error.message : '')?.[1];
  if (told !== undefined) return Number(told);
  let first = text.length;
  try {
    visit(
      text,
      {
        onError: (_code, offset) => {
          first = Math.min(first, offset);
        },
      },
      { disallowComments: true, allowTrailingComma: false },
    );
  } catch {
    // Nested too deeply for the parser that tells places: the end is then the best there is.
  }
  return first;
}
