/** A record as JSON for programs that is safe on a terminal. */
export const jsonText = (value: unknown): string => `${escapeUnseen(JSON.stringify(value, null, 1))}\n`;

/** A JSON text in which controls beyond its own line ends, and marks of writing direction, stand as escapes. */
export function escapeUnseen(json: string): string {
  return json.replace(/[\u007f-\u009f\p{Cf}\p{Zl}\p{Zp}]/gu, (mark) =>
    [...Array(mark.length).keys()].map((i) => `\\u${mark.charCodeAt(i).toString(16).padStart(4, '0')}`).join(''),
  );
}
