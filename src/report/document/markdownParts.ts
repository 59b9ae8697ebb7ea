/** A part of a text in Markdown of our own under a heading of the second level. */
export interface MarkdownPart {
  readonly title: string;
  readonly text: string;
}

/** The parts of one of our texts in Markdown; what stands before the first heading of the second level is left out. */
export function markdownParts(markdown: string): readonly MarkdownPart[] {
  return markdown
    .split(/^## /m)
    .slice(1)
    .map((part) => {
      const end = part.indexOf('\n');
      return { title: part.slice(0, end), text: part.slice(end + 1) };
    });
}
