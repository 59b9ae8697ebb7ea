import { SAME_PLACE } from './problem.js';

/** Places reached with few changes, at what price, with how much of the store used and how long since the last change. */
export interface Front {
  /**
   * Whether a place is no use: one as far or little further, or enough others further on, were reached for no more, with no more used
   * and no later change. A lower price stands for some way.
   */
  covers(place: number, price: number, used: number, since: number): boolean;
  add(place: number, price: number, used: number, since: number): void;
}

interface FrontRules {
  /** A place covers those so little behind it. */
  readonly near: number;
  /** As many together cover all behind them. */
  readonly keptAt: (place: number) => number;
  /** Way that a minute of price is worth. */
  readonly wayPerPrice: number;
}

/** A front without places. */
export function noFront({ near, keptAt, wayPerPrice }: FrontRules): Front {
  // In rising order of place.
  const places: number[] = [];
  const prices: number[] = [];
  const useds: number[] = [];
  const sinces: number[] = [];
  const firstFrom = (place: number) => {
    let low = 0;
    let high = places.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (places[middle]! < place) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const covers = (place: number, price: number, used: number, since: number) => {
    const kept = keptAt(place);
    let ahead = 0;
    for (let i = firstFrom(place - price * wayPerPrice - SAME_PLACE); i < places.length; i += 1) {
      if (prices[i]! > price || useds[i]! > used || sinces[i]! < since) continue;
      const leads = places[i]! + (price - prices[i]!) * wayPerPrice - place;
      if (leads < -SAME_PLACE) continue;
      ahead += 1;
      if (ahead === kept || leads < near) return true;
    }
    return false;
  };
  return {
    covers,
    add(place, price, used, since) {
      if (covers(place, price, used, since)) return;
      const at = firstFrom(place);
      places.splice(at, 0, place);
      prices.splice(at, 0, price);
      useds.splice(at, 0, used);
      sinces.splice(at, 0, since);
    },
  };
}
