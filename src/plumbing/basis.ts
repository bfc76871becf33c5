/** What the plumbing rules rest on beside their limits. */
import { type Basis, commonPractice } from "../core/basis/index.js";
import { type Joint, turnHabits } from "./tables/joint-turns.js";

const handbook = { publisher: "", edition: "", force: "advice" } as const;

/** The habit of the trade for one kind of joint. */
export const habitOf = (joint: Joint): Basis => {
  const { confirmed, note } = turnHabits[joint];
  return { ...commonPractice, confirmed, note };
};

/** Thread dimensions of hose couplings. */
export const hoseThread: Basis = {
  document: "ASME B1.20.7",
  publisher: "ASME",
  edition: "",
  section: "3/4-11.5 NH",
  force: "advice",
  confirmed: "seen",
  note: "Eleven and a half threads to the inch.",
};

/** Squeeze of seals that stay still. */
export const sealSqueeze: Basis = {
  ...handbook,
  document: "Mechanical Engineers' Handbook, volume 3",
  section: "p. 290",
  confirmed: "seen",
  note: "At most 30 % for a static seal; the lower end of 15 % is from memory.",
};

/** Stiffness of rubber by hardness. */
export const rubberStiffness: Basis = {
  ...handbook,
  document: "A. N. Gent, Rubber Chemistry and Technology 31",
  edition: "1958",
  section: "relation of hardness to Young's modulus",
  confirmed: "secondary",
  note: "A second published rule gives 1.8 times as much at 70 Shore A; the range spans both.",
};

/** Torque of a screw from the force along it. */
export const screwTorque: Basis = {
  ...handbook,
  document: "Shigley's Mechanical Engineering Design",
  section: "power screws, 60° thread",
  confirmed: "memory",
};

/** Wrench make-up of taper pipe threads. */
export const taperThreads: Basis = {
  document: "ASME B1.20.1",
  publisher: "ASME",
  edition: "",
  section: "basic dimensions, wrench make-up",
  force: "advice",
  confirmed: "secondary",
};

/** Torque of flare nuts. */
export const flareTorque: Basis = {
  ...handbook,
  document: "Machinery manuals, SAE J514 flare nuts",
  section: "torque tables",
  confirmed: "secondary",
  note: "The charts differ, and the nut's maker decides; brass takes half.",
};

/** Hoses are sold in set lengths. */
export const stockLengths: Basis = {
  ...commonPractice,
  note: "Hoses are sold in 4, 5, 6, 8, 10 and 12 ft; two joined hoses double the joints that can let go.",
};

/** Dimensions of the threads that meet in a hook-up. */
export const threadStandards: Basis = {
  document: "ASME B1.20.7, ASME B1.20.1, ISO 228-1, ISO 7-1, SAE J512, SAE J514, NFPA 1963",
  publisher: "",
  edition: "",
  section: "basic dimensions",
  force: "advice",
  confirmed: "secondary",
  note: "Compression threads and the 15/16-16 gas flare nut are from memory.",
};

/** Product standards of backflow devices. */
export const deviceStandards: Basis = {
  document: "ASSE 1001, 1006, 1007, 1011, 1021, 1052",
  publisher: "ASSE International",
  edition: "",
  section: "product standards by kind of device",
  force: "mandatory",
  confirmed: "memory",
  note: "A washer is listed to 1007 and a dishwasher to 1006 with protection of its own.",
};

/** Heat content of fuel gases in the code's examples. */
export const gasHeat: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "2018",
  section: "appendix A, examples",
  force: "advice",
  confirmed: "seen",
  note: "Natural gas 1,000 Btu/ft³; propane's 2,516 Btu/ft³ from trade pages.",
};

/** Input at altitude. */
export const altitudeCode: Basis = {
  document: "NFPA 54",
  publisher: "NFPA",
  edition: "",
  section: "high-altitude installations",
  force: "mandatory",
  confirmed: "secondary",
  note: "Above 2,000 ft, 4 % less for each 1,000 ft above the sea; the listed instructions of the machine decide where they differ.",
};

/** Sizing of gas piping. */
export const gasSizing: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "2018",
  section: "402.4, equations 4-1 and 4-2; appendix A",
  force: "mandatory",
  confirmed: "secondary",
  note: "Factors of the gases seen; the constants from memory, reproducing 220 printed cells. Where table and equation differ, the stricter is used.",
};

/** What cooling does to a test. */
export const coolingTest: Basis = {
  document: "IFGC",
  publisher: "International Code Council",
  edition: "2018",
  section: "appendix A, pressure drop due to temperature change",
  force: "advice",
  confirmed: "seen",
};

/** Friction of water in pipes. */
export const darcyBasis: Basis = {
  ...handbook,
  document: "C. F. Colebrook, Journal of the Institution of Civil Engineers 11",
  edition: "1939",
  section: "friction factor, with Darcy and Weisbach's equation",
  confirmed: "computed",
};

/** The trade's formula for water in pipes. */
export const hazenBasis: Basis = {
  ...handbook,
  document: "Hazen and Williams",
  section: "0.2083 form in feet per 100 feet",
  confirmed: "secondary",
  note: "For cold water near 1 m/s; in hot water it shows more than is lost.",
};

/** Water hammer. */
export const hammerBasis: Basis = {
  ...handbook,
  document: "N. Joukowsky (1898), D. J. Korteweg (1878), L. Michaud (1878)",
  section: "pressure wave, wave speed, slow closure; in any text on water hammer",
  confirmed: "secondary",
};

/** Gravity flow in drains. */
export const manningBasis: Basis = {
  ...handbook,
  document: "R. Manning (1891)",
  section: "open-channel flow; n for plastic, copper and cast iron from handbook tables",
  confirmed: "computed",
};
