/** Figures of drains that no code sets. */

/** A washer pan as it is sold [in]. Common practice, no source: 2 to 2 1/2 in deep, 1 in outlet. */
export const stockPan = { depth_in: 2.5, outlet_in: 1 } as const;

/** Underside of an ordinary counter above the floor [in]. Common practice, no source: a 36 in counter, its top and rail. */
export const underCounter_in = 33;

/** Inside diameters of drain pipe by nominal size, schedule 40 [in]. */
export const drainBores_in = {
  "1-1/4": 1.38,
  "1-1/2": 1.61,
  "2": 2.067,
  "2-1/2": 2.469,
  "3": 3.068,
  "4": 4.026,
} as const;

/** Nominal sizes [in]; a trap arm may fall by no more than one of them. */
export const drainNominal_in = { "1-1/4": 1.25, "1-1/2": 1.5, "2": 2, "2-1/2": 2.5, "3": 3, "4": 4 } as const;

/** Manning's n by material. Tables seen: PVC 0.009, copper 0.011, cast iron 0.012 new to 0.013. */
export const drainRoughness = { plastic: 0.009, copper: 0.011, castIron: 0.013 } as const;
