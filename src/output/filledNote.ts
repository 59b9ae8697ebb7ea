import { type Boat, type Sail, settingOf } from '../boat/boat.js';

/** What of a sail decides whether it may be set, in words, by the beginning of the path; and which settings it concerns. */
const DECIDES: readonly { readonly words: string; readonly isDecisive: (path: string, used: Used) => boolean }[] = [
  { words: 'windows of', isDecisive: (path, { reefs }) => path.startsWith('window.') && reefs.has(0) },
  {
    words: 'reefs of',
    isDecisive: (path, { reefs }) => reefs.has(1 + Number(/^reefs\[(\d+)\]/.exec(path)?.[1] ?? Number.NaN)),
  },
  { words: 'daylight rule of', isDecisive: (path, { sail }) => path === 'daylightOnly' && sail.daylightOnly === true },
  { words: 'settings held out to windward:', isDecisive: (path) => path === 'kind' },
];

/** A sail that plans set, and which of its reefs; 0 is the full sail. */
interface Used {
  readonly sail: Sail;
  readonly reefs: ReadonlySet<number>;
}

/** What follows from kinds and rig and decides over the plan, for people; none where the boat file says it all. */
export function filledNote(boat: Pick<Boat, 'sails' | 'sailPlans'>): string[] {
  const settings = boat.sailPlans.flatMap((plan) => plan.sails.map((text) => settingOf(boat, text)!));
  const all = boat.sails.map((sail): Used => {
    const ofSail = settings.filter((setting) => setting.sail === sail);
    return { sail, reefs: new Set(ofSail.map(({ reef }) => reef)) };
  });
  const parts = DECIDES.flatMap(({ words, isDecisive }) => {
    const named = all.filter(({ reefs }) => reefs.size > 0).flatMap((used) => starred(used, isDecisive));
    return named.length === 0 ? [] : [`${words} ${named.join(', ')}`];
  });
  const followed = boat.sailPlans.filter(({ derived }) => derived === true).length;
  if (followed > 0) parts.push(`${followed === boat.sailPlans.length ? 'all' : followed} sail plans`);
  if (parts.length === 0) return [];
  return [
    `Not in the boat file but filled in by kind and rig (* holds placeholders without a source): ${parts.join('; ')}. "windwardrobe boat show" lists every value and where it comes from.`,
  ];
}

/** The sail's id where something decisive of it was filled in, with a star where that is a placeholder. */
function starred(used: Used, isDecisive: (typeof DECIDES)[number]['isDecisive']): string[] {
  const found = Object.entries(used.sail.derived ?? {}).filter(([path]) => isDecisive(path, used));
  if (found.length === 0) return [];
  return [found.some(([, { status }]) => status === 'placeholder') ? `${used.sail.id}*` : used.sail.id];
}
