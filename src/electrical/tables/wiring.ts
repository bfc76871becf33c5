/** Cable types and insulations: the column they start from and the column they end at. */

/** One wiring method. */
export interface WiringFacts {
  /** Temperature rating of the insulation [°C], where correction and adjustment start. */
  readonly insulation_C: 60 | 75 | 90;
  /** Column the result may not exceed [°C], where the cable's own article caps it. */
  readonly cap_C: 60 | null;
  /** Section that caps it, by the code's numbering. */
  readonly section: string;
}

/**
 * NEC Table 310.16 (310.15(B)(16) before 2020), heads of the columns, and the articles of the cables: NM 334.80,
 * UF 340.80, SE 338.10(B)(4). NM without the B is cable of before 1985, whose conductors are taken as 60 °C
 * (common practice, no source).
 */
export const wirings = {
  "NM-B": { insulation_C: 90, cap_C: 60, section: "334.80" },
  NM: { insulation_C: 60, cap_C: 60, section: "334.80" },
  "UF-B": { insulation_C: 60, cap_C: 60, section: "340.80" },
  SE: { insulation_C: 75, cap_C: null, section: "338.10(B)(4)" },
  TW: { insulation_C: 60, cap_C: null, section: "310.4" },
  THW: { insulation_C: 75, cap_C: null, section: "310.4" },
  THWN: { insulation_C: 75, cap_C: null, section: "310.4" },
  THHN: { insulation_C: 90, cap_C: null, section: "310.4" },
  "THWN-2": { insulation_C: 90, cap_C: null, section: "310.4" },
  "XHHW-2": { insulation_C: 90, cap_C: null, section: "310.4" },
} as const satisfies Record<string, WiringFacts>;

/** A cable type or insulation. */
export type Wiring = keyof typeof wirings;
