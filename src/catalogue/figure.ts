import { tenth } from '../units.js';
import type { SOURCES } from './sources.js';

/**
 * Where a number comes from: a published `source`; `derived` from one or from practice by a stated step; `common-practice`,
 * which has no source; or a `placeholder`, which fills a field and has no authority.
 */
export type Status = 'source' | 'derived' | 'common-practice' | 'placeholder';

/** Id of a published source. */
export type SourceId = keyof typeof SOURCES;

/** What is known of where a value comes from. */
export interface Origin {
  readonly status: Status;
  /** Id of the main source in `SOURCES`. */
  readonly source?: SourceId;
  /** How the value follows, or what else speaks for it. */
  readonly basis?: string;
}

/** A value with where it comes from. */
export interface Figure<Value = number> extends Origin {
  readonly value: Value;
}

const figure = <Value>(value: Value, status: Status, source?: SourceId, basis?: string): Figure<Value> => ({
  value,
  status,
  ...(source === undefined ? {} : { source }),
  ...(basis === undefined ? {} : { basis }),
});

/**
 * A value that stands in a source.
 * @example
 * sourced(18, 'S11') // { value: 18, status: 'source', source: 'S11' }
 */
export const sourced = <Value>(value: Value, source: SourceId, basis?: string) =>
  figure(value, 'source', source, basis);

/**
 * A value that follows by a stated step, from a source where there is one.
 * @example
 * derived(26, 'mean 20 kn × 1.3', 'S9') // { value: 26, status: 'derived', source: 'S9', basis: 'mean 20 kn × 1.3' }
 */
export const derived = <Value>(value: Value, basis: string, source?: SourceId) =>
  figure(value, 'derived', source, basis);

/**
 * What is done, without a source.
 * @example
 * practice(20) // { value: 20, status: 'common-practice' }
 */
export const practice = <Value>(value: Value, basis?: string) => figure(value, 'common-practice', undefined, basis);

/**
 * Something to fill the field with: no authority.
 * @example
 * placeholder(20) // { value: 20, status: 'placeholder' }
 */
export const placeholder = <Value>(value: Value, basis?: string) => figure(value, 'placeholder', undefined, basis);

/**
 * From a limit in mean wind to one in the gust: a 3-second gust over the mean of an hour at sea, Harper, Kepert & Ginger
 * 2010, WMO/TD-1555, table 1.1.
 * @example
 * 20 * GUST_OVER_MEAN // 26
 */
export const GUST_OVER_MEAN = 1.3;

/** A limit in mean wind as one in the gust, to a tenth of a knot. */
export const gustOf = (meanKn: number): number => tenth(meanKn * GUST_OVER_MEAN);

/** A gust limit from a limit in mean wind, by its source or by common practice. */
export const gustLimit = (meanKn: number, source?: SourceId, note?: string): Figure =>
  derived(
    gustOf(meanKn),
    `${GUST_OVER_MEAN} × ${meanKn} kn mean${source === undefined ? ', common practice' : ''}${note === undefined ? '' : `; ${note}`}`,
    source,
  );

/** A gust limit from a mean wind nobody vouches for. */
export const gustPlaceholder = (meanKn: number, note?: string): Figure =>
  placeholder(gustOf(meanKn), `${GUST_OVER_MEAN} × ${meanKn} kn mean${note === undefined ? '' : `; ${note}`}`);
