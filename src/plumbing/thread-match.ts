import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule } from "../core/rule/index.js";
import { threadStandards } from "./basis.js";
import { type ThreadId, type ThreadRow, threadIds, threadOf } from "./tables/threads.js";

export const threadMatchInput = z.strictObject({
  male: z.enum(threadIds).optional().describe("The male thread, by pitch gauge and caliper or by its name on the part"),
  female: z
    .enum(threadIds)
    .optional()
    .describe("The female thread, by pitch gauge and caliper or by its name on the part"),
});

/**
 * How two threads go together. `match`: made for each other. `otherSeat`: they screw up, but the faces that should seal
 * do not meet. `otherForm`: same pitch and nearly the same diameter, but another flank or taper. `outOfStep`: nearly the
 * same diameter and another pitch: it starts and then strips. `otherSize`: it does not start.
 */
export type ThreadFit = "match" | "otherSeat" | "otherForm" | "outOfStep" | "otherSize";

/** Diameters this close start into each other: 3/4 hose thread and G 3/4 are 2 % apart. Common practice, no source. */
const STARTS_WITHIN = 0.05;
/** Turns by hand after which a pitch that is out of step binds. Common practice, no source. */
const BINDING_TURNS = 3;

const pitchOf = ({ threadsPerInch }: ThreadRow): Length => brand<"length">(si(1, "in") / threadsPerInch);

/**
 * How two threads go together, by pitch, diameter, flank, taper and seat.
 *
 * @param male - one thread
 * @param female - the other
 * @example threadFit("G 3/4", "3/4-11.5 NH") // "outOfStep"
 */
export function threadFit(male: ThreadId, female: ThreadId): ThreadFit {
  if (male === female) return "match";
  const a = threadOf(male);
  const b = threadOf(female);
  if (Math.abs(a.major_mm - b.major_mm) > STARTS_WITHIN * Math.max(a.major_mm, b.major_mm)) return "otherSize";
  if (a.threadsPerInch !== b.threadsPerInch) return "outOfStep";
  if (a.flank_deg !== b.flank_deg || a.tapered !== b.tapered) return "otherForm";
  return "otherSeat";
}

/** The two threads are made for each other. A rule; its page is `docs/rules/plumbing/thread-match.md`. */
export const threadMatch = defineRule({
  id: "plumbing/thread-match",
  title: "The two threads are made for each other",
  since: "0.1.0",
  input: threadMatchInput,
  basis: [threadStandards],
  limits: [],
  messages: {
    pass: { match: "{male:text} goes with {female:text}." },
    fail: {
      otherSeat:
        "{male:text} screws into {female:text}, but the faces that should seal do not meet: it tightens and leaks.",
      otherForm:
        "{male:text} and {female:text} have the same pitch but not the same form; it seems to fit, bites on a few edges and leaks.",
      outOfStep:
        "{male:text} starts into {female:text}, but the pitches differ: after three turns they are {off:thickness} out of step, and forcing it strips both.",
      sameName: "{male:text} and {female:text} share the size name {size:text} and nothing else: they do not start.",
      otherSize: "{male:text} is of another size than {female:text}; it does not start.",
    },
    review: {
      maleUnknown: "The male thread was not identified; a pitch gauge tells it in a moment.",
      femaleUnknown: "The female thread was not identified; a pitch gauge tells it in a moment.",
    },
    notApplicable: { noPair: "No two threads were named to compare." },
  },
  cautions: ["water", "gas", "deferral"],
  examples: [
    { title: "A hose on a laundry tap", input: { male: "3/4-11.5 NH", female: "3/4-11.5 NH" }, gives: "match" },
    { title: "An imported tap and a hose", input: { male: "G 3/4", female: "3/4-11.5 NH" }, gives: "outOfStep" },
    {
      title: "A 37° nut on a 45° cone",
      input: { male: "3/4-16 flare 45°", female: "3/4-16 flare 37°" },
      gives: "otherSeat",
    },
    {
      title: "A metric-world nipple in a pipe-thread elbow",
      input: { male: "R 1/2", female: "1/2-14 NPT" },
      gives: "otherForm",
    },
    {
      title: "A garden hose on a fire-hose outlet",
      input: { male: "3/4-8 fire hose", female: "3/4-11.5 NH" },
      gives: "sameName",
    },
    {
      title: "A gas flare nut and the tube's own flare",
      input: { male: "7/8-14 flare 45°", female: "15/16-16 gas flare" },
      gives: "sameName",
    },
    {
      title: "A pipe nipple and an ice-maker nut",
      input: { male: "1/2-14 NPT", female: "7/16-24 compression" },
      gives: "otherSize",
    },
    { title: "No threads in doubt", input: {}, gives: "noPair" },
    { title: "Male thread not identified", input: { female: "3/4-11.5 NH" }, gives: "maleUnknown" },
    { title: "Female thread not identified", input: { male: "3/4-11.5 NH" }, gives: "femaleUnknown" },
  ],
  check({ male, female }, { formula, missing, say }) {
    if (male === undefined && female === undefined) return say("noPair");
    if (male === undefined) return missing(["maleUnknown"], ["male"]);
    if (female === undefined) return missing(["femaleUnknown"], ["female"]);
    const fit = threadFit(male, female);
    const a = threadOf(male);
    const b = threadOf(female);
    if (fit === "outOfStep") {
      const first = pitchOf(a);
      const second = pitchOf(b);
      const off = brand<"length">(BINDING_TURNS * Math.abs(first - second));
      formula("{off:thickness} = {turns:count} * abs({first:thickness} - {second:thickness})", {
        off,
        turns: BINDING_TURNS,
        first,
        second,
      });
      return say("outOfStep", { male, female, off });
    }
    if (fit === "otherSize" && a.size === b.size) return say("sameName", { male, female, size: `${a.size} in` });
    return say(fit, { male, female });
  },
});
