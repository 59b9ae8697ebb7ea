import { SAME_PLACE } from './problem.js';

/** Places reached with few changes, and at what price: what has more changes must do better than one of them. */
export interface Front {
  /** Whether a place is no use: one as far or little further, or enough others further on, were reached for no more. */
  covers(place: number, price: number): boolean;
  add(place: number, price: number): void;
}

/** A front on which a place covers those less than `near` behind it, and as many together as are kept all behind them. */
export function noFront(near: number, keptAt: (place: number) => number): Front {
  // In rising order of place.
  const places: number[] = [];
  const prices: number[] = [];
  const firstFrom = (place: number) => {
    let [low, high] = [0, places.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (places[middle]! < place) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const covers = (place: number, price: number) => {
    const kept = keptAt(place);
    let ahead = 0;
    for (let i = firstFrom(place - SAME_PLACE); i < places.length; i += 1) {
      if (prices[i]! > price) continue;
      ahead += 1;
      if (ahead === kept || places[i]! - place < near) return true;
    }
    return false;
  };
  return {
    covers,
    add(place, price) {
      if (covers(place, price)) return;
      const at = firstFrom(place);
      places.splice(at, 0, place);
      prices.splice(at, 0, price);
    },
  };
}
