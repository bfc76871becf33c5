/** The dimensions that the trades measure, and the branded numbers that carry them. */

declare const dimensionOf: unique symbol;

/**
 * Every dimension, with the SI unit its numbers are in: `symbol` for people, `math` for mathjs.
 * A temperature is a point on the kelvin scale; a temperature difference is a separate dimension.
 */
export const dimensions = {
  length: { symbol: "m", math: "m" },
  area: { symbol: "m²", math: "m^2" },
  volume: { symbol: "m³", math: "m^3" },
  angle: { symbol: "rad", math: "rad" },
  slope: { symbol: "m/m", math: "m/m" },
  mass: { symbol: "kg", math: "kg" },
  force: { symbol: "N", math: "N" },
  torque: { symbol: "N·m", math: "N m" },
  pressure: { symbol: "Pa", math: "Pa" },
  pressureGradient: { symbol: "Pa/m", math: "Pa/m" },
  temperature: { symbol: "K", math: "K" },
  temperatureDifference: { symbol: "K", math: "K" },
  power: { symbol: "W", math: "W" },
  energy: { symbol: "J", math: "J" },
  voltage: { symbol: "V", math: "V" },
  current: { symbol: "A", math: "A" },
  resistance: { symbol: "Ω", math: "ohm" },
  resistancePerLength: { symbol: "Ω/m", math: "ohm/m" },
  volumeFlow: { symbol: "m³/s", math: "m^3/s" },
  massFlow: { symbol: "kg/s", math: "kg/s" },
  speed: { symbol: "m/s", math: "m/s" },
  time: { symbol: "s", math: "s" },
  frequency: { symbol: "Hz", math: "Hz" },
  density: { symbol: "kg/m³", math: "kg/m^3" },
  viscosity: { symbol: "Pa·s", math: "Pa s" },
  heatContent: { symbol: "J/m³", math: "J/m^3" },
  thermalResistance: { symbol: "m²·K/W", math: "m^2 K/W" },
  stiffness: { symbol: "N/m", math: "N/m" },
  ratio: { symbol: "", math: "" },
} as const;

/** The name of a dimension, for example `"length"`. */
export type Dimension = keyof typeof dimensions;

/**
 * A plain SI number that knows its dimension at compile time. It costs nothing at run time; the compiler refuses a
 * bare number, or a number of another dimension, in its place.
 */
export type Quantity<D extends Dimension> = number & { readonly [dimensionOf]: D };

/** A length [m]. */
export type Length = Quantity<"length">;
/** An area [m²]. */
export type Area = Quantity<"area">;
/** A volume [m³]. */
export type Volume = Quantity<"volume">;
/** A plane angle [rad]. */
export type Angle = Quantity<"angle">;
/** Rise over run [m/m]: the tangent of the angle. */
export type Slope = Quantity<"slope">;
/** A mass [kg]. */
export type Mass = Quantity<"mass">;
/** A force [N]. */
export type Force = Quantity<"force">;
/** A torque [N·m]. */
export type Torque = Quantity<"torque">;
/** A pressure, or a load on an area [Pa]. */
export type Pressure = Quantity<"pressure">;
/** A pressure loss per length of run [Pa/m]. */
export type PressureGradient = Quantity<"pressureGradient">;
/** A temperature on the kelvin scale [K]. */
export type Temperature = Quantity<"temperature">;
/** A difference between two temperatures [K]. */
export type TemperatureDifference = Quantity<"temperatureDifference">;
/** Real or apparent power [W or VA]. */
export type Power = Quantity<"power">;
/** An energy [J]. */
export type Energy = Quantity<"energy">;
/** A voltage [V]. */
export type Voltage = Quantity<"voltage">;
/** A current [A]. */
export type Current = Quantity<"current">;
/** A resistance, reactance or impedance [Ω]. */
export type Resistance = Quantity<"resistance">;
/** Resistance of a conductor per length of it [Ω/m]. */
export type ResistancePerLength = Quantity<"resistancePerLength">;
/** A volume flow [m³/s]. */
export type VolumeFlow = Quantity<"volumeFlow">;
/** A mass flow [kg/s]. */
export type MassFlow = Quantity<"massFlow">;
/** A speed [m/s]. */
export type Speed = Quantity<"speed">;
/** A duration [s]. */
export type Time = Quantity<"time">;
/** A frequency or speed of rotation [Hz, turns per second]. */
export type Frequency = Quantity<"frequency">;
/** A density [kg/m³]. */
export type Density = Quantity<"density">;
/** A dynamic viscosity [Pa·s]. */
export type Viscosity = Quantity<"viscosity">;
/** Heat in a volume of fuel [J/m³]. */
export type HeatContent = Quantity<"heatContent">;
/** Thermal resistance of an area [m²·K/W]. */
export type ThermalResistance = Quantity<"thermalResistance">;
/** Force per length of squeeze [N/m]. */
export type Stiffness = Quantity<"stiffness">;
/** A number without a unit, 1 being the whole. */
export type Ratio = Quantity<"ratio">;
