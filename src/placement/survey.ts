/** Placement's part of a survey, in the order one walks the site: the way in, the place, the doors, the feet. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { bodyInput } from "./body.js";
import { clearanceEnvelope, clearanceEnvelopeInput } from "./clearance-envelope.js";
import { clearances, clearancesInput } from "./clearances.js";
import { connectionsBehind, connectionsBehindInput } from "./connections-behind.js";
import { doorSwing, doorSwingInput } from "./door-swing.js";
import { floor, floorInput } from "./floor.js";
import { handling, handlingInput } from "./handling.js";
import { levelFeet, levelFeetInput } from "./level-feet.js";
import { passage, passageInput } from "./passage.js";
import { reach, reachInput } from "./reach.js";
import { rock, rockInput } from "./rock.js";
import { shims, shimsInput } from "./shims.js";
import { stability, stabilityInput } from "./stability.js";
import { tiltHeadroom, tiltHeadroomInput } from "./tilt-headroom.js";

const way = passageInput.shape;
const tip = tiltHeadroomInput.shape;
const plan = clearanceEnvelopeInput.shape;
const site = clearancesInput.shape;
const swing = doorSwingInput.shape;
const level = levelFeetInput.shape;
const feet = rockInput.shape;
const under = floorInput.shape;
const carry = handlingInput.shape;
const access = reachInput.shape;
const stands = stabilityInput.shape;
const pieces = shimsInput.shape;

/** Placement's part of a survey: its fields, and where each entry takes its inputs from. */
export const placementPart = definePart({
  trade: "placement",
  site: z.strictObject({
    way: way.way,
    carrying: z
      .strictObject({ inCarton: way.inCarton, feetOff: way.feetOff, truckTilt: way.truckTilt, hands: way.hands })
      .optional()
      .describe("How the machine is brought in"),
    tipping: z
      .strictObject({ headroom: tip.headroom, edge: tip.edge, from: tip.from, to: tip.to })
      .optional()
      .describe("Where the machine is tipped, laid down or stood up"),
    handling: z
      .strictObject({ lift: carry.lift, slope: carry.slope, truck: carry.truck, carriers: carry.carriers })
      .optional()
      .describe("How it is lifted, pulled or carried"),
    place: site.place,
    opening: site.opening,
    gaps: site.gaps,
    connections: site.connections,
    lines: connectionsBehindInput.shape.lines,
    overhead: site.overhead,
    closetDoor: site.closetDoor,
    workingSpace: site.workingSpace,
    facing: swing.facing,
    sideWallsEnd: swing.sideWallsEnd,
    things: swing.things,
    roomDoor: swing.roomDoor,
    plan: z
      .strictObject({ room: plan.room, things: plan.things, doors: plan.doors, panels: plan.panels })
      .optional()
      .describe("The room seen from above, with everything in it"),
    floor: z
      .strictObject({
        floor: under.floor,
        room: under.room,
        joists: under.joists,
        covering: under.covering,
        slope: under.slope,
        runs: under.runs,
      })
      .optional()
      .describe("The floor under the machine"),
    level: z
      .strictObject({ reading: level.reading, rocks: level.rocks, extended: level.extended, aim: level.aim })
      .optional()
      .describe("How the machine stands on its feet"),
    drops: feet.drops,
    shims: z
      .strictObject({ lifts: pieces.lifts, sizes: pieces.sizes, mostPieces: pieces.mostPieces, piece: pieces.piece })
      .optional()
      .describe("Shims, where the feet run out of thread"),
    standing: z
      .strictObject({
        slope: stands.slope,
        push: stands.push,
        doorLoad: stands.doorLoad,
        antiTip: stands.antiTip,
        stackingKit: stands.stackingKit,
      })
      .optional()
      .describe("What may tip it, and what holds it"),
    access: z
      .strictObject({
        standard: access.standard,
        openings: access.openings,
        controls: access.controls,
        over: access.over,
        floor: access.floor,
        force: access.force,
      })
      .optional()
      .describe("Reach for someone in a wheelchair, where a document asks for it"),
  }),
  machine: {
    body: bodyInput,
    carton: way.carton,
    feetHeight: way.feetHeight,
    lying: way.lying,
    door: swing.door,
    mass: feet.mass,
    contents: under.contents,
    spin: under.spin,
    centreHeight: stands.centreHeight,
    lever: stands.lever,
    loads: access.loads,
    feet: level.feet,
    centre: feet.centre,
    foot: z
      .strictObject({
        thread: level.thread,
        lead: level.lead,
        screw: level.screw,
        stiffness: feet.stiffness,
        pad: pieces.pad,
        travel: under.travel,
      })
      .optional()
      .describe("The screw feet"),
  },
  uses: [
    {
      entry: passage,
      from: {
        body: "machine.body",
        carton: "machine.carton",
        inCarton: "placement.carrying.inCarton",
        feetHeight: "machine.feetHeight",
        feetOff: "placement.carrying.feetOff",
        lying: "machine.lying",
        truckTilt: "placement.carrying.truckTilt",
        hands: "placement.carrying.hands",
        way: "placement.way",
      },
    },
    {
      entry: tiltHeadroom,
      from: {
        body: "machine.body",
        headroom: "placement.tipping.headroom",
        edge: "placement.tipping.edge",
        from: "placement.tipping.from",
        to: "placement.tipping.to",
      },
    },
    {
      entry: clearances,
      from: {
        kind: "machine.kind",
        fuel: "machine.fuel",
        place: "placement.place",
        body: "machine.body",
        opening: "placement.opening",
        gaps: "placement.gaps",
        connections: "placement.connections",
        overhead: "placement.overhead",
        closetDoor: "placement.closetDoor",
        workingSpace: "placement.workingSpace",
      },
    },
    {
      entry: connectionsBehind,
      from: {
        kind: "machine.kind",
        fuel: "machine.fuel",
        body: "machine.body",
        depth: "placement.opening.depth",
        gaps: "placement.gaps",
        lines: "placement.lines",
      },
    },
    {
      entry: doorSwing,
      from: {
        kind: "machine.kind",
        body: "machine.body",
        door: "machine.door",
        gaps: "placement.gaps",
        facing: "placement.facing",
        sideWallsEnd: "placement.sideWallsEnd",
        things: "placement.things",
        roomDoor: "placement.roomDoor",
      },
    },
    {
      entry: clearanceEnvelope,
      from: {
        room: "placement.plan.room",
        things: "placement.plan.things",
        doors: "placement.plan.doors",
        panels: "placement.plan.panels",
      },
    },
    {
      entry: levelFeet,
      from: {
        feet: "machine.feet",
        reading: "placement.level.reading",
        rocks: "placement.level.rocks",
        thread: "machine.foot.thread",
        lead: "machine.foot.lead",
        extended: "placement.level.extended",
        screw: "machine.foot.screw",
        aim: "placement.level.aim",
      },
    },
    {
      entry: rock,
      from: {
        feet: "machine.feet",
        drops: "placement.drops",
        extended: "placement.level.extended",
        rocks: "placement.level.rocks",
        mass: "machine.mass",
        centre: "machine.centre",
        stiffness: "machine.foot.stiffness",
        thread: "machine.foot.thread",
        lead: "machine.foot.lead",
      },
    },
    {
      entry: shims,
      from: {
        lifts: "placement.shims.lifts",
        sizes: "placement.shims.sizes",
        mostPieces: "placement.shims.mostPieces",
        piece: "placement.shims.piece",
        pad: "machine.foot.pad",
      },
    },
    {
      entry: handling,
      from: {
        mass: "machine.mass",
        lift: "placement.handling.lift",
        slope: "placement.handling.slope",
        truck: "placement.handling.truck",
        carriers: "placement.handling.carriers",
      },
    },
    {
      entry: floor,
      from: {
        kind: "machine.kind",
        floor: "placement.floor.floor",
        room: "placement.floor.room",
        mass: "machine.mass",
        contents: "machine.contents",
        joists: "placement.floor.joists",
        pad: "machine.foot.pad",
        covering: "placement.floor.covering",
        spin: "machine.spin",
        slope: "placement.floor.slope",
        runs: "placement.floor.runs",
        feet: "machine.feet",
        travel: "machine.foot.travel",
      },
    },
    {
      entry: stability,
      from: {
        kind: "machine.kind",
        body: "machine.body",
        mass: "machine.mass",
        centreHeight: "machine.centreHeight",
        lever: "machine.lever",
        slope: "placement.standing.slope",
        push: "placement.standing.push",
        doorLoad: "placement.standing.doorLoad",
        antiTip: "placement.standing.antiTip",
        stackingKit: "placement.standing.stackingKit",
      },
    },
    {
      entry: reach,
      from: {
        kind: "machine.kind",
        standard: "placement.access.standard",
        loads: "machine.loads",
        openings: "placement.access.openings",
        controls: "placement.access.controls",
        over: "placement.access.over",
        floor: "placement.access.floor",
        force: "placement.access.force",
      },
    },
  ],
});
