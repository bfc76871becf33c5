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
