/** Usual sizes of doors and frames [in]; common practice, no source. */
export const usualDoor = {
  /** Thickness of an inside leaf. */
  insideLeaf: 1.375,
  /** Gap between leaf and frame at each side. */
  gap: 0.125,
  /** How far the stop of an inside frame stands out. */
  insideStop: 0.5,
} as const;

/** Usual measures of a framed wall [in]; common practice, no source. */
export const usualWall = {
  /** Room between the studs' faces for a recessed box: a stud of 3 1/2 in. */
  studDepth: 3.5,
} as const;
