/** Which parts and tools a job needs, by trade. */
import type { Draft, Job } from "./job.js";

/**
 * What the trade carries without a text asking for it (common practice, no source): sizes and counts as installers of
 * dryers work by, 2026.
 */
const USUAL = {
  strainRelief: "3/4 in trade size",
  duct: "4 in",
  hosesByWater: { cold: 1, hot: 1, both: 2 },
  washersPerHose: 2,
  clampsPerTransition: 2,
  steamShortHose: "2 ft",
  steamHose: "5 ft",
} as const;

const bring = (what: string, why: string, more: Partial<Draft> = {}): Draft => ({ what, why, ...more });
const tool = (what: string, why: string, more: Partial<Draft> = {}): Draft => ({ what, why, kind: "tool", ...more });

/** Machines that come without a cord, so that one is fitted on site (common practice, no source). */
const cordless = ({ kind, survey }: Job): boolean =>
  survey.machine.fuel === "electric" && ["dryer", "stack", "range"].includes(kind);

/** The electrical part. */
export function electricalLines(job: Job): Draft[] {
  const lines: Draft[] = [tool("voltmeter, two-pole", "Nothing is touched before it was proved dead.")];
  const isHardWired = job.at("electrical.hardWired") === true;
  const cord = job.has("electrical.cord");
  if (!isHardWired && (cord || cordless(job))) {
    const plug = job.text("electrical.cord.plug") ?? job.text("electrical.receptacle.configuration");
    const size = [plug, job.text("electrical.cord.size"), job.length("electrical.cord.length")].filter(
      (piece) => piece !== undefined,
    );
    lines.push(
      bring("power cord", cord ? "It joins the machine to the receptacle." : "The machine comes without a cord.", {
        size: size.length === 0 ? null : size.join(", "),
        there: cord,
        rules: ["electrical/cord-match", "electrical/receptacle-reach"],
        from: plug === undefined ? [] : [cord ? "electrical.cord" : "electrical.receptacle.configuration"],
        open: plug === undefined ? "electrical.receptacle.configuration" : undefined,
      }),
    );
  }
  if (!isHardWired && cordless(job)) {
    const fitted = job.at("electrical.strainRelief.fitted") === true;
    lines.push(
      bring("strain relief for the cord, listed", "The cord hangs on the clamp, not on its terminals.", {
        size: job.text("electrical.strainRelief.trade") ?? USUAL.strainRelief,
        there: fitted,
        rules: ["electrical/strain-relief"],
      }),
    );
  }
  if (isHardWired || cordless(job)) {
    lines.push(
      tool("torque driver", "A terminal is tightened to its figure, not by feel.", {
        size: job.value("electrical/terminal-torque", "torque")?.text ?? null,
        from: job.value("electrical/terminal-torque", "torque") ? ["electrical/terminal-torque"] : [],
      }),
    );
  }
  return lines;
}

/** Faults of a duct's make that only other duct mends. */
const OTHER_DUCT = ["tooNarrow", "tooWide", "notRigidMetal", "tooThin", "rough"];

/** What mends the other faults of a duct's make. */
function ductMending(job: Job): Draft[] {
  const from = ["venting/duct-construction"];
  return job.failures("venting/duct-construction").flatMap(({ messageId, message, data }): Draft[] => {
    const limit = data["limit"];
    switch (messageId) {
      case "fastenersLong":
        return [bring("screws, short", message, { size: `${limit?.text} at most`, count: null, from })];
      case "jointsOpen":
        return [bring("foil tape, listed", message, { from })];
      case "sagging": {
        const straight = job.si("venting.duct.straight", "length");
        if (straight === undefined || limit?.si == null)
          return [bring("duct support", message, { count: null, from, open: "venting.duct.straight" })];
        return [bring("duct support", message, { count: Math.max(1, Math.ceil(straight / limit.si)), from })];
      }
      case "bare":
      case "plateThin":
      case "plateShort":
        return [bring("protection plate", message, { count: null, from, open: "venting.planning.studs" })];
      case "noCleanout":
        return [bring("tee with a cap to clean through", message, { from })];
      default:
        return [];
    }
  });
}

