import type { Band } from '../catalogue/catalogue.js';
import type { PassageRecord } from '../study/study.js';

/** A passage in which one sail has another price: what it takes of that sail is told in the money it then is. */
export function repriced(record: PassageRecord, sail: string, price: Band): PassageRecord {
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
