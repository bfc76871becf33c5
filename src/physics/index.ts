/** SI numerics that the trades share. */

// Geometry and numerics
export { brent } from "./roots.js";
