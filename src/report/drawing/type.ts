/** Nearly black: softer than black on a screen, black in print. */
export const INK_BLACK = '#1a1a1a';

/** Sizes of type at a page 1100 wide; on A4 upright the smallest comes to 6.4 points. */
export const SIZE = { title: 26, question: 18, text: 15, small: 13 } as const;

/** From one line to the next, in parts of the size of type. */
export const LEADING = 1.35;
