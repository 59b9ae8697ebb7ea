import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import type { Draw } from './drawn.js';

/** Disturbances of the components towards east and north at an instant, in standard deviations of the place, into `out`. */
export type Noise = (epochSeconds: number, out: Float64Array) => void;

/** Weather is drawn at nodes so far apart, and runs straight between them. */
const NODE_HOURS = 6;

/**
 * The disturbance of a drawing: a part that stays, and an autoregressive one of first order at nodes six hours apart, before and after
 * the drawing's beginning. Nodes are drawn outwards from there in a fixed order, so that what comes back never depends on what was
 * asked before.
 */
export function noiseOf({ seed, fromEpochSeconds, shares, eFoldHours }: Draw): Noise {
  const random = xoroshiro128plusFromState([0, 1, 2, 3].map((word) => mixed(seed + word * GOLDEN)));
  const pair = new Float64Array(2);
  /** Two independent standard normals (Box & Muller 1958, Ann. Math. Statist. 29, 610). */
  const drawPair = () => {
    // 1 − u is never 0.
    const radius = Math.sqrt(-2 * Math.log(1 - uniformFloat64(random)));
    const angle = 2 * Math.PI * uniformFloat64(random);
    pair[0] = radius * Math.cos(angle);
    pair[1] = radius * Math.sin(angle);
  };
  const kept = Math.exp(-NODE_HOURS / eFoldHours);
  const fresh = Math.sqrt(1 - kept * kept);
  drawPair();
  const [stayEast, stayNorth] = [Math.sqrt(shares.passage) * pair[0]!, Math.sqrt(shares.passage) * pair[1]!];
  drawPair();
  // Nodes from the beginning on, and backwards from it; a first-order series is the same either way.
  const after: number[] = [pair[0]!, pair[1]!];
  const before: number[] = [pair[0]!, pair[1]!];
  const drawNext = (nodes: number[]) => {
    const [east, north] = [nodes[nodes.length - 2]!, nodes[nodes.length - 1]!];
    drawPair();
    nodes.push(kept * east + fresh * pair[0]!, kept * north + fresh * pair[1]!);
  };
  const reach = (node: number) => {
    while (after.length <= 2 * Math.abs(node)) {
      drawNext(after);
      drawNext(before);
    }
  };
  const component = (node: number, which: number) => (node < 0 ? before[-2 * node + which]! : after[2 * node + which]!);

  const scale = Math.sqrt(shares.weather);
  let [lastSeconds, east, north] = [Number.NaN, 0, 0];
  return (epochSeconds, out) => {
    // One instant is asked for at many places.
    if (epochSeconds !== lastSeconds) {
      const at = (epochSeconds - fromEpochSeconds) / (3600 * NODE_HOURS);
      const node = Math.floor(at);
      const share = at - node;
      reach(Math.max(Math.abs(node), Math.abs(node + 1)));
      // What is drawn straight between two nodes varies less than they do: by exactly so much it is stretched.
      const variance = (1 - share) * (1 - share) + share * share + 2 * share * (1 - share) * kept;
      const [here, next] = [((1 - share) * scale) / Math.sqrt(variance), (share * scale) / Math.sqrt(variance)];
      east = stayEast + here * component(node, 0) + next * component(node + 1, 0);
      north = stayNorth + here * component(node, 1) + next * component(node + 1, 1);
      lastSeconds = epochSeconds;
    }
    out[0] = east;
    out[1] = north;
  };
}

/** 2^32 over the golden ratio: the words of a generator's state are as far apart (Steele, Lea & Flood 2014, OOPSLA, 453). */
const GOLDEN = 0x9e3779b9;

/**
 * A whole number of 32 bits with its bits mixed (the finalizer of MurmurHash3, A. Appleby, in the public domain). The generator is linear:
 * begun with the seed itself, neighbouring seeds stay correlated for ever (0.09 was measured), and studies number their seeds.
 */
function mixed(value: number): number {
  let bits = value | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return bits ^ (bits >>> 16);
}
