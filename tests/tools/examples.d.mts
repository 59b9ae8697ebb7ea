import type { PublicName } from './publicNames.mjs';

/** An example of a doc comment, read. */
export interface Example {
  /** The public name it stands at. */
  readonly name: string;
  readonly place: string;
  readonly text: string;
  /** Whether the name it stands at is used in it. */
  readonly usesIt: boolean;
  /** Whether it starts from the sample. */
  readonly usesFixture: boolean;
  readonly imports: readonly { readonly from: string; readonly words: readonly string[] }[];
  readonly statements: readonly {
    readonly code: string;
    /** The comment behind it; empty without one. */
    readonly claim: string;
    /** What the claim is about; undefined where the statement has no value. */
    readonly value: string | undefined;
  }[];
}

export function examplesOf(names?: readonly PublicName[]): readonly Example[];
export function exampleOf(
  names: readonly PublicName[],
  of: Pick<PublicName, 'name' | 'entry' | 'place'>,
  text: string,
  index?: number,
): Example;
export function typeFaultsOf(examples: readonly Example[]): readonly string[];
/** Runs examples on the built package, in a process of their own, and tells what is wrong with each. */
export function run(examples: readonly Example[]): readonly (readonly string[])[];
