/** Water pipes and hoses of a household: bore, wall, roughness, and stiffness of the wall. */

/** Pipes and hoses. Type L and M copper, PEX, CPVC and schedule 40 by nominal size; hoses and tube by bore. */
export const waterPipes = [
  "copper L 1/2",
  "copper L 3/4",
  "copper M 1/2",
  "copper M 3/4",
  "PEX 1/2",
  "PEX 3/4",
  "CPVC 1/2",
  "PVC 3/4",
  "galvanized 1/2",
  "galvanized 3/4",
  "hose 3/8",
  "hose 1/2",
  "PE tube 1/4",
] as const;
export type WaterPipe = (typeof waterPipes)[number];

/** One pipe. */
export interface WaterPipeRow {
  readonly bore_in: number;
  readonly wall_in: number;
  /** Mean height of the wall's roughness [mm]. */
  readonly roughness_mm: number;
  /** Hazen-Williams coefficient. */
  readonly coefficient: number;
  /** Young's modulus of the wall [GPa]. */
  readonly modulus_GPa: number;
}

const row = (
  bore_in: number,
  wall_in: number,
  roughness_mm: number,
  coefficient: number,
  modulus_GPa: number,
): WaterPipeRow => ({ bore_in, wall_in, roughness_mm, coefficient, modulus_GPa });

/**
 * The pipes. Copper bores and walls: ASTM B88, two pages that agree; PEX, CPVC, PVC and steel walls, roughness,
 * coefficients and moduli from memory; hose bores and the ice-maker tube, common practice, no source. Moduli scatter:
 * copper 110 to 130, PVC 2.4 to 3.3, PEX 0.6 to 0.9, a reinforced hose 0.02 to 0.2 GPa.
 */
export const waterPipeRows: Readonly<Record<WaterPipe, WaterPipeRow>> = {
  "copper L 1/2": row(0.545, 0.04, 0.0015, 150, 117),
  "copper L 3/4": row(0.785, 0.045, 0.0015, 150, 117),
  "copper M 1/2": row(0.569, 0.028, 0.0015, 150, 117),
  "copper M 3/4": row(0.811, 0.032, 0.0015, 150, 117),
  "PEX 1/2": row(0.485, 0.07, 0.007, 150, 0.8),
  "PEX 3/4": row(0.681, 0.097, 0.007, 150, 0.8),
  "CPVC 1/2": row(0.485, 0.07, 0.0015, 150, 2.9),
  "PVC 3/4": row(0.824, 0.113, 0.0015, 150, 2.8),
  "galvanized 1/2": row(0.622, 0.109, 0.15, 120, 200),
  "galvanized 3/4": row(0.824, 0.113, 0.15, 120, 200),
  "hose 3/8": row(0.375, 0.125, 0.0015, 150, 0.05),
  "hose 1/2": row(0.5, 0.125, 0.0015, 150, 0.05),
  "PE tube 1/4": row(0.17, 0.04, 0.0015, 150, 0.8),
};

/** Water as the tables here take it: temperature for losses [°C], bulk modulus [GPa] and density [kg/m³] for surges. */
export const usualWater = { cold_C: 15, bulkModulus_GPa: 2.2, density_kg_m3: 998.2 } as const;
