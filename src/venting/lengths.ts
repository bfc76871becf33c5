/** Two lengths that are both called equivalent and must never meet: the code's allowance and the hydraulic one. */
import { brand, type Length } from "../core/quantity/index.js";
import { equivalentLength } from "../physics/index.js";

declare const meaning: unique symbol;

/**
 * A length by a code's reckoning [m]: straight duct with the code's allowance for every elbow. It is a bookkeeping
 * figure: the code gives a mitred 90° elbow of a 4 in duct 5 ft whatever the flow, where the air sees some 17 ft.
 * Not a {@link Length}, so that no formula of the physics takes it.
 */
export type CodeLength = number & { readonly [meaning]: "code" };

/**
 * The length of straight duct that loses as much pressure as a fitting does at one flow [m]. It changes with the flow
 * and the wall. Not a {@link Length} and not a {@link CodeLength}, so that no code limit is ever compared with it.
 */
export type HydraulicLength = number & { readonly [meaning]: "hydraulic" };

/** A length as the code reckons it; the caller vouches that it is a code's figure. */
export const codeLength = (length: Length): CodeLength => length as number as CodeLength;

/** Either length as a plain one, for showing only. */
export const plainLength = (length: CodeLength | HydraulicLength): Length => brand<"length">(length);

/**
 * Hydraulic equivalent length of a fitting [m]: L = K·D/f.
 *
 * A single mitre (K 1.2) in a 4 in duct of 0.09 mm roughness at 150 cfm is 17.3 ft of straight duct; the code's table
 * deducts 5 ft for it.
 *
 * @param k - loss coefficient, 0 or more
 * @param diameter - inside diameter [m]
 * @param factor - Darcy friction factor of the duct at this flow
 * @throws RangeError when a value is out of its range
 * @example hydraulicLength(1.2, si(4, "in"), 0.023172) // 5.2615
 */
export const hydraulicLength = (k: number, diameter: Length, factor: number): HydraulicLength =>
  equivalentLength(k, diameter, factor) as number as HydraulicLength;