function ductPieces(job: Job): Draft[] {
  const from = ["venting/cut-list"];
  const cut = (name: string): number | undefined => job.value("venting/cut-list", name)?.si ?? undefined;
  const diameter = job.inches("venting.duct.diameter") ?? USUAL.duct;
  const sections = cut("sections");
  const other = job.failures("venting/duct-construction").filter(({ messageId }) => OTHER_DUCT.includes(messageId));
  const rules = other.length > 0 ? ["venting/duct-construction"] : [];
  const tooLong = job.finding("venting/duct-length");
  const undecided =
    tooLong?.verdict === "fail"
      ? [tooLong.message, ...tooLong.remedies.slice(0, 1).map(({ message }) => message)].join(" ")
      : undefined;
  const straight = job.length("venting.duct.straight");
  const lines: Draft[] = [];
  if (sections !== undefined) {
    const stock = job.length("venting.planning.stock");
    const size = stock === undefined ? `${diameter} duct` : `${diameter} duct, ${stock} long`;
    lines.push(bring("section of rigid duct", "The run is to be built from it.", { size, count: sections, from }));
    const tape = job.value("venting/cut-list", "tape");
    if (tape)
      lines.push(
        bring("foil tape", "Joints are taped, not screwed into the air.", { size: `${tape.text} of it`, from }),
      );
    const supports = cut("supports") ?? 0;
    if (supports > 0) lines.push(bring("duct support", "The run is carried along its way.", { count: supports, from }));
    const plates = cut("plates") ?? 0;
    if (plates > 0)
      lines.push(
        bring("protection plate", "The duct runs close to the face of studs or plates.", { count: plates, from }),
      );
  } else if (straight !== undefined) {
    const size = `${diameter}, ${straight} straight`;
    const from = ["venting.duct.straight", ...(undecided === undefined ? [] : ["venting/duct-length"])];
    lines.push(
      bring("rigid duct", "It leads outdoors.", { size, instead: size, there: true, rules, from, undecided }),
      ...ductMending(job),
    );
  } else {
    lines.push(
      bring("rigid duct", "The run was not measured.", { size: diameter, count: null, open: "venting.duct.straight" }),
    );
  }
  const elbows = job.survey.venting?.duct?.elbows;
  if (elbows === undefined)
    lines.push(
      bring("elbow", "The elbows were not counted.", { size: diameter, count: null, open: "venting.duct.elbows" }),
    );
  else {
    elbows.forEach(({ radius, angle, count }, i) => {
      const size = [radius, job.size(angle, "angle", "angle")].filter((piece) => piece !== undefined).join(", ");
      lines.push(
        bring("elbow", "The run turns here.", {
          size,
          count: count ?? 1,
          instead: size,
          there: sections === undefined,
          rules,
          from: [`venting.duct.elbows.${i}`],
          undecided: sections === undefined ? undecided : undefined,
        }),
      );
    });
  }
  return lines;
}

/** The venting part. */
export function ventingLines(job: Job): Draft[] {
  if (job.vents === undefined) {
    if (job.kind !== "dryer" && job.kind !== "stack") return [];
    return [
      bring("exhaust duct and its fittings", "Nobody said whether the dryer blows outdoors.", {
        count: null,
        open: "machine.exhaust",
      }),
    ];
  }
  if (!job.vents) return [];
  const pieces = job.at("venting.transition.pieces");
  const lines: Draft[] = [];
  if (pieces !== 0) {
    lines.push(
      bring("transition duct, listed", "It joins the machine to the rigid duct.", {
        size: job.length("venting.transition.length") ?? job.inches("venting.duct.diameter") ?? USUAL.duct,
        there: job.has("venting.transition"),
        rules: ["venting/transition-duct"],
        instead: job.inches("venting.duct.diameter") ?? USUAL.duct,
      }),
      bring("clamp for the transition duct", "One at each end.", {
        size: job.inches("venting.duct.diameter") ?? USUAL.duct,
        count: job.value("venting/cut-list", "clamps")?.si ?? USUAL.clampsPerTransition,
        from: job.value("venting/cut-list", "clamps") ? ["venting/cut-list"] : [],
      }),
    );
  }
  lines.push(
    ...ductPieces(job),
    bring("exhaust hood with a damper, no screen", "The run ends outdoors under it.", {
      size: job.inches("venting.duct.diameter") ?? USUAL.duct,
      there: job.has("venting.outlet"),
      rules: ["venting/termination"],
      instead: job.inches("venting.duct.diameter") ?? USUAL.duct,
    }),
  );
  const label = job.finding("venting/length-label");
  if (label?.verdict === "fail")
    lines.push(bring("label with the duct's equivalent length", label.message, { from: ["venting/length-label"] }));
  lines.push(tool("brush for lint", "An old run is cleaned before a new machine blows into it."));
  return lines;
}

/** The plumbing part. */
export function plumbingLines(job: Job): Draft[] {
  const lines: Draft[] = [];
  if (job.takesWater === undefined && (job.kind === "dryer" || job.kind === "refrigerator")) {
    const open = job.kind === "dryer" ? "machine.steam" : "machine.supply";
    lines.push(bring("water hose", "Nobody said whether the machine takes water.", { count: null, open }));
  }
  if (job.takesWater === true) lines.push(...waterLines(job));
  if (job.burnsGas) lines.push(...gasLines(job));
  return lines;
}

