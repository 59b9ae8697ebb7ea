export function apiText(entries: readonly string[]): string;
export const ENTRIES: readonly string[];
