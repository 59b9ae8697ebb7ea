/** Red, green and blue as amounts of light, 0 to 1. */
export type Light = readonly [red: number, green: number, blue: number];

/**
 * How light is seen without one kind of cone: Machado, Oliveira & Fernandes, "A Physiologically-based Model for Simulation of Color Vision
 * Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0. The numbers are from memory; each row adds up
 * to 1, which a test holds. In grey: the luminance of sRGB (IEC 61966-2-1).
 */
const SEEN = {
  full: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopic: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopic: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopic: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  'no colour': [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
} as const;

export type Vision = keyof typeof SEEN;
export const VISIONS = ['full', 'protanopic', 'deuteranopic', 'tritanopic'] as const satisfies readonly Vision[];
export const rowsOf = (vision: Vision): readonly (readonly number[])[] => SEEN[vision];

/** A colour `#rrggbb` as it is seen. */
export function seenAs(colour: string, vision: Vision): Light {
  const light = [1, 3, 5].map((at) => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  const seen = SEEN[vision].map((row) => row.reduce<number>((sum, share, i) => sum + share * light[i]!, 0));
  return seen.map((value) => Math.min(1, Math.max(0, value))) as unknown as Light;
}

/** How bright light is, 0 to 1. */
const luminanceOf = ([red, green, blue]: Light) => 0.2126 * red + 0.7152 * green + 0.0722 * blue;

/** The contrast of two lights, 1 to 21 (WCAG 2). */
export function contrastOf(one: Light, other: Light): number {
  const [dark, bright] = [luminanceOf(one), luminanceOf(other)].sort((a, b) => a - b) as [number, number];
  return (bright + 0.05) / (dark + 0.05);
}

/** How far two lights are apart in CIELAB (1976) under D65. */
export function differenceOf(one: Light, other: Light): number {
  const [a, b] = [labOf(one), labOf(other)];
  return Math.hypot(...a.map((value, i) => value - b[i]!));
}

function labOf([red, green, blue]: Light): readonly number[] {
  const xyz = [
    (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047,
    0.2126729 * red + 0.7151522 * green + 0.072175 * blue,
    (0.0193339 * red + 0.119192 * green + 0.9503041 * blue) / 1.08883,
  ];
  const [x, y, z] = xyz.map((t) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116)) as [
    number,
    number,
    number,
  ];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}
