/** The documents a jurisdiction adopts, their known editions, and which of their texts bind where. */

/** A document that a jurisdiction adopts by edition. */
export const adoptable = {
  irc: {
    short: "IRC",
    title: "International Residential Code",
    publisher: "International Code Council",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  imc: {
    short: "IMC",
    title: "International Mechanical Code",
    publisher: "International Code Council",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  ifgc: {
    short: "IFGC",
    title: "International Fuel Gas Code",
    publisher: "International Code Council",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  ipc: {
    short: "IPC",
    title: "International Plumbing Code",
    publisher: "International Code Council",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  umc: {
    short: "UMC",
    title: "Uniform Mechanical Code",
    publisher: "IAPMO",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  upc: {
    short: "UPC",
    title: "Uniform Plumbing Code",
    publisher: "IAPMO",
    editions: [2006, 2009, 2012, 2015, 2018, 2021, 2024],
  },
  nec: {
    short: "NEC",
    title: "National Electrical Code (NFPA 70)",
    publisher: "NFPA",
    editions: [2014, 2017, 2020, 2023, 2026],
  },
  iec60364: {
    short: "IEC 60364",
    title: "Low-voltage electrical installations",
    publisher: "IEC",
    editions: [2005, 2009, 2017],
  },
} as const satisfies Record<string, { short: string; title: string; publisher: string; editions: readonly number[] }>;

/** The key of a document that can be adopted, for example `"irc"`. */
export type Adoptable = keyof typeof adoptable;

/**
 * A text that sets limits. The residential code is two: its general chapters, and its fuel-gas chapter, which repeats
 * the fuel-gas code for houses and does not always say the same as the general chapters.
 */
export type Text = Adoptable | "ircFuelGas";

/** The document a text is part of. */
export const documentOf = (text: Text): Adoptable => (text === "ircFuelGas" ? "irc" : text);

/** What a limit is about, since documents are adopted by subject. */
export type Subject = "electrical" | "mechanical" | "plumbing" | "fuelGas";

/** Kinds of building. `dwelling`: a detached house, a two-family house or a townhouse, which the residential code covers. */
export const buildings = ["dwelling", "multifamily", "commercial"] as const;
/** A kind of building. */
export type Building = (typeof buildings)[number];

/** What heats the machine. `none` where it only turns or cools. */
export const fuels = ["electric", "naturalGas", "propane", "none"] as const;
/** What heats a machine. */
export type Fuel = (typeof fuels)[number];

/** Whether a fuel is burnt. */
export const burns = (fuel: Fuel): boolean => fuel === "naturalGas" || fuel === "propane";

/** The editions adopted at a place, by document. */
export type Adopted = Partial<Record<Adoptable, number>>;

/**
 * The texts that bind for a subject, from what is adopted, the kind of building and the fuel. A gas machine in a house
 * answers to the fuel-gas chapter as well as to the general ones; in any other building to the mechanical and the
 * fuel-gas code. Where a uniform code is adopted for the subject it stands in place of the international one.
 *
 * @example bindingTexts({ irc: 2021, imc: 2021 }, "mechanical", "dwelling", "naturalGas") // ["irc", "ircFuelGas"]
 */
export function bindingTexts(adopted: Adopted, subject: Subject, building: Building, fuel: Fuel): Text[] {
  const has = (document: Adoptable): boolean => adopted[document] !== undefined;
  const house = building === "dwelling" && has("irc");
  const gasText: Text[] = house ? ["ircFuelGas"] : has("ifgc") ? ["ifgc"] : [];
  switch (subject) {
    case "electrical":
      return (["nec", "iec60364"] as const).filter(has);
    case "fuelGas":
      return gasText.length > 0 ? gasText : (["upc"] as const).filter(has);
    case "plumbing":
      return has("upc") ? ["upc"] : house ? ["irc"] : (["ipc"] as const).filter(has);
    case "mechanical": {
      if (has("umc")) return ["umc"];
      const general: Text[] = house ? ["irc"] : (["imc"] as const).filter(has);
      return burns(fuel) ? [...general, ...gasText] : general;
    }
  }
}
