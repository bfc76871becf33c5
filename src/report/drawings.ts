/** The drawings of one site: their data taken from the survey and from what the rules and calculators said of it. */
import type { UnitSystem } from "../core/quantity/index.js";
import type { Calculation, Finding, Part, ShownValue } from "../core/rule/index.js";
import type { Assessment, Survey } from "../survey/index.js";
import { Fields } from "./fields.js";
import type { Markup } from "./markup.js";
import { type BehindLine, behindDrawing } from "./svg/behind.js";
import { type CircuitPiece, type CircuitSymbol, circuitDrawing } from "./svg/circuit.js";
import { type FlowPoint, fanRunDrawing, profileDrawing } from "./svg/duct.js";
import { type Corner, type FootMove, feetDrawing } from "./svg/feet.js";
import { shower } from "./svg/options.js";
import { type PlanDoor, type PlanRoomDoor, type PlanThing, planDrawing, type Sides } from "./svg/plan.js";

/** A drawing of a site, by what it shows. */
export interface SiteDrawing {
  readonly shows: "plan" | "behind" | "feet" | "circuit" | "profile" | "fanRun";
  /** What it is called, in a few words. */
  readonly title: string;
  /** The drawing as SVG, which also stands alone as a file. */
  readonly svg: Markup;
}

/** How the drawings of a site are made. */
export interface SiteDrawingOptions {
  /** The reader's units; US where left out. */
  readonly units?: UnitSystem;
  /** The decimal mark of the survey; the point where left out. */
  readonly decimal?: "." | ",";
}

/** The parts of an assessment that drawings read. */
export type Said = Pick<Assessment<"full">, "findings" | "values">;

const findingOf = ({ findings }: Said, rule: string): Finding | undefined =>
  findings.find((finding) => finding.rule === rule);
const partsOf = (said: Said, rule: string): readonly Part[] => findingOf(said, rule)?.parts ?? [];
const siOf = (part: Part | undefined, name: string): number | undefined => part?.data[name]?.si ?? undefined;
const failures = (parts: readonly Part[]): string[] =>
  parts.filter(({ verdict }) => verdict === "fail").map(({ message }) => message);

/** How the rule on free space names the sides. */
const sideNames = { left: "on the left", right: "on the right", behind: "behind", front: "in front" } as const;

function neededSides(parts: readonly Part[]): Sides | undefined {
  const found = Object.entries(sideNames).flatMap(([side, words]) => {
    const need = siOf(
      parts.find(({ data }) => data["side"]?.text === words),
      "need",
    );
    return need === undefined ? [] : [[side, need] as const];
  });
  return found.length === 0 ? undefined : Object.fromEntries(found);
}

function planDoor(survey: Fields, stopped: number | undefined): PlanDoor | undefined {
  const hinge = survey.text("machine.door.hinge");
  if (hinge !== "left" && hinge !== "right" && hinge !== "bottom") return undefined;
  return {
    hinge,
    length: survey.length("machine.door.length")!,
    thickness: survey.length("machine.door.thickness")!,
    inset: survey.length("machine.door.inset")!,
    opens: survey.angle("machine.door.opens")!,
    free: stopped,
  };
}

function planRoomDoor(survey: Fields, stopped: number | undefined): PlanRoomDoor | undefined {
  if (!survey.has("placement.roomDoor")) return undefined;
  return {
    opensInto: survey.text("placement.roomDoor.opensInto") as PlanRoomDoor["opensInto"],
    wall: survey.text("placement.roomDoor.wall") as PlanRoomDoor["wall"],
    hinge: survey.text("placement.roomDoor.hinge") as PlanRoomDoor["hinge"],
    right: survey.length("placement.roomDoor.right")!,
    ahead: survey.length("placement.roomDoor.ahead")!,
    length: survey.length("placement.roomDoor.length")!,
    opens: survey.angle("placement.roomDoor.opens"),
    free: stopped,
  };
}

const planThing = (thing: Fields): PlanThing => ({
  what: thing.text("what")!,
  right: thing.length("right")!,
  width: thing.length("width")!,
  ahead: thing.length("ahead")!,
  depth: thing.length("depth")!,
});

