/** What the venting rules rest on beside their limits. */
import { type Basis, commonPractice } from "../core/basis/index.js";

/** The fitting table has no angles but 45° and 90°; the next larger row is the cautious choice. */
export const nextLargerElbow: Basis = {
  ...commonPractice,
  note: "An elbow of another angle is deducted as the next larger one of the table.",
};

/** How elbows are counted for a maker's chart that only knows 90°. */
export const makerElbowCount: Basis = {
  ...commonPractice,
  note: "For the maker's chart two elbows of 45° or less count as one of 90°; the sheet itself decides.",
};

/** The instructions of the power ventilator, which set its length. */
export const ventilatorSheet: Basis = {
  document: "Power ventilator's instructions",
  publisher: "",
  edition: "",
  section: "",
  force: "maker",
  confirmed: "stated",
  note: "Elbows are added up as the code's table has them.",
};

/** A Type 1 dryer that gets make-up air by the dryer's own section is left out of the combustion-air sum. */
export const dryerLeftOut: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "",
  section: "304.1, exception",
  force: "mandatory",
  confirmed: "secondary",
  note: "A household dryer with make-up air by its own section needs no combustion air beside it; the 2024 edition rewrote the clause.",
};

/** An air change above 0.60 an hour is not used; below 0.40 the method with the known air change must be. */
export const airChangeBounds: Basis = {
  document: "NFPA 54",
  publisher: "NFPA",
  edition: "",
  section: "9.3.2",
  force: "mandatory",
  confirmed: "secondary",
  note: "No air change above 0.60 an hour is counted; where it is known to be below 0.40 the plain 50 ft³ rule must not be used.",
};

/** Friction by Darcy and Weisbach with Colebrook's factor; elbows by formula. */
export const darcyWeisbach: Basis = {
  document: "Pipe Flow: A Practical and Comprehensive Guide",
  publisher: "Wiley",
  edition: "2012",
  section: "chapters 2 and 15",
  force: "advice",
  confirmed: "computed",
  note: "Friction by Darcy and Weisbach with the factor of Colebrook; bends and mitres by the book's formulas; exit counted once, in the hood.",
};

/** At constant speed a fan moves the same volume whatever the density; its pressure goes with the density. */
export const fanLaw: Basis = {
  document: "Fan laws",
  publisher: "",
  edition: "",
  section: "change of density at constant speed",
  force: "advice",
  confirmed: "seen",
  note: "Volume flow along the curve stays, pressure and power go with the density.",
};

/** Speeds at which industry conveys lint. */
export const lintSpeeds: Basis = {
  document: "Industrial ventilation manual",
  publisher: "",
  edition: "",
  section: "minimum duct velocities, very fine light dust",
  force: "advice",
  confirmed: "secondary",
  note: "Cotton lint at 2500 to 3000 fpm; other sources range over 2000 to 3000 fpm. No household duct is held to it.",
};

/** Heat and water at the wall of a duct. */
export const ductHeat: Basis = {
  document: "Fundamentals of Heat and Mass Transfer",
  publisher: "Wiley",
  edition: "",
  section: "internal flow, free convection on cylinders, heat and mass analogy",
  force: "advice",
  confirmed: "memory",
  note: "Inside film by Gnielinski, outside by Churchill and Chu with radiation; condensation by the analogy of heat and mass.",
};

/** Moist air. */
export const moistAirHandbook: Basis = {
  document: "ASHRAE Handbook Fundamentals",
  publisher: "ASHRAE",
  edition: "2017",
  section: "chapter 1",
  force: "advice",
  confirmed: "seen",
  note: "Saturation pressure, humidity ratio, enthalpy and volume of moist air.",
};

/** The load of the federal dryer test. */
export const testLoad: Basis = {
  document: "10 CFR 430, subpart B",
  publisher: "US Department of Energy",
  edition: "2021",
  section: "appendices D1 and D2",
  force: "advice",
  confirmed: "memory",
  note: "A standard load of 8.45 lb bone dry at 57.5 % moisture, dried to 4 %.",
};

/** How a run is put together at the bench. */
export const ductWork: Basis = {
  ...commonPractice,
  note: "A joint is wrapped once with a quarter of the girth to spare; every leg has a support of its own; the transition duct has a clamp at each end.",
};

/** The back-pressure limit on the machine's own sheet. */
export const machineSheet: Basis = {
  document: "Machine's installation sheet",
  publisher: "",
  edition: "",
  section: "",
  force: "maker",
  confirmed: "stated",
};
