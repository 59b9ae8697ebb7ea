export function readClaim(text: string): (got: unknown) => string | undefined;
