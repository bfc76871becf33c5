import * as z from "zod";
import { brand } from "../core/quantity/index.js";
import { defineRule, quantity } from "../core/rule/index.js";
import { hoseAge } from "./limits-hose.js";
import { supplyPressureInput } from "./supply-pressure.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

/** Damage that ends a hose. */
export const hoseDamages = ["kink", "bulge", "crack", "stiff", "rust", "weep", "fraying"] as const;
type Damage = (typeof hoseDamages)[number];

const damageWords: Readonly<Record<Damage, string>> = {
  kink: "a kink",
  bulge: "a bulge",
  crack: "a crack",
  stiff: "hardened rubber",
  rust: "rust at the crimp or in the braid",
  weep: "a weeping joint",
  fraying: "broken strands of the braid",
};

export const hoseConditionInput = z.strictObject({
  ...waterFacts,
  make: z
    .enum(["braided", "reinforcedRubber", "plainRubber"])
    .optional()
    .describe("What the hose is: wire braid outside, rubber with a fabric ply, or plain rubber or vinyl"),
  age: quantity("time", { max: [60, "yr"] })
    .optional()
    .describe("Age of the hose, from the date on its crimp or the machine's papers"),
  rating: quantity("pressure", { min: [1, "psi"], max: [3000, "psi"] })
    .optional()
    .describe("Working pressure printed on the hose; not its burst pressure"),
  staticPressure: supplyPressureInput.shape.staticPressure,
  damage: z
    .array(z.enum(hoseDamages))
    .max(7)
    .optional()
    .describe("What is wrong with the hose, looking and feeling along all of it; an empty list where nothing is"),
});

const remedies = { renew: "Fit a new braided hose, with new washers." } as const;

/**
 * The inlet hose is sound, young enough and rated for the pressure.
 *
 * A rule; its page is `docs/rules/plumbing/hose-condition.md`.
 */
export const hoseCondition = defineRule({
  id: "plumbing/hose-condition",
  title: "The inlet hose is sound, young enough and rated for the pressure",
  since: "0.1.0",
  input: hoseConditionInput,
  basis: [],
  limits: [hoseAge],
  messages: {
    pass: {
      sound: "Nothing is wrong with the hose to look at.",
      youngEnough: "The hose is {age:time} old; {most:time} is the most.",
      ratedEnough: "The hose is rated for {rating:pressure} and sees {static:pressure}.",
      goodMake: "The hose is of a kind that is made for a machine left under pressure.",
    },
    fail: {
      damaged: "The hose has {what:text}; it must not be used.",
      tooOld: "The hose is {age:time} old; it should be replaced at {most:time}.",
      underRated: "The hose is rated for {rating:pressure} and sees {static:pressure}.",
      plainRubber: "A plain rubber hose should not be left under pressure behind a machine.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      damageUnknown: "Nobody looked along the hose.",
      ageUnknown: "The age of the hose is not known; where no date is on it, take it as old.",
      ratingUnknown: "The working pressure of the hose was not read.",
      staticUnknown: "The static pressure was not measured.",
      makeUnknown: "What the hose is made of was not written down.",
    },
    notApplicable: { noWater: "This machine takes no water." },
  },
  remedies,
  cautions: ["water", "scald", "movingConnected", "deferral"],
  examples: [
    {
      title: "A two-year-old braided hose",
      input: {
        kind: "washer",
        make: "braided",
        age: "2 years",
        rating: "150 psi",
        staticPressure: "62 psi",
        damage: [],
      },
      gives: "sound",
    },
    {
      title: "A hose from the last machine, eleven years old",
      input: {
        kind: "washer",
        make: "braided",
        age: "11 years",
        rating: "150 psi",
        staticPressure: "62 psi",
        damage: [],
      },
      gives: "tooOld",
    },
    {
      title: "A bulge near the crimp, and rust",
      input: {
        kind: "washer",
        make: "braided",
        age: "2 years",
        rating: "150 psi",
        staticPressure: "62 psi",
        damage: ["bulge", "rust"],
      },
      gives: "damaged",
    },
    {
      title: "A garden hose in a high-pressure building",
      input: {
        kind: "washer",
        make: "plainRubber",
        age: "1 years",
        rating: "75 psi",
        staticPressure: "105 psi",
        damage: [],
      },
      gives: "underRated",
    },
    {
      title: "Plain rubber",
      input: {
        kind: "washer",
        make: "plainRubber",
        age: "1 years",
        rating: "125 psi",
        staticPressure: "60 psi",
        damage: [],
      },
      gives: "plainRubber",
    },
    { title: "Nobody looked", input: { kind: "washer", make: "braided" }, gives: "damageUnknown" },
    { title: "No date", input: { kind: "washer", make: "braided", damage: [] }, gives: "ageUnknown" },
    {
      title: "No rating",
      input: { kind: "washer", make: "braided", damage: [], age: "2 years" },
      gives: "ratingUnknown",
    },
    {
      title: "No gauge",
      input: { kind: "washer", make: "braided", damage: [], age: "2 years", rating: "150 psi" },
      gives: "staticUnknown",
    },
    {
      title: "Kind not written down",
      input: { kind: "washer", damage: [], age: "2 years", rating: "150 psi", staticPressure: "60 psi" },
      gives: "makeUnknown",
    },
    { title: "A dryer", input: { kind: "dryer" }, gives: "waterUnknown" },
    { title: "A hood", input: { kind: "hood" }, gives: "noWater" },
  ],
  check(input, { all, judge, limit, missing, say }) {
    const { kind, make, age, rating, staticPressure, damage } = input;
    const wet = takesWater(input);
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);
    const look = () => {
      if (damage === undefined) return missing(["damageUnknown"], ["damage"]);
      if (damage.length === 0) return say("sound");
      const what = hoseDamages
        .filter((one) => damage.includes(one))
        .map((one) => damageWords[one])
        .join(" and ");
      return say("damaged", { what });
    };
    const years = () => {
      if (age === undefined) return missing(["ageUnknown"], ["age"]);
      const most = limit(hoseAge);
      return (
        most &&
        judge({
          kind: "time",
          measured: age,
          limit: most,
          pass: ["youngEnough", { age, most: brand<"time">(most.value) }],
          fail: ["tooOld", { age, most: brand<"time">(most.value) }],
        })
      );
    };
    const strength = () => {
      if (rating === undefined) return missing(["ratingUnknown"], ["rating"]);
      if (staticPressure === undefined) return missing(["staticUnknown"], ["staticPressure"]);
      return judge({
        kind: "pressure",
        measured: staticPressure,
        limit: rating,
        sense: "atMost",
        pass: ["ratedEnough", { rating, static: staticPressure }],
        fail: ["underRated", { rating, static: staticPressure }],
      });
    };
    const material = () => {
      if (make === undefined) return missing(["makeUnknown"], ["make"]);
      return say(make === "plainRubber" ? "plainRubber" : "goodMake");
    };
    return all(look(), years(), strength(), material());
  },
  mend() {
    return [
      {
        change: [
          { path: ["damage"], value: [] },
          { path: ["age"], value: 0, unit: "yr" },
          { path: ["make"], value: "braided" },
        ],
        say: ["renew"],
      },
    ];
  },
});
