import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cordAmpacity, cordMatch, mates } from "../../src/electrical/index.js";
import { type ConfigurationName, configurations } from "../../src/electrical/tables/configurations.js";
import { cordRows } from "../../src/electrical/tables/cord-ampacity.js";
import { type SocketName, sockets } from "../../src/electrical/tables/sockets.js";
import { reference } from "../references.js";

const { rows } = reference("electrical/cord-match.csv");
const names = Object.keys(configurations) as ConfigurationName[];

const dryer = {
  kind: "dryer",
  plate: { voltage: "240 V", neutral: true, current: "23 A" },
  system: "120/240 V",
} as const;
const fourWire = {
  ...dryer,
  circuit: { isNew: true, ground: true },
  receptacle: { configuration: "14-30" },
  cord: { plug: "14-30", size: "10 AWG", length: "5 ft", strap: "removed" },
} as const;
const old = {
  isNew: false,
  ground: false,
  startsAt: "service",
  metal: "copper",
  neutral: { size: "10 AWG", covering: "insulated" },
} as const;
const threeWire = {
  ...dryer,
  circuit: old,
  receptacle: { configuration: "10-30" },
  cord: { plug: "10-30", size: "10 AWG", length: "5 ft", strap: "fitted" },
} as const;
const at = (nec: 2014 | 2017 | 2020 | 2023) => ({ jurisdiction: { adopted: { nec } } });

describe("the tables", () => {
  test.each(rows.filter(({ what }) => what === "cord"))("a $name cord carries $first A or $second A", (row) => {
    expect(cordAmpacity(row.name!, 3)).toBe(Number(row.first));
    expect(cordAmpacity(row.name!, 2)).toBe(Number(row.second));
  });

  test.each(rows.filter(({ what }) => what === "configuration"))("$name has $first poles and $second wires", (row) => {
    const { contacts } = configurations[row.name as ConfigurationName];
    expect(contacts.replace("G", "")).toHaveLength(Number(row.first));
    expect(contacts).toHaveLength(Number(row.second));
  });

  test("are complete: 7 sizes of cord, 25 configurations, a rating that the name repeats", () => {
    expect(cordRows).toHaveLength(7);
    expect(names).toHaveLength(25);
    for (const name of names) {
      const { amps, contacts, volts } = configurations[name];
      expect(name.endsWith(`-${amps}`)).toBe(true);
      expect(volts).toBe(contacts.startsWith("LL") ? (contacts.includes("N") ? "125/250" : "250") : "125");
    }
  });

  test("a plug goes into its own receptacle, a 15 A one into two of 20 A, and no other", () => {
    const pairs = names.flatMap((plug) => names.filter((receptacle) => mates(plug, receptacle)).map((r) => [plug, r]));
    expect(pairs.filter(([plug, receptacle]) => plug !== receptacle)).toEqual([
      ["5-15", "5-20"],
      ["6-15", "6-20"],
    ]);
  });
});

