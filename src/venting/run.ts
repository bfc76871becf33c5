/** The air's side of a duct: what each piece of a run costs at a flow. Numerics only, SI. */
import {
  type Angle,
  brand,
  type Density,
  inUnit,
  type Length,
  type Pressure,
  type Ratio,
  type Speed,
  type Viscosity,
  type VolumeFlow,
} from "../core/quantity/index.js";
import {
  bendReynoldsFactor,
  circleArea,
  darcyFactor,
  fittingLoss,
  flattenedAreaRatio,
  frictionLoss,
  meanVelocity,
  mitreBend,
  reynolds,
  roundedBend,
  sharpOrifice,
  suddenContraction,
  suddenExpansion,
  velocityPressure,
} from "../physics/index.js";
import { adjustableJoints, compression as fit } from "./tables/roughness.js";

/** One piece of a run in the direction of the air. */
export type Piece =
  | { readonly piece: "straight"; readonly length: Length; readonly roughness: Length }
  | {
      readonly piece: "flexible";
      readonly length: Length;
      readonly roughness: Length;
      /** Share of its stretched length by which it is pushed together. */
      readonly compression: Ratio;
    }
  | {
      readonly piece: "elbow";
      readonly make: "single mitre" | "adjustable" | "smooth";
      readonly angle: Angle;
      /** Centreline radius; for a smooth elbow. */
      readonly radius: Length;
    }
  | { readonly piece: "flat"; readonly length: Length; readonly heightLeft: Ratio; readonly roughness: Length }
  | { readonly piece: "obstruction"; readonly open: Ratio }
  | {
      readonly piece: "hood";
      /** Loss coefficient with the exit in it, so that the exit is counted once; at least 1. */
      readonly loss: number;
    };

/** The air in the duct. */
export interface DuctAir {
  readonly density: Density;
  readonly viscosity: Viscosity;
}

/** Lowest Reynolds number of the bend tables; below it their first column is held, which is too little by an unknown bit. */
const BEND_FLOOR = 1e4;
/** Roughest wall of the friction equation, as a share of the diameter. */
export const roughestShare = 0.05;

/**
 * Factor on the friction of a flexible duct that is not fully stretched, a number without a unit.
 *
 * 1 + 0.58·C·exp(−0.00496·D), C the compression in per cent, D in mm.
 *
 * @param compression - share of the stretched length, 0 to 1
 * @param diameter - inside diameter [m]
 * @example compressionFactor(0.15, 0.1) // 6.298
 */
export function compressionFactor(compression: Ratio, diameter: Length): number {
  return 1 + fit.a * (compression * 100) * Math.exp(-fit.b * inUnit(diameter, "mm"));
}

/**
 * Loss coefficient of an elbow of a dryer's duct, a number without a unit.
 *
 * Smooth: `roundedBend`. Single mitre: `mitreBend` times the factor for low Reynolds numbers. Adjustable:
 * three mitres of a third of the angle, each likewise; their nearness to each other is left out.
 *
 * @param make - how it is made
 * @param angle - change of direction [rad]
 * @param radiusRatio - centreline radius over diameter; only a smooth elbow's counts
 * @param re - Reynolds number
 * @param factor - Darcy friction factor of the duct
 * @example elbowLoss("single mitre", si(90, "deg"), 1, 1e6, 0.02) // 1.20208
 */
export function elbowLoss(
  make: "single mitre" | "adjustable" | "smooth",
  angle: Angle,
  radiusRatio: Ratio,
  re: number,
  factor: number,
): number {
  if (make === "smooth") return roundedBend(factor, angle, radiusRatio);
  const joints = make === "single mitre" ? 1 : adjustableJoints;
  const each = mitreBend(brand<"angle">(angle / joints));
  return joints * each * bendReynoldsFactor(Math.max(re, BEND_FLOOR), brand<"ratio">(0.5));
}

