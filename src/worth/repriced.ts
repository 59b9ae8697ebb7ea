import type { Band } from '../catalogue/catalogue.js';
import { checkTypes, mustBeGiven } from '../given.js';
import type { PassageRecord } from '../study/study.js';

const BAND = { low: 'number', mid: 'number', high: 'number' } as const;

/**
 * A passage in which one sail has another price: what it takes of that sail is told in the money it then is.
 * @throws InputError where the record or the price is none
 * @example
 * const { sails } = repriced(sample.records[0], 'main', { low: 8000, mid: 10000, high: 12000 });
 * sails.find(({ id }) => id === 'main')
 * // { wear: { low: 0.025…, mid: 0.107…, high: 0.341… }, money: { low: 200.4…, mid: 1075.3…, high: 4092.8… }, … }
 */
export function repriced(record: PassageRecord, sail: string, price: Band): PassageRecord {
  mustBeGiven(record, 'sails', 'record', 'studySailer');
  checkTypes(price, BAND, 'price');
  const times = (wear: Band): Band => ({
    low: wear.low * price.low,
    mid: wear.mid * price.mid,
    high: wear.high * price.high,
  });
  return {
    ...record,
    sails: record.sails.map((one) => (one.id !== sail ? one : { ...one, money: one.wear && times(one.wear) })),
  };
}
