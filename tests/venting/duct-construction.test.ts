import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ductConstruction } from "../../src/venting/index.js";
import { reference } from "../references.js";

const { rows } = reference("venting/duct-construction.csv");

const good = {
  fuel: "electric",
  diameter: "4 in",
  material: "galvanized steel",
  thickness: "0.0187 in",
  smooth: true,
  laps: "with the air",
  fastenerReach: "0 in",
  sealed: true,
  supportSpacing: "4 ft",
  concealed: false,
  alone: true,
  fireDamper: false,
  riser: false,
} as const;

const atRow = (row: Readonly<Record<string, string>>) => ({
  jurisdiction: {
    adopted: { [row.document!]: Number(row.edition) },
    building: row.building as "dwelling" | "multifamily",
  },
});

describe("venting/duct-construction", () => {
  test.each(rows)("has the printed figures of $document $edition for $fuel", (row) => {
    const at = atRow(row);
    const fuel = row.fuel as "electric" | "naturalGas";
    const verdict = (change: object) => ductConstruction({ ...good, fuel, ...change }, at).verdict;
    expect(verdict({ thickness: `${row.thickness_in} in` })).toBe("pass");
    expect(verdict({ thickness: `${Number(row.thickness_in) - 0.0001} in` })).toBe("fail");
    expect(verdict({ fastenerReach: `${row.fasteners_in} in` })).toBe("pass");
    expect(verdict({ fastenerReach: `${Number(row.fasteners_in) + 0.01} in` })).toBe("fail");
    if (row.supports_ft === "") return;
    expect(verdict({ supportSpacing: `${row.supports_ft} ft` })).toBe("pass");
    expect(verdict({ supportSpacing: `${row.supports_ft} ft 1 in` })).toBe("fail");
  });

  test("trap: 12 ft between supports is right in the general chapter and wrong for the same duct on a gas dryer", () => {
    const hung = { ...good, supportSpacing: "12 ft" };
    expect(ductConstruction(hung).verdict).toBe("pass");
    const gas = ductConstruction({ ...hung, fuel: "naturalGas" });
    expect(gas).toMatchObject({ verdict: "fail", messageId: "sagging", limit: { text: "4 ft" } });
    expect(gas.basis[0]).toMatchObject({ document: "IRC", section: "G2439.7.2" });
    expect(gas.message).toBe("The supports are 12 ft apart; they must be at most 4 ft apart.");
    expect(gas.remedies.map(({ message }) => message)).toEqual(["Put right: supports every 4 ft."]);
  });

  test("trap: 0.0157 in of metal is enough for the general chapter and too thin for the fuel-gas chapter", () => {
    const thin = { ...good, thickness: "0.0157 in" };
    expect(ductConstruction(thin).verdict).toBe("pass");
    expect(ductConstruction({ ...thin, fuel: "propane" })).toMatchObject({ verdict: "fail", messageId: "tooThin" });
  });

  test("asks for a wider look where the thickness cannot be told", () => {
    const finding = ductConstruction({ ...good, thickness: "0.016 in ± 0.001 in" });
    expect(finding).toMatchObject({ verdict: "review", messageId: "tooCloseToCall" });
    expect(finding.missing).toMatchObject([{ path: ["thickness"] }]);
  });

  test("never takes what was not looked at for good", () => {
    fc.assert(
      fc.property(fc.subarray(Object.keys(good).filter((key) => key !== "fuel")), (left) => {
        const some: Record<string, unknown> = { ...good };
        for (const key of left) delete some[key];
        const { finding } = ductConstruction.try(some);
        const asked = finding!.missing.map(({ path }) => path[0]);
        // riser is asked for by the mechanical code only
        expect(finding!.verdict).toBe(left.some((key) => key !== "riser") ? "review" : "pass");
        for (const key of left.filter((name) => name !== "riser")) expect(asked).toContain(key);
      }),
      { numRuns: 60 },
    );
  });

  test("wants plates only where the duct is near the face, and then looks at the plates", () => {
    const inside = { ...good, concealed: true } as const;
    expect(ductConstruction({ ...inside, faceDepth: "1 1/4 in" }).verdict).toBe("pass");
    expect(ductConstruction({ ...inside, faceDepth: "1 3/16 in" }).messageId).toBe("bare");
    expect(ductConstruction({ ...inside, plated: true }).missing.map(({ path }) => path[0])).toEqual([
      "plateThickness",
      "plateOverlap",
    ]);
  });

  test("mends several faults at once, and only so that the rule then passes", () => {
    const { remedies } = ductConstruction({ ...good, laps: "against the air", sealed: false, fireDamper: true });
    expect(remedies.map(({ message }) => message)).toEqual([
      "Put right: pieces turned round, joints sealed, damper out of the duct.",
    ]);
  });

  const inside = { ...good, concealed: true, faceDepth: "1/2 in" } as const;
  const flats = { jurisdiction: { building: "multifamily" } } as const;

  // Each fault alone: the message it fails with, and the one thing that puts it right.
  test.each<[fault: object, messageId: string, remedy: string | undefined]>([
    [{ diameter: "3 in" }, "tooNarrow", "a duct of 4 in"],
    [{ diameter: "6 in" }, "tooWide", "a duct of 4 in"],
    [{ material: "foil or plastic flexible" }, "notRigidMetal", "rigid galvanized duct"],
    [{ thickness: "0.013 in" }, "tooThin", "metal of 0.0157 in"],
    [{ smooth: false }, "rough", "a smooth inside"],
    [{ fastenerReach: "1/2 in" }, "fastenersLong", "screws out, joints taped"],
    [{ supportSpacing: "13 ft" }, "sagging", "supports every 12 ft"],
    [{ alone: false }, "shared", "a duct of its own"],
    [{ fireDamper: true }, "damperInside", "damper out of the duct"],
    [{ concealed: true, faceDepth: "1/2 in" }, "bare", "steel plates over the duct"],
    [{ riser: true, cleanout: false }, "noCleanout", "a cleanout at the riser"],
  ])("puts right %o", (fault, messageId, remedy) => {
    const at = "riser" in fault ? flats : undefined;
    const { finding } = ductConstruction.try({ ...good, ...fault }, at);
    expect(finding).toMatchObject({ verdict: "fail", messageId });
    expect(finding!.remedies.map(({ message }) => message)).toEqual([`Put right: ${remedy}.`]);
  });

  test("changes what is wrong and leaves what is right: flexible duct becomes metal that is thick and smooth enough", () => {
    const changed = (fault: object, at?: object) =>
      ductConstruction
        .try({ ...good, ...fault }, at as never)
        .finding!.remedies.flatMap(({ changes }) => changes.map(({ path, value }) => [path[0], value]));
    const flexible = { material: "foil or plastic flexible" } as const;
    expect(changed(flexible)).toEqual([["material", "galvanized steel"]]);
    expect(changed({ ...flexible, smooth: false, thickness: "0.001 in" }).map(([name]) => name)).toEqual([
      "material",
      "thickness",
      "smooth",
    ]);
    expect(changed({ ...flexible, thickness: undefined }).map(([name]) => name)).toEqual(["material", "thickness"]);
    // plates that are there and right are left; thin or short ones are changed
    const plated = { ...inside, plated: true, plateThickness: "0.0625 in", plateOverlap: "2 in" };
    expect(changed({ ...plated, sealed: false })).toEqual([["sealed", true]]);
    expect(changed({ ...plated, plateThickness: "0.06 in" }).map(([name]) => name)).toEqual([
      "plated",
      "plateThickness",
      "plateOverlap",
    ]);
    expect(changed({ ...plated, plateOverlap: "1 in" }).map(([name]) => name)).toContain("plateOverlap");
    // deep enough already: nothing about plates; PVC is for the authority, not for a swap
    expect(changed({ ...inside, faceDepth: "1 1/4 in", sealed: false })).toEqual([["sealed", true]]);
    expect(changed({ material: "PVC" })).toEqual([]);
    expect(changed({})).toEqual([]);
  });

  test("the mechanical code asks for the riser and then for its cleanout", () => {
    const asked = (change: object) => {
      const { riser: _, ...rest } = good;
      const { finding } = ductConstruction.try({ ...rest, ...change }, flats);
      return [finding!.verdict, ...finding!.missing.map(({ path }) => path[0])];
    };
    expect(asked({})).toEqual(["review", "riser"]);
    expect(asked({ riser: true })).toEqual(["review", "cleanout"]);
    expect(asked({ riser: false })).toEqual(["pass"]);
    expect(asked({ riser: true, cleanout: true })).toEqual(["pass"]);
  });

  test("asks how deep a concealed duct lies before it wants plates", () => {
    const { faceDepth: _, ...unknown } = inside;
    expect(ductConstruction(unknown)).toMatchObject({ verdict: "review", missing: [{ path: ["faceDepth"] }] });
  });

  test("says that all is sound only where it is", () => {
    const ids = (change: object) =>
      ductConstruction.try({ ...good, ...change }).finding!.parts.map(({ messageId }) => messageId);
    expect(ids({})[0]).toBe("sound");
    for (const fault of [{ sealed: false }, { sealed: undefined }]) expect(ids(fault)).not.toContain("sound");
  });

  test("offers nothing where what is missing stands in the way", () => {
    const { sealed: _, ...unknown } = good;
    expect(ductConstruction({ ...unknown, laps: "against the air" }).remedies).toEqual([]);
  });

  test("points at what cannot be read", () => {
    const read = ductConstruction.try({ ...good, thickness: "28" });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["thickness"], code: "noUnit" });
  });
});
