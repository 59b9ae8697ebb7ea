export interface BundleOptions {
  readonly minify?: boolean;
  readonly format?: 'esm' | 'iife';
  readonly entry?: 'all' | 'main path' | 'without polars';
}

export interface Bundle {
  readonly code: string;
  readonly bytes: number;
  readonly gzipBytes: number;
  /** What the bundle would still import: none if it is to run in a browser as it is. */
  readonly externalImports: readonly string[];
  /** Bytes in the bundle of each package and of each file of our own, the largest first. */
  readonly modules: readonly { readonly name: string; readonly bytes: number }[];
}

export function bundle(options?: BundleOptions): Promise<Bundle>;

/** Most that the core may take in a page, minified and gzipped. */
export const GZIP_TARGET_BYTES: Readonly<Record<'all' | 'main path' | 'without polars', number>>;
