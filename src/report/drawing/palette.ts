import { MOTIFS, type Motif } from './motifs.js';

/** How the cells of a plan are filled: a light tint, and a motif in a dark ink of the same colour. */
export interface Fill {
  readonly id: string;
  /** The colour itself, for lines. */
  readonly colour: string;
  readonly tint: string;
  readonly ink: string;
  readonly motif: Motif;
}

/**
 * A fill for each plan, most used first, given how long the border between two of them is. Up to 40 plans have each a motif of their own,
 * so that the chart reads without colour; beyond, no motif comes back in the same colour before 280. Colours are those of which least lies
 * along the border already.
 */
export function fillsFor(plans: number, border: (rank: number, other: number) => number): readonly Fill[] {
  const colours: number[] = [];
  for (let rank = 0; rank < plans; rank += 1) {
    const taken = colours.filter((_, other) => other % MOTIFS.length === rank % MOTIFS.length);
    const weights = COLOURS.map((_, colour) => {
      const alike = colours.flatMap((other, i) => (other === colour ? i : []));
      return {
        colour,
        isTaken: taken.includes(colour) && taken.length < COLOURS.length,
        border: alike.reduce((sum, other) => sum + border(rank, other), 0),
        uses: alike.length,
      };
    });
    weights.sort((a, b) => Number(a.isTaken) - Number(b.isTaken) || a.border - b.border || a.uses - b.uses);
    colours.push(weights[0]!.colour);
  }
  return colours.map((colour, rank) => fillOf(MOTIFS[rank % MOTIFS.length]!, COLOURS[colour]!));
}

/**
 * Seven hues that people of every kind of colour vision tell apart: Okabe & Ito, "Color Universal Design" (2008), the values from memory.
 * Their black is left to lines and text.
 */
const COLOURS = ['56B4E9', 'E69F00', '009E73', 'F0E442', 'CC79A7', '0072B2', 'D55E00'];

/** Shares of the colour: light enough for a motif and a code on it, and dark enough for the motif. Tried by eye, also in grey. */
const TINT = 0.38;
const INK = 0.5;

function fillOf(motif: Motif, colour: string): Fill {
  return {
    // The name tells all there is in it: two charts on one page may share a pattern, and never take the wrong one.
    id: `fill-${motif.name}-${colour}`,
    colour: `#${colour}`,
    tint: mixed(colour, 255, TINT),
    ink: mixed(colour, 0, INK),
    motif,
  };
}

/** A colour mixed with black (0) or white (255). */
function mixed(colour: string, other: number, share: number): string {
  const channels = [0, 2, 4].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
  const hex = channels.map((value) =>
    Math.round(value * share + other * (1 - share))
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${hex.join('')}`;
}