describe("electrical/cord-match", () => {
  test("four wires: fits, and says what lands where", () => {
    const finding = cordMatch(fourWire);
    expect(finding.verdict).toBe("pass");
    expect(finding.message).toBe(
      "The 14-30 cord fits machine and receptacle. The two lines go to the outer terminals, white to the centre one, green to the green screw on the cabinet; the bonding strap is off the cabinet, under the centre screw with the white.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual(["23 A at most 30 A: holds", "23 A at most 30 A: holds"]);
  });

  test("three wires stay only where every condition of the edition holds", () => {
    const verdict = (circuit: object, edition: 2014 | 2017 | 2020 | 2023 = 2020) =>
      cordMatch.try({ ...threeWire, circuit: { ...old, ...circuit } }, at(edition)).finding!.messageId;
    expect(verdict({})).toBe("threeWireStays");
    expect(verdict({ isNew: true })).toBe("threeWireNew");
    expect(verdict({ ground: true })).toBe("threeWireGrounded");
    expect(verdict({ neutral: { size: "12 AWG", covering: "insulated" } })).toBe("neutralSmall");
    expect(verdict({ metal: "aluminum" })).toBe("neutralSmall");
    expect(verdict({ metal: "aluminum", neutral: { size: "8 AWG", covering: "insulated" } })).toBe("threeWireStays");
    const bare = { size: "10 AWG", covering: "bare" };
    expect(verdict({ wiring: "SE", neutral: bare })).toBe("threeWireStays");
    expect(verdict({ wiring: "SE", neutral: bare, startsAt: "subpanel" })).toBe("neutralBare");
  });

  test("a bare wire in NM cable never was a neutral, though a 10-30 plug goes into the 10-30 receptacle", () => {
    const circuit = { ...old, wiring: "NM", neutral: { size: "10 AWG", covering: "bare" } } as const;
    expect(mates("10-30", "10-30")).toBe(true);
    for (const edition of [2014, 2017, 2020, 2023] as const) {
      expect(cordMatch({ ...threeWire, circuit }, at(edition)).messageId).toBe("neutralBare");
    }
  });

  test("a covered bare neutral from a subpanel is allowed since 2023", () => {
    const neutral = { size: "10 AWG", covering: "bare", covered: true } as const;
    const circuit = { ...old, wiring: "SE", startsAt: "subpanel", neutral } as const;
    expect(cordMatch({ ...threeWire, circuit }, at(2020)).messageId).toBe("neutralBare");
    expect(cordMatch({ ...threeWire, circuit }, at(2023)).messageId).toBe("threeWireStays");
  });

  test("a 10 AWG cord that does on 120/240 V falls short on 208Y/120 V: 25 A, not 30 A", () => {
    const input = { ...fourWire, plate: { voltage: "208 V", neutral: true, current: "27 A" } } as const;
    expect(cordMatch({ ...input, system: "208Y/120 V" })).toMatchObject({
      messageId: "cordSmall",
      limit: { text: "25 A" },
    });
    expect(cordMatch({ ...fourWire, plate: { ...fourWire.plate, current: "27 A" } }).verdict).toBe("pass");
    const exactly = { ...input, plate: { ...input.plate, current: "25 A" } };
    expect(cordMatch({ ...exactly, system: "208Y/120 V" }).verdict).toBe("pass");
  });

  test("the length of a dishwasher's cord follows the edition", () => {
    const input = {
      kind: "dishwasher",
      plate: { voltage: "120 V", current: "10 A" },
      system: "120/240 V",
      receptacle: { configuration: "5-15" },
      cord: { plug: "5-15", size: "14 AWG", length: "6 ft 6 in" },
    } as const;
    expect(cordMatch(input, at(2017)).verdict).toBe("pass");
    expect(cordMatch(input, at(2014))).toMatchObject({ messageId: "cordLong", limit: { text: "4 ft" } });
    const close = { ...input, cord: { ...input.cord, length: "6 ft 6 in ± 1 in" } };
    expect(cordMatch(close, at(2017)).messageId).toBe("tooCloseToCall");
  });

  test("the frame never goes ungrounded, whatever strap, circuit and cord", () => {
    const strap = fc.constantFrom("fitted", "removed", "none" as const);
    const circuit = fc.record({
      isNew: fc.boolean(),
      ground: fc.boolean(),
      startsAt: fc.constantFrom("service", "subpanel" as const),
    });
    fc.assert(
      fc.property(fc.constantFrom(...names), strap, circuit, (name, state, found) => {
        const { verdict } = cordMatch({
          ...dryer,
          circuit: { ...found, metal: "copper", neutral: { size: "10 AWG", covering: "insulated" } },
          receptacle: { configuration: name },
          cord: { plug: name, size: "8 AWG", strap: state },
        });
        if (verdict !== "pass") return;
        const { contacts } = configurations[name];
        expect(contacts.startsWith("LL") && contacts.includes("N")).toBe(true);
        expect(state === "fitted").toBe(!contacts.includes("G"));
        if (contacts.includes("G")) expect(found.ground).toBe(true);
        else expect(found).toMatchObject({ isNew: false, ground: false });
      }),
    );
  });

  test("every remedy passes when it is applied", () => {
    let tried = 0;
    for (const example of cordMatch.examples) {
      for (const { changes } of cordMatch(example.input, example.at).remedies) {
        const changed = structuredClone(example.input) as Record<string, Record<string, unknown>>;
        for (const { path, value } of changes) changed[path[0]!]![path[1]!] = value;
        expect(cordMatch.try(changed, example.at).finding?.verdict).toBe("pass");
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(8);
  });

  test("a machine wired in keeps the same rules for frame and strap", () => {
    const wired = { ...dryer, hardWired: true } as const;
    expect(cordMatch({ ...wired, circuit: { ground: true }, cord: { strap: "removed" } }).messageId).toBe("wiredFour");
    expect(cordMatch({ ...wired, circuit: { ground: true }, cord: { strap: "fitted" } }).messageId).toBe("strapMustGo");
    expect(cordMatch({ ...wired, circuit: { ground: true } }).missing).toMatchObject([{ path: ["cord", "strap"] }]);
    expect(cordMatch({ ...wired, circuit: old, cord: { strap: "fitted" } }).messageId).toBe("threeWireStays");
    expect(cordMatch({ ...wired, circuit: { ...old, isNew: true } }).messageId).toBe("threeWireNew");
  });

  test("a ground contact with no ground behind it fails, whatever else fits", () => {
    expect(cordMatch({ ...fourWire, circuit: { isNew: false, ground: false } }).messageId).toBe("groundMissing");
    const gas = { plate: { voltage: "120 V", current: "6 A" }, system: "120/240 V" } as const;
    const cord = { plug: "5-15", size: "16 AWG" } as const;
    const receptacle = { configuration: "5-15" } as const;
    expect(cordMatch({ ...gas, cord, receptacle, circuit: { ground: false } }).messageId).toBe("groundMissing");
    expect(cordMatch({ ...gas, cord, receptacle, circuit: { ground: true } }).verdict).toBe("pass");
  });

  test("on 230 V holds the machine against the rated current of its plug", () => {
    const at230 = (power: string, standard: SocketName) =>
      cordMatch({
        plate: { voltage: "230 V", power },
        system: "230/400 V",
        receptacle: { standard },
        cord: { plugStandard: standard },
      }).verdict;
    // kilowatts at the rated current: 16 A 3.68, 13 A 2.99, 10 A 2.30, 15 A 3.45
    expect([at230("3.68 kW", "CEE 7"), at230("3.69 kW", "CEE 7")]).toEqual(["pass", "fail"]);
    expect([at230("2.99 kW", "BS 1363"), at230("3 kW", "BS 1363")]).toEqual(["pass", "fail"]);
    expect([at230("2.3 kW", "AS/NZS 3112, 10 A"), at230("2.31 kW", "AS/NZS 3112, 10 A")]).toEqual(["pass", "fail"]);
    expect([at230("3.45 kW", "AS/NZS 3112, 15 A"), at230("3.46 kW", "AS/NZS 3112, 15 A")]).toEqual(["pass", "fail"]);
    const amps = Object.entries(sockets).map(([name, socket]) => `${name}: ${socket.amps}`);
    expect(amps.join("; ")).toBe(
      "CEE 7: 16; BS 1363: 13; BS 546, 5 A: 5; BS 546, 15 A: 15; SN 441011, type 13: 10; SN 441011, type 23: 16; CEI 23-50, 10 A: 10; CEI 23-50, 16 A: 16; DS 60884-2-D1: 13; AS/NZS 3112, 10 A: 10; AS/NZS 3112, 15 A: 15",
    );
  });

  test("asks for what was not looked at, and names what cannot be read", () => {
    expect(cordMatch({ ...threeWire, circuit: { isNew: false, ground: false } })).toMatchObject({
      verdict: "review",
      missing: [
        { path: ["circuit", "metal"] },
        { path: ["circuit", "neutral", "size"] },
        { path: ["circuit", "neutral", "covering"] },
      ],
    });
    const read = cordMatch.try({ ...fourWire, cord: { ...fourWire.cord, plug: "NEMA 14-30" } });
    expect(read.fault?.issues[0]).toMatchObject({ path: ["cord", "plug"], code: "notAccepted" });
  });
});

describe("what is not known, what is assumed, and what puts it right", () => {
  const finding = (input: object, change: object = {}, edition: 2014 | 2017 | 2020 | 2023 = 2020) =>
    cordMatch.try({ ...input, ...change }, at(edition)).finding!;
  const asked = (input: object, change: object) => finding(input, change).missing.map(({ path }) => path.join("."));
  const bare = { ...old, neutral: { size: "10 AWG", covering: "bare" } };

  test.each<[string, object, object, string[]]>([
    ["plate", fourWire, { plate: {} }, ["plate.voltage"]],
    ["neutral", fourWire, { plate: { voltage: "240 V", current: "23 A" } }, ["plate.neutral"]],
    ["current", fourWire, { plate: { voltage: "240 V", neutral: true } }, ["plate.current"]],
    ["system", fourWire, { system: undefined }, ["system"]],
    ["receptacle", fourWire, { receptacle: undefined }, ["receptacle.configuration"]],
    ["strap", fourWire, { cord: { ...fourWire.cord, strap: undefined } }, ["cord.strap"]],
    ["size", fourWire, { cord: { ...fourWire.cord, size: undefined } }, ["cord.size"]],
    ["age", threeWire, { circuit: { ...old, isNew: undefined } }, ["circuit.isNew"]],
    ["ground", threeWire, { circuit: { ...old, ground: undefined } }, ["circuit.ground"]],
    ["age and ground", threeWire, { circuit: {} }, ["circuit.isNew", "circuit.ground"]],
    ["metal", threeWire, { circuit: { ...old, metal: undefined } }, ["circuit.metal"]],
    [
      "neutral's make",
      threeWire,
      { circuit: { ...old, neutral: {} } },
      ["circuit.neutral.size", "circuit.neutral.covering"],
    ],
    [
      "neutral's size",
      threeWire,
      { circuit: { ...old, neutral: { covering: "insulated" } } },
      ["circuit.neutral.size"],
    ],
    ["bare neutral's cable", threeWire, { circuit: bare }, ["circuit.wiring"]],
    ["its start", threeWire, { circuit: { ...bare, wiring: "SE", startsAt: undefined } }, ["circuit.startsAt"]],
    ["box", { ...dryer, hardWired: true }, {}, ["circuit.ground"]],
  ])("asks for the %s by its path", (_, input, change, paths) => {
    expect(finding(input, change).verdict).toBe("review");
    expect(asked(input, change)).toEqual(paths);
  });

  test("says that a ground is taken for granted only where nobody looked", () => {
    const assumed = (circuit: object) => finding(fourWire, { circuit }).assumptions.join();
    expect(assumed({ isNew: true })).toMatch(/taken to be joined to a ground/);
    expect(assumed({ isNew: true, ground: true })).not.toMatch(/taken to be joined/);
    expect(finding(threeWire).assumptions.join()).not.toMatch(/taken to be joined/); // 10-30 has no ground contact
  });

  test("cites the column of the cord table that it used: three conductors carry on 208Y/120 V, two on 120/240 V", () => {
    const note = (change: object) =>
      finding(fourWire, change).basis.find(({ section }) => section === "Table 400.5(A)(1)")!.note;
    expect(note({})).toMatch(/Column B/);
    expect(note({ system: "208Y/120 V", plate: { voltage: "208 V", neutral: true, current: "20 A" } })).toMatch(
      /Column A/,
    );
    // without a neutral two carry there too
    const two = { system: "208Y/120 V", plate: { voltage: "208 V", neutral: false, current: "20 A" } };
    expect(note({ ...two, receptacle: { configuration: "6-30" }, cord: { plug: "6-30", size: "10 AWG" } })).toMatch(
      /Column B/,
    );
    expect(finding(threeWire).basis.map(({ section }) => section)).toContain("250.140");
  });

  test("the strap goes off with four wires and on with three, and the remedy says which", () => {
    const strap = (input: { cord: object }, now: string) => {
      const { messageId, remedies } = finding(input, { cord: { ...input.cord, strap: now } });
      return [messageId, remedies[0]?.changes[0]?.value];
    };
    expect(strap(fourWire, "fitted")).toEqual(["strapMustGo", "removed"]);
    expect(strap(threeWire, "removed")).toEqual(["strapMissing", "fitted"]);
    expect(finding(fourWire, { cord: { ...fourWire.cord, strap: "fitted" } }).remedies[0]!.message).toMatch(
      /^Take off /i,
    );
  });

  test("offers a cord that carries what the receptacle gives, and no cord where the plug is unknown", () => {
    const small = finding(fourWire, { cord: { ...fourWire.cord, size: "14 AWG" } });
    expect(small.messageId).toBe("cordSmall");
    expect(small.remedies.map(({ changes }) => changes)).toContainEqual([
      { path: ["cord", "plug"], value: "14-30" },
      { path: ["cord", "size"], value: "10 AWG" }, // 30 A in column B
    ]);
  });

  test("on 230 V asks for the socket and the plug, each by its path, and cites the plug's standard", () => {
    const abroad = { plate: { voltage: "230 V", current: "10 A" }, system: "230/400 V" };
    const [name] = Object.keys(sockets) as [SocketName];
    expect(asked(abroad, {})).toEqual(["receptacle.standard", "cord.plugStandard"]);
    expect(asked(abroad, { receptacle: { standard: name } })).toEqual(["cord.plugStandard"]);
    expect(asked(abroad, { cord: { plugStandard: name } })).toEqual(["receptacle.standard"]);
  });
});
