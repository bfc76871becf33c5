/** Placement: whether a machine gets to its place, fits there with everything connected, and stands level and still. */
export { clearanceEnvelope } from "./clearance-envelope.js";
export { clearances, openingNeeded } from "./clearances.js";
export { connectionDepth, connectionsBehind } from "./connections-behind.js";
export { doorSwing, openingTowardsWall } from "./door-swing.js";
export { floor, padPressure, separation, weightForJoists } from "./floor.js";
export { handling, teamLimit } from "./handling.js";
export { levelFeet, pitchOf } from "./level-feet.js";
export { passage, stairNeedTilted } from "./passage.js";
export { reach } from "./reach.js";
export { loadShift, rock, weightOf } from "./rock.js";
export { shims } from "./shims.js";
export { stability } from "./stability.js";
export { placementPart } from "./survey.js";
export { type ThreadName, threadNames } from "./tables/threads.js";
export { tallestBetween, tiltHeadroom } from "./tilt-headroom.js";
