/** One quantity against one source. Errors and the ceiling are in `unit`. */
export interface AccuracyRow {
  readonly id: string;
  readonly quantity: string;
  readonly comparedWith: string;
  readonly strength: string;
  readonly unit: string;
  readonly cases: number;
  /** Means of the errors without their signs, and with them. */
  readonly meanError: number;
  readonly bias: number;
  readonly worstError: number;
  readonly ceiling: number;
  /** Errors below this are rounding, and are printed as less than it. */
  readonly shownFrom?: number;
  readonly why: string;
}

export function accuracyRows(): AccuracyRow[];
export function accuracyMarkdown(rows: readonly AccuracyRow[]): string;
