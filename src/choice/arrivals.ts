/** An arrival: the label it was made from and the option of its last stage. */
export interface Arrival {
  readonly changes: number;
  readonly minutes: number;
  readonly price: number;
  readonly parent: number;
  readonly last: number;
}

/** The best arrivals so far, by their number of changes: the earliest, and that of least time and price together. */
export interface Arrivals {
  offer(arrival: Arrival): void;
  /** Whether some arrival was made with no more changes and for no more price: what is still under way comes later. */
  beat(changes: number, price: number): boolean;
  all(): readonly Arrival[];
}

/** Arrivals closer than this, in minutes, are of one time. */
const SAME_TIME = 1e-7;

/** No arrivals yet. */
export function noArrivals(): Arrivals {
  const earliest = new Map<number, Arrival>();
  const cheapest = new Map<number, Arrival>();
  const isBetter = (time: (arrival: Arrival) => number, one: Arrival, than: Arrival | undefined) =>
    than === undefined ||
    time(one) < time(than) - SAME_TIME ||
    (time(one) < time(than) + SAME_TIME && one.price < than.price);
  const minutes = (arrival: Arrival) => arrival.minutes;
  const cost = (arrival: Arrival) => arrival.minutes + arrival.price;
  return {
    offer(arrival) {
      const { changes } = arrival;
      if (isBetter(minutes, arrival, earliest.get(changes))) earliest.set(changes, arrival);
      if (isBetter(cost, arrival, cheapest.get(changes))) cheapest.set(changes, arrival);
    },
    beat(changes, price) {
      for (const arrival of earliest.values()) {
        if (arrival.changes <= changes && arrival.price <= price) return true;
      }
      for (const arrival of cheapest.values()) {
        if (arrival.changes <= changes && arrival.price <= price) return true;
      }
      return false;
    },
    all: () => [...new Set([...earliest.values(), ...cheapest.values()])],
  };
}
