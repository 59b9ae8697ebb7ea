/** What a boat of a study is known by, for those who get one from a caller without types. */
export const STUDY_BOAT = { name: 'string', boat: 'object', polars: 'object' } as const;
