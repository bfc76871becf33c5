/** The flat rubber washer of a hose coupling: what it is made of and how far it may be squeezed. */

/**
 * The usual washer: outside and inside diameter [in], hardness [Shore A]. Common practice, no source; real ones run from
 * 24 to 27 mm outside, 15 to 17 mm inside and 2.5 to 4 mm thick.
 */
export const usualWasher = { outer_in: 1, inner_in: 5 / 8, shoreA: 70 } as const;

/**
 * Squeeze of a rubber seal that stays still, as a share of its thickness. Upper end: Mechanical Engineers' Handbook,
 * volume 3, p. 290, 30 % at most for a static seal. Lower end from memory; a design text has industrial seals average
 * 18 to 27 %.
 */
export const staticSqueeze = { least: 0.15, most: 0.3 } as const;

/**
 * Shape factor k of a rubber block bonded or held by friction at its faces, by hardness [Shore A]: compression modulus
 * E·(1 + 2·k·S²). Natural-rubber design handbook, from memory.
 */
export const blockFactorRows: readonly (readonly [shoreA: number, k: number])[] = [
  [30, 0.93],
  [40, 0.85],
  [50, 0.73],
  [60, 0.57],
  [70, 0.53],
  [75, 0.52],
];

/**
 * Friction between the parts, low and high: on the thread and on the face of the nut. Ranges of trade practice for
 * greased to dry brass; no single value exists.
 */
export const couplingFriction = { low: 0.1, high: 0.25 } as const;
