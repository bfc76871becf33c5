/**
 * Speed of operating points, as a ratio in one run: this package beside the same task in python3-fluids, the Debian
 * package. Run as `npx tsx tests/venting/bench-operating-point.ts`; it needs /usr/bin/python3 with fluids and scipy.
 */
import { execFileSync } from "node:child_process";
import { brand, si } from "../../src/core/quantity/index.js";
import { fanCurve, operatingPoint } from "../../src/physics/index.js";
import { type Piece, runLoss } from "../../src/venting/index.js";

const air = { density: si(1.2041, "kg/m3"), viscosity: si(1.813e-5, "Pa*s") };
const diameter = si(4, "in");
const curve = fanCurve(
  Array.from({ length: 231 }, (_, i) => ({
    flow: si(i, "cfm"),
    pressure: si(0.9 * Math.max(0, 1 - (i / 230) ** 2), "inH2O"),
  })),
);
const runs = Array.from({ length: 1000 }, (_, i): Piece[] => [
  { piece: "straight", length: brand<"length">(1 + 0.03 * i), roughness: si(0.09, "mm") },
  { piece: "hood", loss: 1.5 + 0.002 * i },
]);
const all = () =>
  runs.reduce((sum, pieces) => sum + operatingPoint(curve, (flow) => runLoss(pieces, diameter, air, flow)).flow, 0);

all();
const ROUNDS = 10;
const start = performance.now();
let sum = 0;
for (let round = 0; round < ROUNDS; round++) sum = all();
const ours = (1000 * ROUNDS * runs.length) / (performance.now() - start);
const script = new URL("../references/venting/tools/operating_point.py", import.meta.url).pathname;
const theirs = JSON.parse(execFileSync("/usr/bin/python3", [script], { encoding: "utf8" })) as {
  fluids: string;
  perSecond: number;
  sum: number;
};
const apart = Math.abs(sum / theirs.sum - 1);
console.log(
  `operating points a second: ${Math.round(ours)} here, ${Math.round(theirs.perSecond)} in fluids ${theirs.fluids}`,
);
console.log(`ratio ${(ours / theirs.perSecond).toFixed(1)}; the flows agree to ${apart.toExponential(1)}`);
if (apart > 1e-4) throw new Error("the two do not agree");
