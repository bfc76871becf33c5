import * as z from "zod";
import type { Basis } from "../core/basis/index.js";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { type AccessFigure, accessFigures, accessStandards, sideReach } from "./tables/reach.js";

const height = () => quantity("length", { max: [12, "ft"] });

export const reachInput = z.strictObject({
  kind: machineFacts.kind,
  standard: z
    .enum(accessStandards)
    .optional()
    .describe("Document the place has to meet for people who use a wheelchair; leave out where it need not"),
  loads: z.enum(["top", "front"]).optional().describe("Whether the machine is loaded from the top or from the front"),
  openings: z
    .array(height())
    .min(1)
    .max(4)
    .optional()
    .describe("Height of each door above the floor: of the door of a top loader, of the bottom of a front opening"),
  controls: z
    .strictObject({
      lowest: height().describe("Height of the lowest control, lint screen or latch above the floor"),
      highest: height().describe("Height of the highest of them"),
    })
    .optional()
    .describe("Everything that is worked by hand"),
  over: quantity("length", { max: [6, "ft"] })
    .optional()
    .describe("Depth of a counter or of the machine itself that one reaches over; none where left out"),
  floor: z
    .strictObject({
      across: height().describe("Clear floor in front of the machine, along its face"),
      out: height().describe("Clear floor in front of the machine, out from its face"),
    })
    .optional()
    .describe("Clear floor in front of the machine, doors closed"),
  force: quantity("force", { max: [500, "N"] })
    .optional()
    .describe("Force that works the stiffest control, with a spring scale"),
});

const remedies = {
  pedestal: "Set the machine on a pedestal of {rise:inches}.",
} as const;

/**
 * Openings, controls and floor are within reach of someone in a wheelchair.
 *
 * A rule; its page is `docs/rules/placement/reach.md`.
 */