function waterLines(job: Job): Draft[] {
  const lines: Draft[] = [];
  const isSteamDryer = job.kind === "dryer";
  const reach = job.finding("plumbing/hose-reach");
  const supply = job.survey.machine.supply;
  const hoses = isSteamDryer ? 1 : supply === undefined || supply === "none" ? null : USUAL.hosesByWater[supply];
  if (isSteamDryer) {
    lines.push(
      bring("Y for the cold valve", "The dryer takes its water from the washer's cold valve."),
      bring("short water hose", "From the valve to the Y's branch.", { size: USUAL.steamShortHose }),
    );
  }
  lines.push(
    bring("water hose", "One for each water that the machine takes.", {
      size: job.length("plumbing.hose.length") ?? (isSteamDryer ? USUAL.steamHose : null),
      count: hoses,
      there: job.has("plumbing.hose"),
      rules: ["plumbing/hose-reach", "plumbing/hose-condition"],
      instead: reach?.limit ? `at least ${reach.limit.text}` : job.length("plumbing.hose.length"),
      open: hoses === null ? "machine.supply" : undefined,
    }),
    bring("hose washer, new", "A coupling is made up on new washers.", {
      count: hoses === null ? null : hoses * USUAL.washersPerHose + (isSteamDryer ? USUAL.washersPerHose : 0),
      open: hoses === null ? "machine.supply" : undefined,
    }),
    tool("pliers for couplings", "Past hand-tight by a part of a turn."),
    tool("bucket and cloth", "Water stands in the old hoses."),
  );
  for (const [rule, what] of [
    ["plumbing/drain-pan", "drain pan under the machine"],
    ["plumbing/surge", "water-hammer arrester"],
    ["plumbing/backflow", "device against backflow"],
    ["plumbing/thread-match", "adapter between the threads"],
  ] as const) {
    const finding = job.finding(rule);
    if (finding?.verdict === "fail") lines.push(bring(what, finding.message, { from: [rule] }));
  }
  return lines;
}

function gasLines(job: Job): Draft[] {
  const rigid = job.at("plumbing.connector.connection") === "rigid";
  const bore = job.text("plumbing.connector.bore");
  const length = job.length("plumbing.connector.length");
  const lines: Draft[] = [];
  if (!rigid) {
    const size = [bore === undefined ? undefined : `${bore} bore`, length]
      .filter((piece) => piece !== undefined)
      .join(", ");
    lines.push(
      bring("gas connector, listed, new", "A connector is not used a second time.", {
        size: size === "" ? null : size,
        there: job.at("plumbing.connector.isNew") === true,
        rules: ["plumbing/gas-connector"],
        open: length === undefined ? "plumbing.connector.length" : undefined,
      }),
    );
  }
  lines.push(
    bring("shut-off valve for gas", "The machine is shut off within reach.", {
      there: job.has("plumbing.connector.shutoff"),
      from: ["plumbing.connector.shutoff"],
      open: job.has("plumbing.connector.shutoff") ? undefined : "plumbing.connector.shutoff",
    }),
  );
  if (job.text("plumbing.connector.trap") === "none")
    lines.push(
      bring("tee, nipple and cap for a sediment trap", "There is none.", { from: ["plumbing.connector.trap"] }),
    );
  lines.push(
    bring("sealant for pipe threads, rated for gas", "For tapered threads only, never on flares."),
    bring("leak-test solution", "Every joint that was touched is tested."),
    tool("manometer", "Pressure is read standing and while the burner runs.", {
      from: job.finding("plumbing/gas-pressure") ? ["plumbing/gas-pressure"] : [],
    }),
    tool("two wrenches", "One holds while the other turns."),
  );
  return lines;
}

/** The part of floor, way and footing. */
export function placementLines(job: Job): Draft[] {
  const isBuiltIn = job.kind === "oven" || job.kind === "cooktop" || job.kind === "hood";
  const lines: Draft[] = [tool("steel tape", "What was surveyed is measured again before it is lifted.")];
  if (isBuiltIn) return lines;
  const shims = new Map<string, number>();
  for (const { count, thickness } of job.list("placement/shims", "pieces")) {
    if (count?.si != null && thickness) shims.set(thickness.text, (shims.get(thickness.text) ?? 0) + count.si);
  }
  for (const [size, count] of shims)
    lines.push(
      bring("shim", "The feet do not reach the floor's low corners alone.", { size, count, from: ["placement/shims"] }),
    );
  if (job.kind === "range") lines.push(bring("anti-tip bracket with its screws", "A loaded door tips a range."));
  if (job.kind === "stack") lines.push(bring("stacking kit of the maker", "The dryer is fixed to the washer."));
  lines.push(
    tool("level", "Both ways, on the machine's own top.", {
      from: job.value("placement/level-feet", "fit") ? ["placement/level-feet"] : [],
    }),
    tool("wrench for the feet's nuts", "The nuts are locked when it stands."),
    tool("hand truck with straps", "The machine is not carried by hand alone.", {
      from: job.finding("placement/handling") ? ["placement/handling"] : [],
    }),
  );
  return lines;
}
