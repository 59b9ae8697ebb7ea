export interface PublicName {
  readonly name: string;
  /** What it is imported from: `windwardrobe/node`. */
  readonly entry: string;
  readonly kind: 'function' | 'class' | 'constant' | 'type';
  readonly doc: string;
  /** The text of each `@example`. */
  readonly examples: readonly string[];
  /** File and line of its declaration. */
  readonly place: string;
}

export function publicNames(): readonly PublicName[];
