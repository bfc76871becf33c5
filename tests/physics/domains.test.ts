/**
 * Every argument of a formula has the range that its doc comment states: outside it the formula refuses, naming the
 * argument, and both ends of the range that belong to it are taken. Ranges from the comments, which give their sources.
 */
import { describe, expect, test } from "vitest";
import * as physics from "../../src/physics/index.js";

/** Above 0; at least 0; both of them finite, or Infinity too; any finite number; from one number to another, both included. */
type Range =
  | "above 0"
  | "0 or more"
  | "above 0, endless"
  | "0 or more, endless"
  | "finite"
  | readonly [from: number, to: number];

/** A value that will do, the range, and a word of the message when it is left. */
type Argument = readonly [value: number, range: Range, named: RegExp];

/** A function of plain numbers; brands are the compiler's affair. */
type Formula = (...values: never[]) => unknown;

const refused = (range: Range): number[] => {
  if (range === "finite") return [Number.NaN, Infinity, -Infinity];
  if (typeof range === "string") {
    const low = range.startsWith("above") ? [0, -1] : [-1e-6, -1];
    return [...low, Number.NaN, ...(range.endsWith("endless") ? [] : [Infinity])];
  }
  const [from, to] = range;
  const beyond = to === Number.MAX_VALUE ? [Infinity] : [to + 1e-6 * Math.abs(to), 2 * to + 1];
  return [from - 1e-6 * Math.max(1, Math.abs(from)), ...beyond, Number.NaN];
};

/** Ends that belong to a range. A least number above 0 is none: it may take the answer out of every range. */
const taken = (range: Range): number[] => {
  if (range === "finite") return [0, -1];
  if (typeof range === "string") return range.startsWith("above") ? [] : [0];
  return range[1] === Number.MAX_VALUE ? [range[0]] : [...range];
};

const kelvin = (celsius: number) => celsius + 273.15;
const above = "above 0";
const orZero = "0 or more";
const aboveEndless = "above 0, endless";
const orZeroEndless = "0 or more, endless";

const wall = (diameter: number, insideFilm: number, outsideFilm: number, thickness: number, conductivity: number) =>
  physics.ductTransmittance({ diameter, insideFilm, outsideFilm, layers: [{ thickness, conductivity }] } as never);
const along = (inlet: number, ambient: number, transmittance: number, diameter: number, capacity: number, x: number) =>
  physics.temperatureAlong({ inlet, ambient, transmittance, diameter, capacity } as never, x as never);
const scaled = (speed: number, size: number, density: number) =>
  physics.scaledFan({ flow: 1, pressure: 1, power: 1 } as never, { speed, size, density });
const sector = (radius: number, from = 0, x = 0, y = 0) =>
  ({ radius, from, sweep: 1, centre: { x, y } }) as unknown as physics.Sector;
const leaf = (length: number, ahead = 0.02, behind = 0.02, closed = 0, x = 0, y = 0) =>
  ({ length, ahead, behind, closed, way: 1, hinge: { x, y }, opening: 1.5 }) as unknown as physics.Leaf;
const square = physics.boxPolygon(physics.box(2, 2, 1, 1));
const travel = { least: 0, most: 0.02 } as unknown as physics.FootTravel;
const steel = { diameter: 0.02, wall: 1e-3, bulkModulus: 2.2e9, density: 998 };
const gas = (cr: number, y = 1) => ({ cr, y });
const wave = (diameter: number, wall: number, bulkModulus: number, density: number, restraint: number) =>
  physics.waveSpeed({ diameter, wall, modulus: 1e11, bulkModulus, density, restraint } as never);
const closure = (density: number, waveSpeed: number, stopped: number, length: number, time: number) =>
  physics.closurePressure({ density, waveSpeed, stopped, length, time } as never);
const gradient = (velocity: number, diameter: number, roughness: number, density: number, viscosity: number) =>
  physics.frictionGradient({ velocity, diameter, roughness, density, viscosity } as never);
const grashof = (
  surface: number,
  ambient: number,
  length: number,
  density: number,
  viscosity: number,
  prandtl: number,
) => physics.rayleigh({ surface, ambient, length, density, viscosity, prandtl } as never);
const bend = (angle: number, radiusRatio: number, re: number, relativeRoughness: number, factor: number) =>
  physics.idelchikBend({ angle, radiusRatio, re, relativeRoughness, factor } as never);
