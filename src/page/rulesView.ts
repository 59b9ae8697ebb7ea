import type { House } from '../boat/boat.js';
import { DEFAULT_HOUSE } from '../passage/passage.js';
import { byId } from './dom.js';
import type { BoatSeen, Rules } from './messages.js';

const input = (id: string) => byId<HTMLInputElement>(id);

/** Fills the rules in as the boat file has them, or as they are by default. */
export function showRules({ crew, house }: BoatSeen): void {
  const all: House = { ...DEFAULT_HOUSE, ...house };
  input('crew').value = crew === undefined ? '' : `${crew}`;
  if (house.pricePerChangeMinutes !== undefined) showPrice(house.pricePerChangeMinutes);
  else input('price-number').value = '';
  byId<HTMLSelectElement>('dark').value = all.changesInDark ?? 'any';
  input('night-reef').value = `${all.nightReefAboveKn ?? ''}`;
  input('least-hours').value = `${all.leastHoursBetweenChanges ?? 0}`;
  input('gybes-by-day').checked = all.gybesByDay === true;
  input('squalls').checked = all.squalls === true;
}

/** The price of a change, in its slider and its field. */
export function showPrice(minutes: number): void {
  input('price').value = `${minutes}`;
  input('price-number').value = `${minutes}`;
}

/** The price that was planned with, where the field leaves it to the crew. */
export function showPriceTaken(minutes: number): void {
  if (input('price-number').value !== '') return;
  input('price').value = `${minutes}`;
  input('price-number').placeholder = `${minutes}, by the crew`;
}

/** The rules as they stand on the page. */
export function rulesOn(): Rules {
  const number = (id: string) => {
    const value = input(id).valueAsNumber;
    return Number.isNaN(value) ? undefined : value;
  };
  const crew = number('crew');
  const least = number('least-hours');
  const price = number('price-number');
  return {
    departure: `${input('departure').value}Z`,
    arriveDaylight: input('arrive-daylight').checked,
    ...(crew === undefined ? {} : { crew }),
    house: {
      ...(price === undefined ? {} : { pricePerChangeMinutes: price }),
      changesInDark: byId<HTMLSelectElement>('dark').value as 'any',
      ...nightReef(number('night-reef')),
      ...(least === undefined ? {} : { leastHoursBetweenChanges: least }),
      gybesByDay: input('gybes-by-day').checked,
      squalls: input('squalls').checked,
    },
  };
}

const nightReef = (kn: number | undefined): House => (kn === undefined ? {} : { nightReefAboveKn: kn });
