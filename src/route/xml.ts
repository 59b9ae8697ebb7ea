import { parseXml, XmlElement, XmlError, XmlText } from '@rgrove/parse-xml';
import { type FaultList, quoted } from '../errors.js';
import { says } from '../wording.js';

/** An XML text as read: its outermost element, and the line, counted from 1, on which an element begins. */
export interface XmlRead {
  readonly root: XmlElement;
  readonly lineOf: (element: XmlElement) => number;
}

/**
 * Reads an XML text; what is not well-formed is a fault with its line, and undefined comes back. A `<!DOCTYPE` is refused:
 * no route needs one, and the entities it may define are a known trap. Blank lines before the XML declaration are let pass.
 */
export function readXml(text: string, file: string, faults: FaultList): XmlRead | undefined {
  // Line ends made one as XML prescribes, and because the parser takes for ever over blank text of very many CR LF.
  const whole = text.replace(/\r\n?/g, '\n');
  const xml = whole.trimStart();
  const lineAt = lineFinder(xml, countLines(whole.slice(0, whole.length - xml.length)));
  const doctype = doctypeIn(xml);
  if (doctype !== undefined) {
    faults.add({ file, line: lineAt(doctype), ...says.doctype() });
    return undefined;
  }
  try {
    const { root } = parseXml(xml, { includeOffsets: true });
    if (root !== null) return { root, lineOf: (element) => lineAt(element.start) };
    faults.add({ file, ...says.xml('nothing') });
  } catch (error) {
    if (error instanceof XmlError) {
      const offset = utf16Offset(xml, error.pos);
      const rest = xml.slice(offset).split('\n', 1)[0]!.trim();
      const got = rest === '' ? 'its end too early' : `a fault at ${quoted(rest)}`;
      faults.add({ file, line: lineAt(offset), ...says.xml(got) });
    }
    // What overflows the stack is not wrong as XML, but no input of ours.
    else if (error instanceof RangeError) faults.add({ file, ...says.xml('one nested too deeply') });
    else throw error;
  }
  return undefined;
}

/** The elements of a name directly under another, of the namespace that the outermost element has. */
export function childrenOf(parent: XmlElement, name: string, root: XmlElement): readonly XmlElement[] {
  return parent.children.filter(
    (child): child is XmlElement =>
      child instanceof XmlElement && localName(child) === name && namespaceOf(child) === namespaceOf(root),
  );
}

/** The name of an element without its namespace prefix. */
export function localName({ name }: XmlElement): string {
  return name.slice(name.indexOf(':') + 1);
}

/** The text directly in an element, entities decoded, blanks at its ends taken off and those within made one. */
export function textOf(element: XmlElement | undefined): string {
  const texts = element?.children.map((child) => (child instanceof XmlText ? child.text : '')) ?? [];
  return texts.join('').replace(/\s+/g, ' ').trim();
}

function namespaceOf(element: XmlElement): string | undefined {
  const prefix = element.name.includes(':') ? element.name.slice(0, element.name.indexOf(':')) : undefined;
  const key = prefix === undefined ? 'xmlns' : `xmlns:${prefix}`;
  for (let node: unknown = element; node instanceof XmlElement; node = node.parent) {
    if (key in node.attributes) return node.attributes[key];
  }
  return prefix;
}

/** Where a document type stands before the outermost element; comments and instructions may come first. */
function doctypeIn(xml: string): number | undefined {
  let at = 0;
  for (;;) {
    while (/\s/.test(xml[at] ?? '')) at += 1;
    const end = xml.startsWith('<?', at) ? '?>' : xml.startsWith('<!--', at) ? '-->' : undefined;
    if (end === undefined) return xml.startsWith('<!DOCTYPE', at) ? at : undefined;
    const closed = xml.indexOf(end, at);
    if (closed < 0) return undefined;
    at = closed + end.length;
  }
}

/** Looks up the line of an offset, counted from a first line. The starts of the lines are found when first asked. */
function lineFinder(text: string, firstLine: number): (offset: number) => number {
  let starts: readonly number[] | undefined;
  return (offset) => {
    starts ??= [...text.matchAll(/\n/g)].map((match) => match.index + 1);
    let [low, high] = [0, starts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle + 1;
      else high = middle;
    }
    return firstLine + low;
  };
}

function countLines(text: string): number {
  return text.split('\n').length;
}

/** The parser tells where a fault is in whole characters, which may be two units of a text each. */
function utf16Offset(text: string, characters: number): number {
  let offset = 0;
  for (let i = 0; i < characters; i += 1) offset += (text.codePointAt(offset) ?? 0) > 0xffff ? 2 : 1;
  return offset;
}