const leak = (volume: number, p: number, t: number, later: number, warmer: number, time: number) =>
  physics.leakRate(
    volume as never,
    { pressure: p, temperature: t } as never,
    { pressure: later, temperature: warmer } as never,
    time as never,
  );

const formulas: readonly (readonly [name: string, formula: Formula, ...args: Argument[]])[] = [
  ["circleArea", physics.circleArea, [0.1, above, /diameter/]],
  ["meanVelocity", physics.meanVelocity, [0.05, orZero, /volume flow/], [0.01, above, /area/]],
  ["hydraulicDiameter", physics.hydraulicDiameter, [0.01, above, /area/], [0.4, above, /perimeter/]],
  ["equalFrictionDiameter", physics.equalFrictionDiameter, [0.1, above, /side a/], [0.2, above, /side b/]],
  ["flattenedAreaRatio", physics.flattenedAreaRatio, [0.8, above, /height left/]],
  [
    "stackPressure",
    physics.stackPressure,
    [1.2, above, /density outside/],
    [1.1, above, /density inside/],
    [3, "finite", /height/],
  ],
  [
    "windPressure",
    physics.windPressure,
    [1.2, above, /density/],
    [5, orZero, /wind speed/],
    [0.6, "finite", /coefficient/],
  ],
  [
    "ductTransmittance",
    wall,
    [0.1, above, /diameter/],
    [10, above, /inside film/],
    [8, above, /outside film/],
    [0.025, above, /thickness/],
    [0.04, above, /conductivity/],
  ],
  ["heatCapacityFlow", physics.heatCapacityFlow, [0.05, above, /dry air/], [0.01, orZero, /humidity ratio/]],
  [
    "temperatureAlong",
    along,
    [330, above, /inlet/],
    [280, above, /ambient/],
    [5, above, /transmittance/],
    [0.1, above, /diameter/],
    [50, above, /capacity/],
    [3, orZero, /distance/],
  ],
  [
    "distanceTo",
    (t) => physics.distanceTo({ inlet: 330, ambient: 280, transmittance: 5, diameter: 0.1, capacity: 50 } as never, t),
    [300, above, /temperature/],
  ],
  [
    "wallTemperature",
    (air, ambient, u) => physics.wallTemperature(air, ambient, u, 10),
    [330, above, /air temperature/],
    [280, above, /ambient/],
    [5, above, /transmittance/],
  ],
  [
    "condensationRate",
    (flow, ratio) => physics.condensationRate(flow, ratio, kelvin(20) as never, 101325 as never),
    [0.05, above, /dry air/],
    [0.03, orZero, /humidity ratio/],
  ],
  ["standardElbow", (f) => physics.standardElbow((Math.PI / 2) as never, f), [0.02, above, /friction factor/]],
  ["smoothElbow", (f) => physics.smoothElbow(1.5 as never, f), [0.02, above, /friction factor/]],
  ["scaledFan", scaled, [1.1, above, /speed ratio/], [1.2, above, /size ratio/], [0.9, above, /density ratio/]],
  ["airPower", physics.airPower, [0.05, orZero, /volume flow/], [100, orZero, /pressure/]],
  ["suddenExpansion", physics.suddenExpansion, [0.5, above, /area ratio/]],
  ["sharpOrifice", physics.sharpOrifice, [0.5, above, /area ratio/]],
  ["bellmouthEntry", physics.bellmouthEntry, [0.1, [0, Number.MAX_VALUE], /mouth radius/]],
  ["proudEntry", physics.proudEntry, [0.1, [0, Number.MAX_VALUE], /out of the wall/]],
  [
    "reynolds",
    physics.reynolds,
    [5, orZero, /velocity/],
    [0.1, above, /diameter/],
    [1.2, above, /density/],
    [1.8e-5, above, /viscosity/],
  ],
  ["colebrook", physics.colebrook, [1e5, [2040, Number.MAX_VALUE], /Reynolds/], [1e-4, [0, 0.05], /roughness/]],
  ["churchill", physics.churchill, [1e5, above, /Reynolds/], [1e-4, [0, 0.05], /roughness/]],
  ["darcyFactor", physics.darcyFactor, [1e5, above, /Reynolds/], [1e-4, [0, 0.05], /roughness/]],
  ["fullyRoughFactor", physics.fullyRoughFactor, [1e-4, above, /roughness/]],
  [
    "frictionGradient",
    gradient,
    [5, orZero, /velocity/],
    [0.1, above, /diameter/],
    [0, orZero, /roughness/],
    [1.2, above, /density/],
    [1.8e-5, above, /viscosity/],
  ],
  ["velocityPressure", physics.velocityPressure, [1.2, orZero, /density/], [5, orZero, /velocity/]],
  [
    "fittingLoss",
    physics.fittingLoss,
    [0.5, orZero, /loss coefficient/],
    [1.2, orZero, /density/],
    [5, orZero, /velocity/],
  ],
  [
    "equivalentLength",
    physics.equivalentLength,
    [0.5, orZero, /loss coefficient/],
    [0.1, above, /diameter/],
    [0.02, above, /friction factor/],
  ],
  [
    "lowPressureGasFlow",
    (d, drop, length, cr) => physics.lowPressureGasFlow(d, drop, length, gas(cr)),
    [0.02, above, /diameter/],
    [75, above, /pressure drop/],
    [10, above, /length/],
    [0.6, above, /Cr/],
  ],
  [
    "lowPressureGasDrop",
    (flow, d, length, cr) => physics.lowPressureGasDrop(flow, d, length, gas(cr)),
    [1e-3, orZero, /gas flow/],
    [0.02, above, /diameter/],
    [10, orZero, /length/],
    [0.6, above, /Cr/],
  ],
  [
    "highPressureGasFlow",
    (d, outlet, length, cr, y) => physics.highPressureGasFlow(d, 2e5 as never, outlet, length, gas(cr, y)),
    [0.02, above, /diameter/],
    [1.5e5, above, /outlet pressure|inlet pressure/],
    [10, above, /length/],
    [0.6, above, /Cr/],
    [1, above, /factor Y/],
  ],
  [
    "highPressureGasOutlet",
    (flow, d, inlet, length, cr, y) => physics.highPressureGasOutlet(flow, d, inlet, length, gas(cr, y)),
    [1e-3, orZero, /gas flow/],
    [0.02, above, /diameter/],
    [2e5, above, /inlet pressure/],
    [10, orZero, /length/],
    [0.6, above, /Cr/],
    [1, above, /factor Y/],
  ],
  [
    "closedGasPressure",
    physics.closedGasPressure,
    [1e5, above, /pressure/],
    [290, above, /before/],
    [300, above, /after/],
  ],
  [
    "leakRate",
    leak,
    [1, above, /volume/],
    [1e5, above, /pressure/],
    [290, above, /temperature/],
    [0.99e5, above, /pressure/],
    [291, above, /temperature/],
    [600, above, /time/],
  ],
  ["pipeFill", physics.pipeFill, [0.05, above, /diameter/], [0.5, [0, 1], /depth/]],
  [
    "manningVelocity",
    physics.manningVelocity,
    [0.0125, orZero, /hydraulic radius/],
    [0.02, orZero, /slope/],
    [0.01, above, /Manning/],
  ],
  [
    "drainDepth",
    (flow, slope) => physics.drainDepth({ diameter: 0.05, slope, roughness: 0.01 } as never, flow),
    [5e-4, orZero, /volume flow/],
    [0.02, above, /slope/],
  ],
  ["stackFlow", physics.stackFlow, [0.1, above, /diameter/], [0.25, [0, 1], /share/]],
  [
    "hazenWilliamsHead",
    physics.hazenWilliamsHead,
    [1e-3, orZero, /volume flow/],
    [0.02, above, /diameter/],
    [10, orZero, /length/],
    [140, above, /Hazen/],
  ],
  [
    "filmCoefficient",
    physics.filmCoefficient,
    [50, above, /Nusselt/],
    [0.026, above, /conductivity/],
    [0.1, above, /length/],
  ],
  [
    "dittusBoelter",
    (re, pr) => physics.dittusBoelter(re, pr, "cools"),
    [2e4, [1e4, Number.MAX_VALUE], /Reynolds/],
    [0.7, [0.6, 160], /Prandtl/],
  ],
  [
    "gnielinski",
    physics.gnielinski,
    [2e4, [3e3, 5e6], /Reynolds/],
    [0.7, [0.5, 2000], /Prandtl/],
    [0.026, above, /friction factor/],
  ],
  [
    "rayleigh",
    grashof,
    [320, above, /surface/],
    [290, above, /ambient/],
    [0.1, above, /length/],
    [1.1, above, /density/],
    [1.9e-5, above, /viscosity/],
    [0.7, above, /Prandtl/],
  ],
  ["freeCylinder", physics.freeCylinder, [1e5, [0, 1e12], /Rayleigh/], [0.7, above, /Prandtl/]],
  ["freePlate", physics.freePlate, [1e5, [0, 1e12], /Rayleigh/], [0.7, above, /Prandtl/]],
  [
    "radiationFilm",
    physics.radiationFilm,
    [0.9, [0, 1], /emissivity/],
    [320, above, /surface/],
    [290, above, /surroundings/],
  ],
  [
    "idelchikBend",
    bend,
    [Math.PI / 2, [0, Math.PI], /angle/],
    [1.5, [0.5, 40], /radius/],
    [1e5, [1e4, Number.MAX_VALUE], /Reynolds/],
    [1e-3, [0, 0.05], /roughness/],
    [0.02, above, /friction factor/],
  ],
  [
    "bendReynoldsFactor",
    physics.bendReynoldsFactor,
    [1e5, [1e4, Number.MAX_VALUE], /Reynolds/],
    [1.5, [0.5, 40], /radius/],
  ],
  [
    "bendRoughnessFactor",
    physics.bendRoughnessFactor,
    [1e5, [1e4, Number.MAX_VALUE], /Reynolds/],
    [1.5, [0.5, 40], /radius/],
    [1e-3, [0, 0.05], /roughness/],
  ],
  ["saturationPressure", physics.saturationPressure, [300, [173.15, 473.15], /temperature/]],
  ["dewPoint", physics.dewPoint, [1000, above, /vapour pressure/]],
  ["humidityRatio", (vapour) => physics.humidityRatio(vapour, 101325 as never), [1000, orZero, /vapour pressure/]],
  ["humidityRatio of a pressure", (p) => physics.humidityRatio(0 as never, p), [101325, above, /pressure/]],
  ["vapourPressure", physics.vapourPressure, [0.01, orZero, /humidity ratio/], [101325, above, /pressure/]],
  [
    "dryAirVolume",
    physics.dryAirVolume,
    [300, above, /temperature/],
    [0.01, orZero, /humidity ratio/],
    [101325, above, /pressure/],
  ],
  ["moistAirEnthalpy", physics.moistAirEnthalpy, [300, above, /temperature/], [0.01, orZero, /humidity ratio/]],
  ["latentHeat", physics.latentHeat, [300, [273.15, 373.15], /temperature/]],
  [
    "wetBulb",
    (t, ratio) => physics.wetBulb(t, ratio, 101325 as never),
    [300, [213.15, 473.15], /air temperature/],
    [0, orZero, /humidity ratio/],
  ],
  ["moistAir", (t) => physics.moistAir(t, 0 as never, 101325 as never), [300, [213.15, 473.15], /air temperature/]],
  ["wetBulb of a pressure", (p) => physics.wetBulb(kelvin(20) as never, 0, p), [101325, above, /pressure/]],
  [
    "waveSpeed",
    wave,
    [0.02, above, /diameter/],
    [1e-3, above, /wall thickness/],
    [2.2e9, above, /bulk modulus/],
    [998, above, /density/],
    [1, above, /restraint/],
  ],
  ["wavePeriod", physics.wavePeriod, [10, orZero, /length/], [1300, above, /wave speed/]],
  [
    "joukowsky",
    physics.joukowsky,
    [998, above, /density/],
    [1300, above, /wave speed/],
    [1, orZero, /speed of the water/],
  ],
  [
    "closurePressure",
    closure,
    [998, above, /density/],
    [1300, above, /wave speed/],
    [1, orZero, /speed of the water/],
    [10, orZero, /length/],
    [1, orZero, /closing time/],
  ],
  [
    "tippingForce",
    (w, h) => physics.tippingForce(w, 0.3 as never, h),
    [800, above, /weight/],
    [1, above, /push height/],
  ],
  ["tipAngle", (h) => physics.tipAngle(0.3 as never, h), [0.5, above, /centre height/]],
  ["slidingForce", (w) => physics.slidingForce(w, 0.4 as never), [800, above, /weight/]],
  ["unbalanced wheel step", (w) => physics.wheelStepForce(w, 0.1 as never, 0.02 as never), [800, above, /weight/]],
  ["draggingForce", (w) => physics.draggingForce(w, 0.3 as never, 0.2 as never, "up"), [800, above, /weight/]],
  ["massFrequency", physics.massFrequency, [0.001, above, /deflection/], [9.81, above, /gravity/]],
  ["tapeLimit", (l) => physics.tapeLimit("I", l, false), [2, orZero, /length/]],
  ["liftingFrequency", (rate) => physics.liftingFrequency(rate, 60 as never), [0.1, orZero, /rate/]],
  ["nearestShimStack", (gap) => physics.nearestShimStack(gap, [1, 2], 3), [2.5, orZero, /gap/]],
  [
    "doorClearWidth",
    (leaf, thickness, gap, stop) => physics.doorClearWidth({ leaf, thickness, gap, stop }, "off"),
    [0.8, aboveEndless, /leaf/],
    [0.04, orZeroEndless, /negative/],
    [0.003, orZeroEndless, /negative/],
    [0.012, orZeroEndless, /negative/],
  ],
  [
    "doorwaySlant",
    physics.doorwaySlant,
    [0.8, aboveEndless, /doorway/],
    [0.1, orZeroEndless, /doorway/],
    [0.6, orZeroEndless, /doorway/],
  ],
  [
    "corridorForDoorway",
    (clear, length, width) => physics.corridorForDoorway(clear, { length, width }),
    [0.8, aboveEndless, /doorway/],
    [1, above, /sizes above 0/],
    [0.6, above, /sizes above 0/],
  ],
  [
    "longestTurning",
    (first, second, width) => physics.longestTurning({ first, second }, width),
    [1, above, /corridors/],
    [0.9, above, /corridors/],
    [0.6, orZeroEndless, /width/],
  ],
  [
    "cornerClearance",
    (first, second, length, width) => physics.cornerClearance({ first, second }, { length, width }),
    [1, above, /corridors/],
    [0.9, above, /corridors/],
    [0.7, above, /box/],
    [0.6, orZero, /box/],
  ],
  [
    "sectorArea",
    (radius, from, x, y) => physics.sectorArea(sector(radius, from, x, y)),
    [1, above, /radius/],
    [0, "finite", /sector/],
    [0, "finite", /sector/],
    [0, "finite", /sector/],
  ],
  ["sectorPointDistance", (r) => physics.sectorPointDistance(sector(r), physics.point(3, 0)), [1, above, /radius/]],
  ["sectorPolygonDistance", (r) => physics.sectorPolygonDistance(sector(r), square), [1, above, /radius/]],
  ["sectorSharedArea", (r) => physics.sectorSharedArea(sector(r), square), [1, above, /radius/]],
  ["sectorsMeet", (r, s) => physics.sectorsMeet(sector(r), sector(s)), [1, above, /radius/], [1, above, /radius/]],
  [
    "leafOutline",
    (length, ahead, behind, closed, x, y) => physics.leafOutline(leaf(length, ahead, behind, closed, x, y), 0 as never),
    [0.7, above, /leaf/],
    [0.02, orZero, /leaf/],
    [0.04, orZero, /leaf/],
    [0, "finite", /leaf/],
    [0, "finite", /leaf/],
    [0, "finite", /leaf/],
  ],
  ["leafEnvelope", (length) => physics.leafEnvelope(leaf(length)), [0.7, above, /leaf/]],
  ["freeOpening", (length) => physics.freeOpening(leaf(length), []), [0.7, above, /leaf/]],
  [
    "turnedRectangle",
    (width, depth) => physics.turnedRectangle(physics.point(0, 0), width, depth, 0 as never),
    [1, aboveEndless, /rectangle/],
    [1, aboveEndless, /rectangle/],
  ],
  [
    "freePlaces",
    (width, depth) => physics.freePlaces(width, depth, physics.box(0, 0, 3, 3), []),
    [1, above, /size/],
    [1, above, /size/],
  ],
  ["freeSpans", (size) => physics.freeSpans(size, { from: 0 as never, to: 3 as never }, []), [1, above, /size/]],
  ["box", (width, depth) => physics.box(0, 0, width, depth), [1, orZeroEndless, /box/], [1, orZeroEndless, /box/]],
  ["tiltedHeight", physics.tiltedHeight, [1, above, /box/], [0.6, above, /box/], [0.3, [0, Math.PI / 2], /tilt/]],
  ["tooTallBetween", physics.tooTallBetween, [1.8, above, /box/], [0.6, above, /box/], [2, aboveEndless, /headroom/]],
  ["stairNeedAlong", (t) => physics.stairNeedAlong(t, 0.6 as never), [0.6, above, /box/]],
  ["stairNeedUpright", (h, d) => physics.stairNeedUpright(h, d, 0.6 as never), [1, above, /box/], [0.6, above, /box/]],
  [
    "lowerCarrierShare",
    (hold) => physics.lowerCarrierShare(0.6 as never, hold, 0.5 as never),
    [0.6, aboveEndless, /hands/],
  ],
  [
    "wheelStepForce",
    physics.wheelStepForce,
    [800, above, /weight/],
    [0.1, aboveEndless, /wheel/],
    [0.02, orZeroEndless, /step/],
  ],
  [
    "handTruckForce",
    (weight, along, inFront, handle, tilt) => physics.handTruckForce(weight, { along, inFront, handle }, tilt),
    [800, above, /weight/],
    [0.5, aboveEndless, /load/],
    [0.2, orZeroEndless, /load/],
    [1.2, aboveEndless, /load/],
    [0.3, [0, Math.PI / 2], /tilt/],
  ],
  [
    "feetReactions",
    (weight, stiffness, width, depth) =>
      physics.feetReactions(weight, physics.point(0, 0), { width, depth }, stiffness, [0, 0, 0, 0] as never),
    [800, above, /weight/],
    [1e5, above, /stiffness/],
    [0.5, aboveEndless, /feet/],
    [0.5, aboveEndless, /feet/],
  ],
  [
    "footPlane",
    (width, depth) => physics.footPlane([0, 0, 0, 0] as never, { width, depth }),
    [0.5, above, /feet/],
    [0.5, above, /feet/],
  ],
  [
    "carriedHeights",
    (across, back, gap) =>
      physics.carriedHeights({ width: 0.5, depth: 0.5 } as never, { across, back }, { foot: 1, gap }),
    [0.01, "finite", /slope/],
    [0.01, "finite", /slope/],
    [0.002, orZero, /gap/],
  ],
  [
    "floorHeights",
    (carried, extension) => physics.floorHeights([0, 0, 0, carried] as never, [0, 0, extension, 0] as never),
    [0.01, "finite", /carried/],
    [0.01, "finite", /extensions/],
  ],
  [
    "levelStance",
    (floor, extension) =>
      physics.levelStance([0, floor, 0, 0] as never, [0, 0, extension, 0] as never, travel, "lowest"),
    [0.001, "finite", /floor/],
    [0.01, "finite", /extensions/],
  ],
  [
    "slopedStance",
    (floor, extension, least, limit) =>
      physics.slopedStance(
        [0, floor, 0, 0] as never,
        [0, 0, extension, 0] as never,
        { least, most: 0.02 as never },
        { width: 0.5, depth: 0.5 } as never,
        { across: limit, back: limit },
      ),
    [0.001, "finite", /floor/],
    [0.01, "finite", /extensions/],
    [0, orZero, /travel/],
    [0.01, orZeroEndless, /slope limit/],
  ],
  ["vialRadius", physics.vialRadius, [1e-4, aboveEndless, /tilt/], [0.002, aboveEndless, /division/]],
  ["vialTilt", (r) => physics.vialTilt(0.002 as never, r), [20, aboveEndless, /radius/]],
  ["waveSpeed of a wall", (e) => physics.waveSpeed({ ...steel, modulus: e } as never), [2e11, aboveEndless, /Young/]],
  [
    "threadStressArea",
    (d, p) => physics.threadStressArea(d, p, "metric"),
    [0.008, above, /thread/],
    [0.00125, above, /thread/],
  ],
  [
    "engagementForStrength",
    (area, kn, pitch) =>
      physics.engagementForStrength(area, pitch, { leastPitchDiameter: 0.0071 as never, greatestMinorDiameter: kn }),
    [3.6e-5, aboveEndless, /area/],
    [0.0069, above, /thread|minor/],
    [0.00125, above, /thread/],
  ],
  [
    "unbalanceForce",
    physics.unbalanceForce,
    [2, orZeroEndless, /at least 0/],
    [0.25, orZeroEndless, /at least 0/],
    [20, orZeroEndless, /at least 0/],
  ],
  ["beamFrequency", physics.beamFrequency, [0.001, above, /deflection/], [9.81, above, /gravity/]],
  ["floorFrequency", (girder) => physics.floorFrequency(0.001 as never, girder), [0.001, orZero, /deflection/]],
  [
    "dunkerleyFrequency",
    (a, b) => physics.dunkerleyFrequency([a, b]),
    [8, aboveEndless, /frequencies/],
    [12, aboveEndless, /frequencies/],
  ],
  ["usTapeLimit", physics.usTapeLimit, [2, orZero, /length|100 ft/]],
  ["tippingForce by lever", (l) => physics.tippingForce(800 as never, l, 1 as never), [0.3, orZeroEndless, /lever/]],
  ["tipAngle by lever", (l) => physics.tipAngle(l, 0.5 as never), [0.3, orZeroEndless, /lever/]],
  ["slidingForce by friction", (f) => physics.slidingForce(800 as never, f), [0.3, orZeroEndless, /friction/]],
  [
    "draggingForce by friction",
    (f) => physics.draggingForce(800 as never, 0.3 as never, f, "up"),
    [0.3, orZeroEndless, /friction/],
  ],
  ["standardOfLimits", physics.standardOfLimits, [0.1, orZero, /spread/]],
  ["guardBand", (u) => physics.guardBand(u, 0.95 as never), [0.1, orZeroEndless, /uncertainty/]],
  ["brent by its tolerance", (t) => physics.brent((x) => x - 0.3, 0, 1, t), [1e-9, orZeroEndless, /tolerance/]],
  [
    "liftingDuration",
    (work, recovery) => physics.liftingDuration([{ work, recovery }]),
    [1800, orZero, /work/],
    [600, orZero, /recovery/],
  ],
  [
    "horizontalEstimate",
    (width, vertical) => physics.horizontalEstimate(width, vertical, "metric"),
    [0.4, orZero, /width/],
    [0.5, orZero, /hand height/],
  ],
  [
    "liftingLimit",
    (horizontal, vertical, travel, asymmetry, frequency) =>
      physics.liftingLimit(
        { horizontal, vertical, travel, asymmetry, frequency, duration: "short", grip: "good" },
        "metric",
      ),
    [0.4, orZero, /horizontal/],
    [0.5, orZero, /hand height/],
    [0.5, orZero, /travel/],
    [0.1, orZero, /asymmetry/],
    [0.05, orZero, /frequency/],
  ],
  ["liftingFrequency by minutes", (t) => physics.liftingFrequency(0.1 as never, t), [60, [0, 900], /15 min/]],
];

describe.each(formulas.map(([name, formula, ...args]) => ({ name, formula, args })))("$name", ({ formula, args }) => {
  const call = (values: readonly number[]) => () => (formula as (...values: number[]) => unknown)(...values);
  const good = args.map(([value]) => value);

  test("takes what lies within every range", () => {
    expect(call(good)).not.toThrow();
  });

  test.each(args.map(([, range, named], i) => ({ i, range, named })))(
    "refuses argument $i outside $range and takes the ends",
    ({ i, range, named }) => {
      for (const value of refused(range)) {
        expect(call(good.with(i, value)), `${value}`).toThrow(RangeError);
        expect(call(good.with(i, value)), `${value}`).toThrow(named);
      }
      for (const value of taken(range)) expect(call(good.with(i, value)), `${value}`).not.toThrow();
    },
  );
});
