/** A drawing that is repeated over an area. */
export interface Motif {
  readonly name: string;
  /** Size of the tile. */
  readonly width: number;
  readonly height: number;
  /** Path that is drawn as a line. */
  readonly line?: string;
  /** Path that is filled. */
  readonly solid?: string;
  readonly weight?: number;
  /** The tile turned clockwise. */
  readonly turnDeg?: number;
}

const disc = (x: number, y: number, radius: number) =>
  `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0z`;

/** Forty that can be told apart without colour; those that differ most come first, for the plans that are used most. */
export const MOTIFS: readonly Motif[] = [
  { name: 'rising', width: 8, height: 8, line: 'M4 0V8', turnDeg: 45 },
  { name: 'dots', width: 8, height: 8, solid: disc(4, 4, 1.3) },
  { name: 'level', width: 7, height: 7, line: 'M0 3.5H7' },
  { name: 'falling', width: 8, height: 8, line: 'M4 0V8', turnDeg: -45 },
  { name: 'upright', width: 7, height: 7, line: 'M3.5 0V7' },
  { name: 'lattice', width: 9, height: 9, line: 'M4.5 0V9M0 4.5H9', turnDeg: 45 },
  { name: 'waves', width: 14, height: 8, line: 'M0 4Q3.5 0 7 4T14 4' },
  { name: 'rings', width: 12, height: 12, line: disc(6, 6, 3) },
  { name: 'grid', width: 9, height: 9, line: 'M4.5 0V9M0 4.5H9' },
  { name: 'bricks', width: 14, height: 12, line: 'M0 3H14M0 9H14M4 3V9M11 9V12M11 0V3' },
  { name: 'zigzag', width: 10, height: 8, line: 'M0 6L5 2L10 6' },
  { name: 'pluses', width: 11, height: 11, line: 'M5.5 2.5V8.5M2.5 5.5H8.5' },
  { name: 'squares', width: 9, height: 9, solid: 'M2.8 2.8H6.2V6.2H2.8z' },
  { name: 'triangles', width: 12, height: 11, line: 'M6 2L10 9H2z' },
  { name: 'scales', width: 12, height: 12, line: 'M0 1A6 6 0 0 0 12 1M-6 7A6 6 0 0 0 6 7A6 6 0 0 0 18 7' },
  { name: 'dashes', width: 14, height: 10, line: 'M0 2.5H8M7 7.5H15' },
  { name: 'upright-dashes', width: 10, height: 14, line: 'M2.5 0V8M7.5 7V15' },
  { name: 'fine-rising', width: 4, height: 4, line: 'M2 0V4', weight: 0.8, turnDeg: 45 },
  { name: 'fine-dots', width: 4.5, height: 4.5, solid: disc(2.25, 2.25, 0.8) },
  { name: 'crosses', width: 11, height: 11, line: 'M3 3L8 8M8 3L3 8' },
  { name: 'double-level', width: 12, height: 12, line: 'M0 4H12M0 7H12' },
  { name: 'diamonds', width: 12, height: 12, line: 'M6 2L10 6L6 10L2 6z' },
  { name: 'fine-falling', width: 4, height: 4, line: 'M2 0V4', weight: 0.8, turnDeg: -45 },
  { name: 'double-upright', width: 12, height: 12, line: 'M4 0V12M7 0V12' },
  { name: 'upright-waves', width: 8, height: 14, line: 'M4 0Q0 3.5 4 7T4 14' },
  { name: 'double-rising', width: 12, height: 12, line: 'M4 0V12M7 0V12', turnDeg: 45 },
  { name: 'big-dots', width: 14, height: 14, solid: disc(3.5, 3.5, 2.4) + disc(10.5, 10.5, 2.4) },
  { name: 'upright-zigzag', width: 8, height: 10, line: 'M6 0L2 5L6 10' },
  { name: 'bold-level', width: 12, height: 12, line: 'M0 6H12', weight: 3 },
  { name: 'stars', width: 12, height: 12, line: 'M6 2V10M2.5 4L9.5 8M9.5 4L2.5 8' },
  { name: 'double-falling', width: 12, height: 12, line: 'M4 0V12M7 0V12', turnDeg: -45 },
  { name: 'bold-upright', width: 12, height: 12, line: 'M6 0V12', weight: 3 },
  { name: 'targets', width: 14, height: 14, line: disc(7, 7, 4.5), solid: disc(7, 7, 1.5) },
  { name: 'bold-rising', width: 12, height: 12, line: 'M6 0V12', weight: 3, turnDeg: 45 },
  { name: 'fine-grid', width: 5, height: 5, line: 'M2.5 0V5M0 2.5H5', weight: 0.8 },
  { name: 'level-and-dots', width: 12, height: 12, line: 'M0 3H12', solid: disc(6, 9, 1.4) },
  { name: 'bold-falling', width: 12, height: 12, line: 'M6 0V12', weight: 3, turnDeg: -45 },
  { name: 'upright-and-dots', width: 12, height: 12, line: 'M3 0V12', solid: disc(9, 6, 1.4) },
  { name: 'fine-lattice', width: 5, height: 5, line: 'M2.5 0V5M0 2.5H5', weight: 0.8, turnDeg: 45 },
  { name: 'checks', width: 10, height: 10, solid: 'M0 0H5V5H0zM5 5H10V10H5z' },
];
