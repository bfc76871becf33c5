/** Figures of drains that no code sets. */

/** A washer pan as it is sold [in]. Common practice, no source: 2 to 2 1/2 in deep, 1 in outlet. */
export const stockPan = { depth_in: 2.5, outlet_in: 1 } as const;

/** Underside of an ordinary counter above the floor [in]. Common practice, no source: a 36 in counter, its top and rail. */
export const underCounter_in = 33;
