/** A blower for runs whose machine has no published curve. */

/**
 * A generic household dryer's blower in standard air: static pressure 0.9 inH₂O at no flow falling as the square of the
 * flow to nothing at 230 cfm. An assumption in the middle of what machines do (common practice, no source), never a
 * product's curve.
 */
export const genericBlower = { shutOff: 0.9, free: 230 } as const;

/** Density of the standard air that fan curves are given in: 0.075 lb/ft³ [kg/m³]. */
export const standardDensity = 1.20138;

/** Speeds at which industry conveys cotton lint [fpm]; an industrial ventilation manual's table (seen), sources range over 2000 to 3000. */
export const lintConveying = { least: 2500, most: 3000 } as const;

/**
 * Wind pressure coefficient of a wall by the way it looks (common practice, no source): to windward, along the wind, away.
 */
export const windCoefficients = { windward: 0.8, along: -0.6, away: -0.4 } as const;
