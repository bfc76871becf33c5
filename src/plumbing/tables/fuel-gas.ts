/** Fuel gases: heat content and how altitude takes from the input. */

/**
 * Heat content [Btu/ft³]. Natural: the figure of the code's worked examples; 1,000 to 1,050 is usual, one uniform code
 * example has 1,100. Propane: 2,516, seen in trade pages.
 */
export const heatContent_Btu_ft3 = { naturalGas: 1000, propane: 2516 } as const;

/** Altitude up to which no derating is asked for, and its rate [ft, share per 1,000 ft of altitude above the sea]. */
export const altitudeDerating = { from_ft: 2000, per1000ft: 0.04 } as const;
