import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inUnit, si } from "../../src/core/quantity/index.js";
import { lookUp } from "../../src/core/table/index.js";
import { gasConnector } from "../../src/plumbing/index.js";
import { connectorBores, connectorTable } from "../../src/plumbing/tables/gas-connectors.js";
import { reference } from "../references.js";
import { printedIn, valueIn } from "./governing.js";

const { rows, tolerance } = reference("plumbing/gas-connector.csv");
const good = {
  kind: "dryer",
  fuel: "naturalGas",
  heatInput: "22,000 Btu/h",
  connection: "flexible",
  length: "4 ft",
  capacity: "60,000 Btu/h",
  isNew: true,
  connectors: 1,
  concealed: false,
  shutoff: "5 ft",
  shutoffInRoom: true,
  shutoffReached: true,
} as const;
const check = (change: object, at?: Parameters<typeof gasConnector>[1]) => gasConnector({ ...good, ...change }, at);

describe("the connector tables", () => {
  test("are the printed ones, transcribed a second time, and fall with length", () => {
    const printed = connectorBores.map((bore) =>
      connectorTable[bore].rows.map(([, watts]) => (watts / si(1, "MBH")).toFixed(1)).join(" "),
    );
    expect(printed).toEqual([
      "48.0 43.8 40.0 36.4 33.4 28.3 24.9 23.1",
      "102.0 93.1 85.5 77.1 71.1 60.5 53.2 48.1",
      "180.0 164.2 150.0 136.0 125.0 106.0 93.2 86.0",
    ]);
    expect(connectorTable["1/4"].rows.map(([metres]) => Math.round(metres / si(1, "in")))).toEqual([
      12, 18, 24, 30, 36, 48, 60, 72,
    ]);
  });
});

describe("plumbing/gas-connector", () => {
  test.each(rows)("$limit $document $edition $when: $value $unit", (row) => {
    expect(Math.abs(valueIn(gasConnector.limits, row)! - printedIn(row)!)).toBeLessThanOrEqual(tolerance);
  });

  test("exactly 6 ft, and exactly its capacity, pass", () => {
    expect(check({ length: "6 ft" }).verdict).toBe("pass");
    expect(check({ length: "6 ft 1/16 in" })).toMatchObject({ verdict: "fail", messageId: "tooLong" });
    expect(check({ capacity: "22,000 Btu/h" }).verdict).toBe("pass");
    expect(check({ capacity: "21,999 Btu/h" })).toMatchObject({ verdict: "fail", messageId: "tooSmall" });
  });

  test("names each fault, shows the steps and cites the text", () => {
    const finding = check({ length: "8 ft", isNew: false });
    expect(finding.message).toBe(
      "The connector is 8 ft long; 6 ft is the most, and joining two is not allowed. The connector was used before; a new one must be fitted with every installation.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "8 ft at most 6 ft: does not hold",
      "22,000 Btu/h at most 60,000 Btu/h: holds",
      "5 ft at most 6 ft: holds",
    ]);
    expect(finding.basis[0]).toMatchObject({ document: "IRC", section: "G2422.1.2.1" });
    expect(finding.remedies.map(({ message }) => message)).toEqual([
      "Fit one new listed connector of 6 ft, and bring the pipe nearer if it does not reach.",
    ]);
    expect(finding.cautions[0]).toMatch(/^If you smell gas/);
  });

  test("trap: between two lengths of the table the longer one counts, not the mean", () => {
    const at = (inches: number) => lookUp(connectorTable["3/8"], si(inches, "in"))! / si(1, "MBH");
    expect(at(54)).toBeCloseTo(53.2, 9);
    expect(at(54)).not.toBeCloseTo((60.5 + 53.2) / 2, 1);
    expect(lookUp(connectorTable["3/8"], si(73, "in"))).toBeUndefined();
  });

  test("trap: two short connectors end to end are not one long one", () => {
    expect(check({ connectors: 2 })).toMatchObject({ verdict: "fail", messageId: "joined" });
  });

  test("trap: ranges and dryers need no sediment trap, and the straight-through kind is none at all", () => {
    expect(check({ trap: "none" }).verdict).toBe("pass");
    expect(check({ trap: "straight" }).messageId).toBe("trapWrong");
    const oven = { ...good, kind: "oven" } as const;
    expect(gasConnector({ ...oven, trap: "none" })).toMatchObject({ verdict: "review", messageId: "trapUnsure" });
    expect(gasConnector({ ...oven, trap: "turns" }).verdict).toBe("pass");
    expect(gasConnector({ ...oven, kind: "washer", trap: "none" }).messageId).toBe("trapMissing");
  });

  test("trap: a valve 5 ft away is within one edition's reach and beyond another's", () => {
    const upc = (edition: 2006 | 2012) => ({
      jurisdiction: { adopted: { upc: edition, imc: 2006 as const }, building: "multifamily" as const },
    });
    expect(check({}, upc(2012)).verdict).toBe("pass");
    expect(check({}, upc(2006))).toMatchObject({ verdict: "fail", messageId: "shutoffFar" });
  });

  test("asks for what is missing or too close, and points at what cannot be read", () => {
    expect(check({ capacity: undefined }).missing).toMatchObject([{ path: ["capacity"] }]);
    expect(check({ length: "6 ft ± 1 in" }).messageId).toBe("tooCloseToCall");
    expect(gasConnector.try({ ...good, heatInput: 22000 }).fault?.issues[0]).toMatchObject({
      path: ["heatInput"],
      code: "noUnit",
    });
    expect(check({ fuel: "electric" }).verdict).toBe("notApplicable");
  });

  test("laws: capacity falls with length and rises with bore", () => {
    const inches = fc.integer({ min: 1, max: 72 });
    fc.assert(
      fc.property(inches, inches, (a, b) => {
        const [short, long] = [Math.min(a, b), Math.max(a, b)];
        const at = (bore: "1/4" | "3/8" | "1/2", n: number) => lookUp(connectorTable[bore], si(n, "in"))!;
        for (const bore of connectorBores) expect(at(bore, long)).toBeLessThanOrEqual(at(bore, short));
        expect(at("1/4", a)).toBeLessThan(at("3/8", a));
        expect(at("3/8", a)).toBeLessThan(at("1/2", a));
        expect(inUnit(si(a, "in"), "in")).toBeCloseTo(a, 9);
      }),
    );
  });
});
