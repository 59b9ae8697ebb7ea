import { type Boat, type Sail, type SailPlan, settingOf } from '../boat/boat.js';
import { foreTriangleM2, isOnStay, kindOf, mainM2 } from '../catalogue/catalogue.js';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import { type CoefficientTable, JIB, MAIN, SYMMETRIC } from './coefficients.js';
import type { Particulars } from './particulars.js';

/** A sail as a plan sets it, for its forces. Heights are over the water. */
export interface SailSet {
  /** Coefficients of the part that stands like a main, a headsail or a symmetric; `asymmetric` goes by edition. */
  readonly stands: CoefficientTable | 'asymmetric';
  /** Share of the area that stands so; the rest stands like a headsail. Under 1 for code sails only. */
  readonly share: number;
  readonly areaM2: number;
  readonly centreOfEffortM: number;
  readonly headM: number;
  readonly isMain: boolean;
  readonly hasBoom: boolean;
  readonly isFlying: boolean;
  /** A headsail that is not held out, and so falls behind a main. */
  readonly isShadowed: boolean;
}

/** A sail plan for its forces. */
export interface PlanSet {
  readonly id: string;
  readonly sails: readonly SailSet[];
  readonly hasMain: boolean;
  /** Forestay over mast height: 1 without a main. */
  readonly fraction: number;
  /** What the rating rule makes of roach, fraction and overlap for the effective span (S1). */
  readonly spanFactor: number;
}

/** Half width over foot (taken for that over LP) from which a sail stands wholly like a spinnaker, and up to which like a jib (S6). */
const [JIB_LIKE, SPINNAKER_LIKE] = [0.5, 0.85] as const;
/** Heights of centres of effort: of a main over its foot and of a headsail, by their hoist (S3); of a spinnaker (S5). */
const [MAIN_CE, JIB_CE, SPINNAKER_CE] = [0.39, 0.39, 0.565] as const;

/** Every plan of a boat for its forces; adds a fault for each area or rig dimension that is missing. */
export function plansSet(boat: Boat, of: Particulars, file: string, faults: FaultList): readonly PlanSet[] {
  const used = new Set(boat.sailPlans.flatMap(({ sails }) => sails.map((text) => settingOf(boat, text)!.sail)));
  const missing = new Set<string>();
  boat.sails.forEach((sail, i) => {
    if (!used.has(sail)) return;
    if (sail.areaM2 === undefined) faults.add({ file, path: `sails[${i}].areaM2`, ...says.areaToEstimate() });
    const { place } = kindOf(sail.kind);
    if (place === 'mast' || place === 'storm-mast') {
      if (boat.rig?.pM === undefined) missing.add('rig.pM');
    } else if (boat.rig?.iM === undefined && !(place === 'flying' && boat.rig?.ispM !== undefined))
      missing.add('rig.iM');
  });
  for (const path of missing) faults.add({ file, path, ...says.neededToEstimate() });
  return boat.sailPlans.map((plan) => planSet(boat, plan, of));
}

function planSet(boat: Boat, { id, sails }: SailPlan, of: Particulars): PlanSet {
  const settings = sails.map((text) => settingOf(boat, text)!);
  const all = settings.map(({ sail, reef }) =>
    sailSet(sail, reef === 0 ? 1 : sail.reefs![reef - 1]!.areaShare, boat, of),
  );
  const main = settings.find(({ sail }) => kindOf(sail.kind).place === 'mast')?.sail;
  const { iM, pM } = boat.rig ?? {};
  const fraction =
    main === undefined || iM === undefined || pM === undefined ? 1 : Math.min(1, iM / (pM + of.boomHeightM));
  const overlap = Math.max(0, ...settings.map(({ sail }) => overlapOf(sail)));
  const roach = roachOf(main, boat) - 1;
  return {
    id,
    sails: all,
    hasMain: all.some(({ isMain }) => isMain),
    fraction,
    spanFactor: 1.1 + 0.08 * (roach - 0.2) + 0.5 * (0.68 + 0.31 * fraction + 0.075 * (overlap || 1) - 1.1),
  };
}

/** Area of the main over its triangle, where it is not given; a usual one without main or measures. */
function roachOf(main: Sail | undefined, { rig }: Boat): number {
  if (main?.roachFactor !== undefined) return main.roachFactor;
  if (main?.areaM2 === undefined || rig?.pM === undefined || rig.eM === undefined) return USUAL_ROACH;
  return main.areaM2 / mainM2(rig.pM, rig.eM, 1);
}

/** A placeholder, at which the span factor of the rule is moved by nothing. */
const USUAL_ROACH = 1.2;

const overlapOf = ({ kind, overlapPercent }: Sail): number =>
  isOnStay(kindOf(kind).place) ? (overlapPercent ?? 100) / 100 : 0;

function sailSet(sail: Sail, areaShare: number, { rig = {} }: Boat, of: Particulars): SailSet {
  const { place } = kindOf(sail.kind);
  const areaM2 = (sail.areaM2 ?? 0) * areaShare;
  const { iM = 1, jM, pM = 1, eM } = rig;
  if (place === 'mast' || place === 'storm-mast') {
    // Of a triangle whose lower part is taken away the height left goes with the root of the area; so with a trysail.
    const whole = place === 'mast' ? (sail.areaM2 ?? 1) : eM === undefined ? 3 * (sail.areaM2 ?? 1) : mainM2(pM, eM, 1);
    const hoistM = pM * Math.min(1, Math.sqrt(areaM2 / whole));
    const footM = of.freeboardM + of.boomHeightM;
    return {
      stands: MAIN,
      share: 1,
      areaM2,
      centreOfEffortM: footM + MAIN_CE * hoistM,
      headM: footM + hoistM,
      isMain: true,
      hasBoom: place === 'mast' && sail.kind !== 'wing-sail',
      isFlying: false,
      isShadowed: false,
    };
  }
  if (place === 'flying') {
    const hoistM = rig.ispM ?? iM;
    const share = sail.kind === 'code-zero' ? spinnakerShare(sail.midGirthRatio!) : 1;
    return {
      stands: SYMMETRIC_KINDS.includes(sail.kind) ? SYMMETRIC : 'asymmetric',
      share,
      areaM2,
      centreOfEffortM: of.freeboardM + (share * SPINNAKER_CE + (1 - share) * JIB_CE) * hoistM,
      headM: of.freeboardM + hoistM,
      isMain: false,
      hasBoom: false,
      isFlying: true,
      isShadowed: share < 1,
    };
  }
  // A sail smaller than the fore-triangle is shorter on its stay.
  const whole = jM === undefined ? (sail.areaM2 ?? 1) : foreTriangleM2(iM, jM) * (place === 'twins' ? 2 : 1);
  const hoistM = iM * Math.min(1, Math.sqrt(areaM2 / whole));
  return {
    stands: JIB,
    share: 1,
    areaM2,
    centreOfEffortM: of.freeboardM + JIB_CE * hoistM,
    headM: of.freeboardM + hoistM,
    isMain: false,
    hasBoom: false,
    isFlying: false,
    isShadowed: isOnStay(place),
  };
}

/** How much of a code sail stands like a spinnaker, by its mid-girth. */
export const spinnakerShare = (midGirthRatio: number): number =>
  Math.min(1, Math.max(0, (midGirthRatio - JIB_LIKE) / (SPINNAKER_LIKE - JIB_LIKE)));

/** Kinds for the dead run, which the symmetric stands for: of a vented sail nothing is published. */
const SYMMETRIC_KINDS: readonly Sail['kind'][] = ['symmetric-cruising', 'vented-downwind'];
