/** Where a command writes; `isTerminal` says whether a person watches the error stream. */
export interface CommandIo {
  /** Does something instead of ending when a person interrupts, until what it gives is called. Absent: nobody can. */
  onInterrupt?(action: () => void): () => void;
  out(text: string): void;
  error(text: string): void;
  readonly isTerminal: boolean;
}

/** Exit codes: the plan is complete; a write failure or a bug; bad input or usage; the plan is incomplete; a person interrupted. */
export const EXIT = { complete: 0, failure: 1, badInput: 2, incomplete: 3, interrupted: 130 } as const;
