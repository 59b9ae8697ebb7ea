/** Where a command writes; `isTerminal` says whether a person watches the error stream. */
export interface CommandIo {
  out(text: string): void;
  error(text: string): void;
  readonly isTerminal: boolean;
}

/** Exit codes: the plan is complete; a write failure or a bug; bad input or usage; the plan is incomplete. */
export const EXIT = { complete: 0, failure: 1, badInput: 2, incomplete: 3 } as const;
