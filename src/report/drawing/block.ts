/** A part of the page, and how far down it reaches. */
export interface Block {
  readonly markup: string;
  readonly bottom: number;
}
