import { kindOf, type Place } from '../catalogue/catalogue.js';
import { commonAngles } from '../sail/sail.js';
import type { Sail, SailPlan } from './boat.js';
import { BARE_POLES, isTaken } from './planIds.js';
import { reefedWindow, settingIdPart, settingText } from './setting.js';

/** A sail as a plan sets it: with which reef, or how far furled. */
interface Carried {
  readonly sail: Sail;
  readonly reef: number;
}

/**
 * The sail plans that follow from the sails aboard, all that stand together: the main, full to deepest reef, with each headsail
 * that goes with it, part-furled ones from as deep a reef on; sails set flying with the full main and alone; the main wing and
 * wing with a poled-out headsail, that alone, twin headsails; main alone, headsail alone; storm sails; bare poles. What is
 * set flying stands alone before the mast: a headsail behind it is furled. Ids are those of the sails joined by `+`, a reef as
 * `main.1`.
 */
export function derivePlans(sails: readonly Sail[]): readonly SailPlan[] {
  const at = (...places: readonly Place[]) => sails.filter(({ kind }) => places.includes(kindOf(kind).place));
  const mains = at('mast').flatMap(settingsOf);
  const headsails = at('forestay', 'inner-stay', 'storm-stay').flatMap(settingsOf);
  const flying = at('flying').flatMap(settingsOf);
  const winged = at('winged').flatMap(settingsOf);
  const plans: (readonly Carried[])[] = [
    ...mains.flatMap((main) =>
      headsails.filter((headsail) => goesWith(headsail, main)).map((headsail) => [main, headsail]),
    ),
    ...flying.flatMap((sail) => [...mains.filter(({ reef }) => reef === 0).map((main) => [main, sail]), [sail]]),
    ...mains.flatMap((main) => winged.filter(({ reef }) => reef <= main.reef).map((sail) => [main, sail])),
    ...winged.map((sail) => [sail]),
    ...at('twins')
      .flatMap(settingsOf)
      .map((sail) => [sail]),
    ...mains.map((main) => [main]),
    ...headsails.map((headsail) => [headsail]),
    ...at('storm-mast').flatMap((sail) => [
      [{ sail, reef: 0 }],
      ...at('storm-stay').map((jib) => [
        { sail, reef: 0 },
        { sail: jib, reef: 0 },
      ]),
    ]),
    [],
  ];
  const taken = new Set<string>();
  return plans
    .filter((set) => haveCommonAngles(set) && haveOwnCloths(set))
    .map((set) => {
      let id = set.map(({ sail, reef }) => settingIdPart(sail.id, reef)).join('+') || BARE_POLES;
      // A sail may be called what another's reef is (`main.1`), or what is no sail plan.
      while (taken.has(id) || isTaken(id, set.length)) id = `${id}-2`;
      taken.add(id);
      return { id, sails: set.map(({ sail, reef }) => settingText(sail.id, reef)), derived: true };
    });
}

const settingsOf = (sail: Sail): Carried[] => [
  { sail, reef: 0 },
  ...(sail.reefs ?? []).map((_, i) => ({ sail, reef: i + 1 })),
];

function goesWith({ sail, reef }: Carried, main: Carried): boolean {
  // An overlapping genoa is furled before the main is reefed (common practice), another headsail with it.
  const ahead = sail.kind === 'overlapping-genoa' ? 1 : 0;
  if (reef > main.reef + ahead) return false;
  // No storm sail beside a full main.
  if (kindOf(sail.kind).place === 'storm-stay' && main.reef === 0) return false;
  const deepest = main.sail.reefs?.length ?? 0;
  const { from, to } = kindOf(sail.kind).withMainReefs ?? {};
  // Furled it goes with any main reefed as deep; a storm sail with the deepest reef there is.
  return main.reef >= Math.min(from?.value ?? 0, deepest) && (reef > 0 || main.reef <= (to?.value ?? deepest));
}

/** No cloth is set twice: a sail may be another setting of any other. */
function haveOwnCloths(set: readonly Carried[]): boolean {
  return new Map(set.map(({ sail }) => [sail.clothOf ?? sail.id, sail])).size === set.length;
}

/** Two sails whose angles hardly meet are never set together. */
function haveCommonAngles(set: readonly Carried[]): boolean {
  const [fromDeg, toDeg] = commonAngles(set.map(({ sail, reef }) => reefedWindow(sail, reef)!));
  return fromDeg < toDeg;
}
