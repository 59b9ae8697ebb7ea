/** The catalogue of kinds as a page of the documentation. */
export function sailsPage(): string;
