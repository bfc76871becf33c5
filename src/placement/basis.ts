/** What the placement rules rest on beside their limits. */
import { type Basis, commonPractice } from "../core/basis/index.js";

/** How the figures for a closet's sides are compared: the smallest of several measurements. */
export const smallestOpening: Basis = {
  ...commonPractice,
  note: "An opening is as wide as its narrowest of three measurements, low, middle and high.",
};

/** The machine's own door. */
export const doorOpensFully: Basis = {
  ...commonPractice,
  note: "The machine's door must be able to open fully where it stands.",
};

/** Usual thickness of a room door. */
export const usualLeaf: Basis = {
  ...commonPractice,
  note: "An inside door leaf is usually 1 3/8 in thick.",
};

/** Plane geometry and statics that need no document. */
export const geometry: Basis = {
  document: "Plane geometry",
  publisher: "",
  edition: "",
  section: "",
  force: "advice",
  confirmed: "computed",
};

/** Which way a levelling foot turns. */
export const footTurns: Basis = {
  ...commonPractice,
  note: "A right-hand foot turned clockwise as seen from below goes in and its corner comes down; all four feet must bear.",
};

/** How the depth behind is added up. */
export const sideBySide: Basis = {
  ...commonPractice,
  note: "Connections stand side by side behind a machine: each needs its own depth, and the deepest decides.",
};

/** Thicknesses of shims as they are sold. */
export const usualShims: Basis = {
  ...commonPractice,
  note: "Shims are sold 1/32, 1/16, 1/8 and 1/4 in thick; plastic ones vary and give by a twentieth to a tenth.",
};

/** How a foot stands on a shim. */
export const wholeContact: Basis = {
  ...commonPractice,
  note: "A foot stands on the whole of each shim; few thick pieces hold better than many thin ones.",
};

/** A door frame that was not measured. */
export const usualFrame: Basis = {
  ...commonPractice,
  note: "A door has a gap of 1/8 in at each side and an inside stop of 1/2 in.",
};

/** A machine's weight set against what joists are designed for. */
export const equalMoment: Basis = {
  document: "Beam statics",
  publisher: "",
  edition: "",
  section: "",
  force: "advice",
  confirmed: "computed",
  note: "A weight at midspan bends a joist as much as an even load of twice its size: P·L/4 = w·s·L²/8. A footprint above the design load is not by itself a failure.",
};

/** A floor's own frequency from its sag. */
export const floorNotes: Basis = {
  document: "AISC Design Guide 11",
  publisher: "American Institute of Steel Construction",
  edition: "2016",
  section: "chapter 3",
  force: "advice",
  confirmed: "memory",
  note: "f = 0.18·√(g/Δ); the exact factor for an even beam is 0.1792, computed.",
};

/** How a mass on springs answers a rhythm. */
export const resonance: Basis = {
  document: "Vibration of a mass on a spring",
  publisher: "",
  edition: "",
  section: "",
  force: "advice",
  confirmed: "computed",
  note: "Without damping the answer is 1/|1 − r²| times that to a steady force; above r = √2, or below 1/√2, near resonance it never comes.",
};

/** The stability test of household machines. */
export const iecStability: Basis = {
  document: "IEC 60335-1",
  publisher: "IEC",
  edition: "2010",
  section: "20.1",
  force: "advice",
  confirmed: "secondary",
  note: "A free-standing machine does not overturn on a plane inclined by 10°.",
};

/** The lifting equation. */
export const niosh: Basis = {
  document: "DHHS (NIOSH) 94-110",
  publisher: "National Institute for Occupational Safety and Health",
  edition: "1994, revised 2021",
  section: "1.1 and 1.3",
  force: "advice",
  confirmed: "secondary",
  note: "Recommended weight limit of a two-handed lift by one person; not for carrying, pushing, unstable loads or several people.",
};

/** What several people can lift together. */
export const teamLift: Basis = {
  document: "Manual Handling Operations Regulations 1992, guidance L23",
  publisher: "Health and Safety Executive",
  edition: "",
  section: "119 and 120",
  force: "advice",
  confirmed: "secondary",
  note: "Two people lift two thirds of the sum of what each can, three a half; on stairs most of it falls on the lower one.",
};