export const reach = defineRule({
  id: "placement/reach",
  title: "Openings, controls and floor are within reach of someone in a wheelchair",
  since: "0.1.0",
  input: reachInput,
  basis: [],
  limits: [],
  messages: {
    pass: {
      highEnough: "{what:text}: {height:inches}; at least {limit:inches} is asked.",
      lowEnough: "{what:text}: {height:inches}; at most {limit:inches} is asked.",
      easy: "The stiffest control takes {force:force}, within {limit:force}.",
    },
    fail: {
      tooHigh: "{what:text}: {height:inches}, {off:inches} above the {limit:inches} asked.",
      tooLow: "{what:text}: {height:inches}, {off:inches} below the {limit:inches} asked.",
      tooSmall: "{what:text}: {height:inches}, {off:inches} less than the {limit:inches} asked.",
      tooFar: "{what:text}: {height:inches} deep, more than the {limit:inches} one may reach over.",
      stiff: "The stiffest control takes {force:force}, more than {limit:force}.",
    },
    review: {
      loadsUnknown: "Whether the machine is loaded from the top or the front was not noted.",
      openingsUnknown: "The height of its openings was not measured.",
      controlsUnknown: "The height of its controls was not measured.",
      floorUnknown: "The clear floor in front of it was not measured.",
      forceUnknown: "The force of its stiffest control was not measured.",
    },
    notApplicable: { notAsked: "No accessible-design document was named for this place." },
  },
  remedies,
  cautions: ["deferral"],
  examples: [
    {
      title: "A front loader on a low pedestal",
      input: {
        kind: "washer",
        standard: "ADA 2010",
        loads: "front",
        openings: ["20 in"],
        controls: { lowest: "16 in", highest: "38 in" },
        floor: { across: "60 in", out: "48 in" },
        force: "4 lbf",
      },
      gives: "highEnough",
    },
    {
      title: "A front loader too near the floor",
      input: {
        kind: "dryer",
        standard: "ADA 2010",
        loads: "front",
        openings: ["13 in"],
        controls: { lowest: "16 in", highest: "38 in" },
        floor: { across: "48 in", out: "30 in" },
        force: "5 lbf",
      },
      gives: "tooLow",
    },
    {
      title: "A stacked pair",
      input: {
        kind: "stack",
        standard: "ADA 2010",
        loads: "front",
        openings: ["16 in", "52 in"],
        controls: { lowest: "36 in", highest: "70 in" },
        floor: { across: "48 in", out: "30 in" },
        force: "3 lbf",
      },
      gives: "tooHigh",
    },
    {
      title: "Too little floor, a stiff knob, behind a deep counter",
      input: {
        kind: "washer",
        standard: "A117.1-2009",
        loads: "top",
        openings: ["36 in"],
        controls: { lowest: "40 in", highest: "44 in" },
        over: "26 in",
        floor: { across: "44 in", out: "30 in" },
        force: "8 lbf",
      },
      gives: "tooFar",
    },
    {
      title: "Nothing measured",
      input: { kind: "washer", standard: "ADA 2010" },
      gives: "loadsUnknown",
    },
    {
      title: "Loaded from the top, nothing measured",
      input: { kind: "washer", standard: "ADA 2010", loads: "top" },
      gives: "openingsUnknown",
    },
    { title: "A private laundry", input: { kind: "washer" }, gives: "notAsked" },
  ],
  check({ kind, standard, loads, openings, controls, over, floor, force }, { judge, say, missing, all, rest }) {
    if (standard === undefined) return say("notAsked");
    const figures = accessFigures[standard];
    const { document, publisher, edition } = figures;
    const cite = ({ section, confirmed, note }: AccessFigure): void => {
      const basis: Basis = { document, publisher, edition, section, force: "mandatory", confirmed };
      rest(note === undefined ? basis : { ...basis, note });
    };
    type Fault = "tooHigh" | "tooLow" | "tooSmall" | "tooFar";
    const bound = (what: string, value: Length, figure: AccessFigure, fault: Fault): Outcome => {
      cite(figure);
      const limit = si(figure.printed, "in");
      const most = fault === "tooHigh" || fault === "tooFar";
      return judge({
        kind: "inches",
        measured: value,
        limit,
        sense: most ? "atMost" : "atLeast",
        pass: [most ? "lowEnough" : "highEnough", { what, height: value, limit }],
        fail:
          fault === "tooFar"
            ? ["tooFar", { what, height: value, limit }]
            : [fault, { what, height: value, limit, off: brand<"length">(Math.abs(value - limit)) }],
      });
    };

    const laundry = kind === "washer" || kind === "dryer" || kind === "stack";
    const doors = (): Outcome | undefined => {
      if (!laundry) return undefined;
      if (loads === undefined) return missing(["loadsUnknown"], ["loads"]);
      if (openings === undefined) return missing(["openingsUnknown"], ["openings"]);
      return all(
        ...openings.flatMap((one) =>
          loads === "top"
            ? [bound("Door of the top loader", one, figures.topLoader, "tooHigh")]
            : [
                bound("Bottom of the opening", one, figures.frontLow, "tooLow"),
                bound("Bottom of the opening", one, figures.frontHigh, "tooHigh"),
              ],
        ),
      );
    };
    const worked = (): Outcome => {
      if (controls === undefined) return missing(["controlsUnknown"], ["controls"]);
      const lowest = bound("Lowest control", controls.lowest, figures.reachLow, "tooLow");
      if (over === undefined)
        return all(lowest, bound("Highest control", controls.highest, figures.reachHigh, "tooHigh"));
      // One judgement for each of the two bounds, and one on the depth itself.
      const deep = over > si(sideReach.free, "in") * (1 + 1e-9);
      return all(
        lowest,
        bound("Highest control", controls.highest, deep ? figures.reachOver : figures.reachHigh, "tooHigh"),
        bound("What one reaches over", over, { ...figures.reachOver, printed: sideReach.most }, "tooFar"),
      );
    };
    const clear = (): Outcome => {
      if (floor === undefined) return missing(["floorUnknown"], ["floor"]);
      return all(
        bound("Clear floor along the machine", floor.across, figures.floorLong, "tooSmall"),
        bound("Clear floor out from the machine", floor.out, figures.floorShort, "tooSmall"),
      );
    };
    const strength = (): Outcome => {
      if (force === undefined) return missing(["forceUnknown"], ["force"]);
      cite(figures.force);
      const limit = si(figures.force.printed, "lbf");
      return judge({
        kind: "force",
        measured: force,
        limit,
        sense: "atMost",
        pass: ["easy", { force, limit }],
        fail: ["stiff", { force, limit }],
      });
    };
    return all(doors(), worked(), clear(), strength());
  },
  mend({ standard, loads, openings, controls }) {
    if (standard === undefined || loads !== "front" || openings === undefined || controls === undefined) return [];
    const rise = si(accessFigures[standard].frontLow.printed, "in") - Math.min(...openings);
    if (rise <= 0) return [];
    const proposal: Proposal<typeof remedies> = {
      change: [
        ...openings.map(
          (one, i) => ({ path: ["openings", i], value: brand<"length">(one + rise), unit: "in" }) as const,
        ),
        { path: ["controls", "lowest"], value: brand<"length">(controls.lowest + rise), unit: "in" },
        { path: ["controls", "highest"], value: brand<"length">(controls.highest + rise), unit: "in" },
      ],
      say: ["pedestal", { rise: brand<"length">(rise) }],
    };
    return [proposal];
  },
});
