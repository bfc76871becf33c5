/** Figures of the trade that no text sets. */

/** How far a plate's power may be above its current times its voltage, from rounding [-]. Common practice, no source. */
export const plateSlack = 0.05;