/** What the air in one piece does. */
export interface PieceLoss {
  /** Pressure lost in the piece [Pa]. */
  readonly loss: Pressure;
  /** Mean speed in it [m/s]. */
  readonly speed: Speed;
}

/**
 * Pressure lost in one piece [Pa], and the speed in it.
 *
 * @param piece - the piece
 * @param diameter - bore of the run [m]
 * @param air - density and viscosity
 * @param flow - volume flow, 0 or more [m³/s]
 */
export function pieceLoss(piece: Piece, diameter: Length, air: DuctAir, flow: VolumeFlow): PieceLoss {
  const speed = meanVelocity(flow, circleArea(diameter));
  if (flow === 0) return { loss: brand<"pressure">(0), speed };
  const { density, viscosity } = air;
  const rough = (roughness: Length, bore: Length) => brand<"length">(Math.min(roughness, roughestShare * bore));
  switch (piece.piece) {
    case "straight":
    case "flexible": {
      const roughness = rough(piece.roughness, diameter);
      const plain = frictionLoss({ velocity: speed, diameter, roughness, density, viscosity }, piece.length);
      const factor = piece.piece === "flexible" ? compressionFactor(piece.compression, diameter) : 1;
      return { loss: brand<"pressure">(plain * factor), speed };
    }
    case "elbow": {
      const re = reynolds(speed, diameter, density, viscosity);
      // The wall of an elbow is that of new metal; its roughness is felt by the bend formulas only through f.
      const f = darcyFactor(re, 9e-5 / diameter);
      const ratio = brand<"ratio">(Math.max(0.5, piece.radius / diameter));
      return { loss: fittingLoss(elbowLoss(piece.make, piece.angle, ratio, re, f), density, speed), speed };
    }
    case "flat": {
      const open = flattenedAreaRatio(piece.heightLeft);
      const narrow = brand<"speed">(speed / open);
      const bore = brand<"length">(diameter * open);
      const roughness = rough(piece.roughness, bore);
      const along = frictionLoss({ velocity: narrow, diameter: bore, roughness, density, viscosity }, piece.length);
      const ends = fittingLoss(suddenContraction(open) + suddenExpansion(open), density, narrow);
      return { loss: brand<"pressure">(along + ends), speed: narrow };
    }
    case "obstruction":
      return { loss: fittingLoss(sharpOrifice(piece.open), density, speed), speed };
    case "hood":
      return { loss: fittingLoss(piece.loss, density, speed), speed };
  }
}

/**
 * Pressure lost along a whole run [Pa], the velocity pressure lost at the exit included.
 *
 * @param pieces - in the direction of the air, the hood last
 * @param diameter - bore of the run [m]
 * @param air - density and viscosity
 * @param flow - volume flow, 0 or more [m³/s]
 */
export function runLoss(pieces: readonly Piece[], diameter: Length, air: DuctAir, flow: VolumeFlow): Pressure {
  return brand<"pressure">(pieces.reduce((sum, piece) => sum + pieceLoss(piece, diameter, air, flow).loss, 0));
}

/**
 * Static pressure at the start of a run that pushes a flow through it [Pa]: the loss less the velocity pressure there,
 * which the air brings along. This is what a gauge at the machine's outlet reads.
 *
 * @param pieces - in the direction of the air, the hood last
 * @param diameter - bore of the run [m]
 * @param air - density and viscosity
 * @param flow - volume flow, 0 or more [m³/s]
 */
export function backPressure(pieces: readonly Piece[], diameter: Length, air: DuctAir, flow: VolumeFlow): Pressure {
  const carried = velocityPressure(air.density, meanVelocity(flow, circleArea(diameter)));
  return brand<"pressure">(runLoss(pieces, diameter, air, flow) - carried);
}

/** Length of a piece along the run [m]; a fitting has none. */
export const lengthOf = (piece: Piece): number => ("length" in piece ? piece.length : 0);
