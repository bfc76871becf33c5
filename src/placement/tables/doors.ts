/** Usual sizes of doors and frames [in]; common practice, no source. */
export const usualDoor = {
  /** Thickness of an inside leaf. */
  insideLeaf: 1.375,
  /** Gap between leaf and frame at each side. */
  gap: 0.125,
  /** How far the stop of an inside frame stands out. */
  insideStop: 0.5,
} as const;
