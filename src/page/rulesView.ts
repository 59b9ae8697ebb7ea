import { HOUSE_RANGES, type House } from '../boat/boat.js';
import { DEFAULT_HOUSE, OPTION_RANGES, priceByCrew } from '../passage/passage.js';
import { byId, limit } from './dom.js';
import type { BoatSeen, Rules } from './messages.js';

const input = (id: string) => byId<HTMLInputElement>(id);

const RULES = ['crew', 'price-number', 'dark', 'night-reef', 'least-hours', 'gybes-by-day', 'squalls'] as const;

/** The boat whose rules are shown. */
let boatShown: BoatSeen | undefined;

/** What the fields held when they were filled in. */
let shown: ReadonlyMap<string, string | boolean> = new Map();

const heldIn = (id: string): string | boolean => (input(id).type === 'checkbox' ? input(id).checked : input(id).value);

/** The rules that are not as they were filled in. */
const setByPerson = () =>
  new Map(RULES.flatMap((id) => (shown.has(id) && shown.get(id) !== heldIn(id) ? [[id, heldIn(id)] as const] : [])));

/**
 * Fills the rules in as the boat file has them, or as they are by default. Those that a person set are kept where it is the same boat,
 * read again.
 */
export function showRules(boat: BoatSeen, isSameBoat: boolean): void {
  const { crew, house } = boat;
  boatShown = boat;
  const kept = isSameBoat ? setByPerson() : new Map<string, string | boolean>();
  const all: House = { ...DEFAULT_HOUSE, ...house };
  input('crew').value = crew === undefined ? '' : `${crew}`;
  if (house.pricePerChangeMinutes !== undefined) showPrice(house.pricePerChangeMinutes);
  else input('price-number').value = '';
  byId<HTMLSelectElement>('dark').value = all.changesInDark ?? DEFAULT_HOUSE.changesInDark;
  input('night-reef').value = `${all.nightReefAboveKn ?? ''}`;
  input('least-hours').value = `${all.leastHoursBetweenChanges ?? DEFAULT_HOUSE.leastHoursBetweenChanges}`;
  input('gybes-by-day').checked = all.gybesByDay === true;
  input('squalls').checked = all.squalls === true;
  shown = new Map(RULES.map((id) => [id, heldIn(id)]));
  for (const [id, value] of kept) {
    if (typeof value === 'boolean') input(id).checked = value;
    else input(id).value = value;
  }
  showUsualPrice();
}

/** How far numbers go is said in one place for files, options and this page. */
export function limitRules(): void {
  const { pricePerChangeMinutes, nightReefAboveKn, leastHoursBetweenChanges } = HOUSE_RANGES;
  limit(input('crew'), OPTION_RANGES.crew);
  limit(input('price-number'), pricePerChangeMinutes);
  limit(input('night-reef'), nightReefAboveKn);
  limit(input('least-hours'), leastHoursBetweenChanges);
}

/** The price of a change is slid or written: the one follows the other. */
export function linkPrices(): void {
  input('price').addEventListener('input', () => showPrice(input('price').valueAsNumber));
  input('price-number').addEventListener('input', () => {
    const minutes = numberIn('price-number');
    if (minutes === undefined) showUsualPrice();
    else input('price').value = `${minutes}`;
  });
  input('crew').addEventListener('input', showUsualPrice);
  showUsualPrice();
}

/** The price of a change, in its slider and its field. */
function showPrice(minutes: number): void {
  input('price').value = `${minutes}`;
  input('price-number').value = `${minutes}`;
}

/** Where the field is left empty the price is that of the boat file, or by the crew: it says which. */
function showUsualPrice(): void {
  const ofBoat = boatShown?.house.pricePerChangeMinutes;
  const minutes = ofBoat ?? priceByCrew(numberIn('crew') ?? boatShown?.crew);
  input('price-number').placeholder = `${minutes}, by the ${ofBoat === undefined ? 'crew' : 'boat file'}`;
  if (input('price-number').value === '') input('price').value = `${minutes}`;
}

/** The rules as they stand on the page; those that are as the boat has them are left to her. */
export function rulesOn(boat: BoatSeen): Rules {
  const usual: House = { ...DEFAULT_HOUSE, ...boat.house };
  const crew = numberIn('crew');
  const given: House = {
    ...inCase('pricePerChangeMinutes', numberIn('price-number')),
    changesInDark: byId<HTMLSelectElement>('dark').value as NonNullable<House['changesInDark']>,
    nightReefAboveKn: numberIn('night-reef') ?? null,
    ...inCase('leastHoursBetweenChanges', numberIn('least-hours')),
    gybesByDay: input('gybes-by-day').checked,
    squalls: input('squalls').checked,
  };
  const changed = Object.entries(given).filter(([rule, value]) =>
    rule === 'pricePerChangeMinutes'
      ? value !== boat.house.pricePerChangeMinutes
      : value !== usual[rule as keyof House],
  );
  return {
    departure: `${input('departure').value}Z`,
    arriveDaylight: input('arrive-daylight').checked,
    ...(crew === undefined || crew === boat.crew ? {} : { crew }),
    house: Object.fromEntries(changed),
  };
}

function numberIn(id: string): number | undefined {
  const value = input(id).valueAsNumber;
  return Number.isNaN(value) ? undefined : value;
}

const inCase = <Name extends keyof House>(name: Name, value: House[Name] | undefined) =>
  value === undefined ? {} : { [name]: value };