function plan(survey: Fields, said: Said, units: UnitSystem | undefined): SiteDrawing | null {
  const width = survey.length("machine.body.width");
  const depth = survey.length("machine.body.depth");
  if (width === undefined || depth === undefined) return null;
  const space = partsOf(said, "placement/clearances");
  const swing = partsOf(said, "placement/door-swing");
  const stoppedAt = (...ids: string[]): number | undefined =>
    siOf(
      swing.find(({ messageId }) => ids.includes(messageId)),
      "free",
    );
  const svg = planDrawing(
    {
      machine: survey.text("machine.kind") ?? "machine",
      width,
      depth,
      gaps: {
        left: survey.length("placement.gaps.left"),
        right: survey.length("placement.gaps.right"),
        behind: survey.length("placement.gaps.behind"),
        front: survey.length("placement.gaps.front"),
      },
      needed: neededSides(space),
      opening: { width: survey.length("placement.opening.width"), depth: survey.length("placement.opening.depth") },
      facing: survey.length("placement.facing"),
      sideWallsEnd: survey.length("placement.sideWallsEnd"),
      door: planDoor(survey, stoppedAt("stops")),
      roomDoor: planRoomDoor(survey, stoppedAt("roomDoorStops")),
      things: survey.list("placement.things")?.map(planThing),
      remarks: [...failures(space), ...failures(swing)],
    },
    { units },
  );
  return { shows: "plan", title: "Plan", svg };
}

/** Each connection behind the machine, with what the rule said it needs. */
function behindLines(survey: Fields, parts: readonly Part[]): BehindLine[] | undefined {
  const needOf = (what: string): number | undefined => {
    const about = parts.filter(({ data }) => data["what"]?.text === what);
    return about.length === 1 ? siOf(about[0], "need") : undefined;
  };
  const lines = survey.list("placement.lines");
  if (lines) {
    return lines.map((one) => {
      const what = one.text("what")!;
      const piece = (name: string, path: string) => ({ what: name, length: one.length(path)! });
      return {
        what,
        pieces: [
          piece("box, plate or valve", "onWall"),
          piece("what is joined to it", "fitting"),
          piece("bend", "bend"),
        ],
        recess: one.length("recess"),
        need: needOf(what),
      };
    });
  }
  return survey.list("placement.connections")?.map((one) => {
    const takes = one.length("takes")!;
    return { what: one.text("what")!, pieces: [{ what: "what it takes", length: takes }], need: takes };
  });
}

function behind(survey: Fields, said: Said, units: UnitSystem | undefined): SiteDrawing | null {
  const parts = partsOf(said, "placement/connections-behind");
  const lines = behindLines(survey, parts);
  if (lines === undefined || lines.length === 0) return null;
  const machine = survey.length("machine.body.depth");
  const worked = parts.map((part) => siOf(part, "gap")).find((gap) => gap !== undefined);
  const gap = survey.length("placement.gaps.behind") ?? worked;
  const svg = behindDrawing(
    {
      machine: survey.text("machine.kind") ?? "machine",
      gap: gap !== undefined && gap < 0 ? undefined : gap,
      lines,
      depth:
        machine === undefined
          ? undefined
          : {
              machine,
              place: survey.length("placement.opening.depth"),
              front: survey.length("placement.gaps.front"),
            },
    },
    { units },
  );
  return { shows: "behind", title: "Side view", svg };
}

type Records = readonly Readonly<Record<string, ShownValue | null>>[];
const shownOf = (record: Records[number], name: string): number | undefined => record[name]?.si ?? undefined;

/** What to do at each foot, from the calculator of the feet. */
export function footMoves({ values, status }: Calculation): FootMove[] | undefined {
  const feet = values["feet"];
  if (status !== "computed" || !Array.isArray(feet)) return undefined;
  return (feet as Records).map((record) => ({
    corner: record["foot"]!.text as Corner,
    turn: shownOf(record, "turns") ?? 0,
    change: shownOf(record, "change") ?? 0,
    extension: shownOf(record, "extension"),
  }));
}

const oneValue = ({ values }: Calculation, name: string): string | undefined => {
  const value = values[name];
  return value === null || value === undefined || Array.isArray(value) ? undefined : (value as ShownValue).text;
};

