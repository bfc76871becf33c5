/** Sections of pipes and ducts: area, mean speed, and the round duct that stands for another shape. */
import type { Area, Length, Ratio, Speed, VolumeFlow } from "../core/quantity/dimension.js";
import { brand } from "../core/quantity/si.js";
import { requireNotNegative, requirePositive, requireWithin } from "./domain.js";

/**
 * Area of a circle [m²]: A = π·D²/4.
 *
 * @param diameter - D, above 0 [m]
 * @throws RangeError when the diameter is not above 0
 * @example circleArea(0.1016) // 0.00810732
 */
export function circleArea(diameter: Length): Area {
  requirePositive("diameter", diameter);
  return brand<"area">((Math.PI / 4) * diameter * diameter);
}

/**
 * Mean speed over a section [m/s]: v = Q/A.
 *
 * @param flow - Q, volume flow at the state of the fluid in that section, 0 or more [m³/s]
 * @param area - A, above 0 [m²]
 * @throws RangeError when a value is out of its range
 * @example meanVelocity(0.0707921, 0.00810732) // 8.73187
 */
export function meanVelocity(flow: VolumeFlow, area: Area): Speed {
  requireNotNegative("volume flow", flow);
  requirePositive("area", area);
  return brand<"speed">(flow / area);
}

/**
 * Hydraulic diameter of a section [m]: D_h = 4·A/P. It goes into the Reynolds number and the friction gradient of a
 * section that is not round, with the true mean speed.
 *
 * @param area - A, area of the flow [m²]
 * @param perimeter - P, wetted length of the wall [m]
 * @throws RangeError when a value is not above 0
 * @example hydraulicDiameter(0.02, 0.6) // 0.13333
 */
export function hydraulicDiameter(area: Area, perimeter: Length): Length {
  requirePositive("area", area);
  requirePositive("perimeter", perimeter);
  return brand<"length">((4 * area) / perimeter);
}

/**
 * Diameter of the round duct with the friction loss of a rectangular one at the same volume flow [m].
 *
 * D_e = 1.30·(a·b)^0.625 / (a + b)^0.25. Not the hydraulic diameter, which belongs with the same speed.
 *
 * @param a - one side [m]
 * @param b - the other side [m]
 * @throws RangeError when a side is not above 0
 * @see R. G. Huebscher, ASHVE Transactions 54 (1948), 101; formula seen in a handbook of heating and air conditioning
 * @example equalFrictionDiameter(0.0826, 0.254) // 0.15251
 */
export function equalFrictionDiameter(a: Length, b: Length): Length {
  requirePositive("side a", a);
  requirePositive("side b", b);
  return brand<"length">((1.3 * (a * b) ** 0.625) / (a + b) ** 0.25);
}

/**
 * Diameter of the round duct with the friction loss of a flat oval one at the same volume flow [m].
 *
 * D_e = 1.55·A^0.625 / P^0.25, with A = π·h²/4 + h·(w − h) and P = π·h + 2·(w − h).
 *
 * @param width - w, the greater outer measure of the section [m]
 * @param height - h, the smaller one, at most the width [m]
 * @throws RangeError when the height is not above 0 or exceeds the width
 * @see J. R. Heyt and J. M. Diaz, ASHRAE Transactions 81 (1975), part 2, 221 (from memory)
 * @example equalFrictionOvalDiameter(0.2, 0.1) // 0.147874
 */
export function equalFrictionOvalDiameter(width: Length, height: Length): Length {
  requirePositive("height", height);
  if (!(width >= height && width < Infinity)) {
    throw new RangeError(`width must be at least the height and finite (got ${width} with height ${height})`);
  }
  const area = (Math.PI / 4) * height * height + height * (width - height);
  const perimeter = Math.PI * height + 2 * (width - height);
  return brand<"length">((1.55 * area ** 0.625) / perimeter ** 0.25);
}

/**
 * Share of its area that a flattened round duct keeps, and of its hydraulic diameter, a ratio.
 *
 * A/A₀ = 2x − x² with x = h/D: the wall keeps its length and becomes two half circles joined by flats. The hydraulic
 * diameter falls in the same ratio, as the perimeter stays.
 *
 * @param heightLeft - x, height after flattening over the diameter, above 0 to 1
 * @throws RangeError outside that range
 * @example flattenedAreaRatio(0.5) // 0.75
 */
export function flattenedAreaRatio(heightLeft: Ratio): Ratio {
  requirePositive("height left", heightLeft);
  requireWithin("height left", heightLeft, 0, 1);
  return brand<"ratio">(2 * heightLeft - heightLeft * heightLeft);
}
