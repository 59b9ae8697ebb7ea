/**
 * The caution that opens everything people read.
 * @example
 * CAUTION // 'Planning aid only: the skipper decides. …'
 */
export const CAUTION =
  'Planning aid only: the skipper decides. Check official charts, notices, forecasts and warnings, and keep the rules of the road; forecasts and polars are wrong in ways no plan shows.';