function feet(survey: Fields, { values }: Said, units: UnitSystem | undefined): SiteDrawing | null {
  const calculation = values.find(({ calculator }) => calculator === "placement/level-feet");
  const moves = calculation && footMoves(calculation);
  if (!moves) return null;
  const finish = oneValue(calculation, "finish");
  const tilt = oneValue(calculation, "tilt");
  const svg = feetDrawing(
    {
      feet: moves,
      apart: { width: survey.length("machine.feet.width"), depth: survey.length("machine.feet.depth") },
      remarks: [
        ...(finish === undefined ? [] : [`To finish: ${finish}.`]),
        ...(tilt === undefined ? [] : [`Slope left by whole quarter turns: ${tilt}.`]),
      ],
    },
    { units },
  );
  return { shows: "feet", title: "Turns of the feet", svg };
}

const siValue = ({ values }: Calculation, name: string): number | undefined => {
  const value = values[name];
  return value === null || value === undefined || Array.isArray(value)
    ? undefined
    : ((value as ShownValue).si ?? undefined);
};

function profile(survey: Fields, { values }: Said, units: UnitSystem | undefined): SiteDrawing | null {
  const calculation = values.find(({ calculator }) => calculator === "venting/duct-resistance");
  const pieces = calculation?.values["profile"];
  const total = calculation && siValue(calculation, "total");
  if (calculation?.status !== "computed" || !Array.isArray(pieces) || pieces.length === 0 || total === undefined)
    return null;
  const svg = profileDrawing(
    {
      pieces: (pieces as Records).map((record) => ({
        what: record["what"]!.text,
        from: shownOf(record, "from")!,
        loss: shownOf(record, "loss")!,
        left: shownOf(record, "left")!,
      })),
      total,
      allowed: survey.quantity("machine.backPressureLimit", "pressure"),
      flow: survey.quantity("machine.exhaustRate", "volumeFlow"),
    },
    { units },
  );
  return { shows: "profile", title: "Pressure along the duct", svg };
}

function fanRun(_survey: Fields, { values }: Said, units: UnitSystem | undefined): SiteDrawing | null {
  const calculation = values.find(({ calculator }) => calculator === "venting/duct-airflow");
  const curve = calculation?.values["curve"];
  if (calculation?.status !== "computed" || !Array.isArray(curve)) return null;
  // Not drawn: flows at which the blower is not known, and those at which lift alone moves the air, below the plot's foot.
  const pointsOf = (name: string): FlowPoint[] =>
    (curve as Records).flatMap((record) => {
      const [flow, pressure] = [shownOf(record, "flow"), shownOf(record, name)];
      return flow === undefined || pressure === undefined || pressure < 0 ? [] : [{ flow, pressure }];
    });
  const [fan, run] = [pointsOf("blower"), pointsOf("run")];
  const [flow, pressure] = [siValue(calculation, "flow"), siValue(calculation, "atMachine")];
  if (fan.length < 2 || run.length < 2 || flow === undefined || pressure === undefined || pressure < 0) return null;
  const svg = fanRunDrawing({ fan, run, meets: { flow, pressure } }, { units });
  return { shows: "fanRun", title: "The blower against the run", svg };
}

/** Where in the circuit a rule looks; a rule that is not named here speaks of the machine. */
const lookedAt: Readonly<Record<string, CircuitSymbol>> = {
  "electrical/supply-voltage": "panel",
  "electrical/circuit-found": "breaker",
  "electrical/circuit-size": "breaker",
  "electrical/voltage-drop": "conductors",
  "electrical/box-fill": "receptacle",
  "electrical/receptacle-reach": "cord",
  "electrical/cord-match": "cord",
};

