/** Placement's part of a survey, in the order one walks the site: the place, the doors, the feet. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { bodyInput } from "./body.js";
import { clearances, clearancesInput } from "./clearances.js";
import { doorSwing, doorSwingInput } from "./door-swing.js";
import { levelFeet, levelFeetInput } from "./level-feet.js";

const site = clearancesInput.shape;
const swing = doorSwingInput.shape;
const level = levelFeetInput.shape;

export const placementPart = definePart({
  trade: "placement",
  site: z.strictObject({
    place: site.place,
    opening: site.opening,
    gaps: site.gaps,
    connections: site.connections,
    overhead: site.overhead,
    closetDoor: site.closetDoor,
    workingSpace: site.workingSpace,
    facing: swing.facing,
    sideWallsEnd: swing.sideWallsEnd,
    things: swing.things,
    roomDoor: swing.roomDoor,
    level: z
      .strictObject({ reading: level.reading, rocks: level.rocks, extended: level.extended, aim: level.aim })
      .optional()
      .describe("How the machine stands on its feet"),
  }),
  machine: {
    body: bodyInput,
    door: swing.door,
    feet: level.feet,
    foot: z
      .strictObject({ thread: level.thread, lead: level.lead, screw: level.screw })
      .optional()
      .describe("The screw feet"),
  },
  uses: [
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
  ],
});