function circuit(survey: Fields, { findings }: Said, units: UnitSystem | undefined): SiteDrawing | null {
  if (!survey.has("electrical.circuit") && !survey.has("electrical.receptacle") && !survey.has("electrical.cord"))
    return null;
  const show = shower(units);
  const length = (path: string, words: string): string[] => {
    const value = survey.length(path);
    return value === undefined ? [] : [`${show(value, "length")} ${words}`];
  };
  const current = (path: string, words: string): string[] => {
    const value = survey.quantity(path, "current");
    return value === undefined ? [] : [`${show(value, "current")}${words}`];
  };
  const word = (path: string, before = "", after = ""): string[] => {
    const text = survey.text(path);
    return text === undefined ? [] : [`${before}${text}${after}`];
  };
  const yesNo = (path: string, yes: string, no: string): string[] => {
    const flag = survey.flag(path);
    return flag === undefined ? [] : [flag ? yes : no];
  };
  const joined = (...texts: string[][]): string[] => {
    const one = texts.flat().join(", ");
    return one === "" ? [] : [one];
  };
  const voltage = survey.quantity("machine.plate.voltage", "voltage");
  const power = survey.quantity("machine.plate.power", "power");
  const hardWired = survey.flag("electrical.hardWired") === true;
  const kind = survey.text("machine.kind") ?? "machine";
  const pieces: Omit<CircuitPiece, "remark">[] = [
    {
      symbol: "panel",
      name: "Panel",
      facts: [...word("electrical.system"), ...word("electrical.circuit.startsAt", "starts at the ")],
    },
    {
      symbol: "breaker",
      name: survey.text("electrical.circuit.device") ?? "Breaker or fuses",
      facts: joined(
        current("electrical.circuit.overcurrent", ""),
        yesNo("electrical.circuit.individual", "for this machine alone", "serves other things too"),
      ),
    },
    {
      symbol: "conductors",
      name: "Conductors",
      facts: [
        ...joined(word("electrical.circuit.size"), word("electrical.circuit.metal"), word("electrical.circuit.wiring")),
        ...length("electrical.circuit.length", "one way"),
        ...joined(
          word("electrical.circuit.neutral.covering", "neutral: "),
          yesNo("electrical.circuit.ground", "with a grounding conductor", "no grounding conductor"),
        ),
      ],
    },
    ...(hardWired
      ? []
      : [
          {
            symbol: "receptacle" as const,
            name: ["Receptacle", ...word("electrical.receptacle.configuration")].join(" "),
            facts: length("electrical.receptacle.distance", "from the machine's place"),
          },
          {
            symbol: "cord" as const,
            name: ["Cord", ...word("electrical.cord.plug", "with plug ")].join(" "),
            facts: [
              ...joined(word("electrical.cord.size"), length("electrical.cord.length", "long")),
              ...word("electrical.cord.strap", "bonding strap: "),
            ],
          },
        ]),
    {
      symbol: "machine",
      name: kind,
      facts: [
        ...joined(
          voltage === undefined ? [] : [show(voltage, "voltage")],
          current("machine.plate.current", ""),
          power === undefined ? [] : [show(power, "power")],
          yesNo("machine.plate.neutral", "needs a neutral", "needs no neutral"),
        ),
        ...current("machine.plate.mostOvercurrent", " breaker or fuse at most"),
        ...(hardWired ? ["wired in, without a plug"] : []),
      ],
    },
  ];
  const remarks = new Map<CircuitSymbol, string[]>();
  for (const { rule, parts } of findings) {
    if (!rule.startsWith("electrical/")) continue;
    const place = lookedAt[rule] ?? "machine";
    const shown = pieces.some(({ symbol }) => symbol === place) ? place : "machine";
    remarks.set(shown, [...(remarks.get(shown) ?? []), ...failures(parts)]);
  }
  const svg = circuitDrawing(
    {
      pieces: pieces.map((piece) => ({
        ...piece,
        facts: piece.facts.length === 0 ? ["nothing noted"] : piece.facts,
        remarks: remarks.get(piece.symbol) ?? [],
      })),
    },
    { units },
  );
  return { shows: "circuit", title: "Circuit", svg };
}

/**
 * The drawings that a site's survey allows: a drawing whose sizes were not measured is left out.
 *
 * @param survey - the survey that was assessed
 * @param assessment - with full detail
 * @throws RangeError where a measure of the survey cannot be read, which an assessed survey never brings
 */
export function siteDrawings(
  survey: Survey,
  assessment: Said,
  { units, decimal = "." }: SiteDrawingOptions = {},
): SiteDrawing[] {
  const fields = new Fields(survey, decimal);
  return [plan, behind, feet, circuit, profile, fanRun].flatMap((draw) => draw(fields, assessment, units) ?? []);
}
