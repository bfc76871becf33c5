import { adoptable, documentOf, type Text } from "./documents.js";

/** What a basis has the power to do: bind by law, advise, bind through the listing, bind locally, or only describe habit. */
export type Force = "mandatory" | "advice" | "maker" | "local" | "practice";

/**
 * How a value was confirmed: `seen` in a published copy; `secondary` in a page that restates the document; `computed`
 * with a named library; `practice`, a habit of the trade with no source; `memory`, not yet seen; `stated` by the caller.
 */
export type Confirmed = "seen" | "secondary" | "computed" | "practice" | "memory" | "stated";

/** Where a rule or a number comes from. Facts only; the document's own wording stays in the document. */
export interface Basis {
  /** Short name a reader would search for, for example `"IRC"`. */
  readonly document: string;
  readonly publisher: string;
  /** Year or edition as printed; empty for a habit of the trade. */
  readonly edition: string;
  /** Section, table or clause; empty for a habit of the trade. */
  readonly section: string;
  readonly force: Force;
  readonly confirmed: Confirmed;
  /** What the section asks, in our words, where the title of the rule does not say it. */
  readonly note?: string;
}

/** A basis in one of the adoptable texts. */
export function codeBasis(
  text: Text,
  edition: number,
  section: string,
  confirmed: Confirmed,
  force: Force = "mandatory",
  note?: string,
): Basis {
  const { short: document, publisher } = adoptable[documentOf(text)];
  return note === undefined
    ? { document, publisher, edition: String(edition), section, force, confirmed }
    : { document, publisher, edition: String(edition), section, force, confirmed, note };
}

/** A basis that is only a habit of the trade. */
export const commonPractice: Basis = {
  document: "Common practice",
  publisher: "",
  edition: "",
  section: "",
  force: "practice",
  confirmed: "practice",
};

const confirmations: Record<Confirmed, string> = {
  seen: "",
  secondary: "seen in a secondary source only",
  computed: "computed",
  practice: "no source",
  memory: "from memory, not yet seen in a published copy",
  stated: "as stated by the caller",
};

/**
 * A basis as one line of text. Says so where the value was not seen in a published copy.
 *
 * @example cite(codeBasis("irc", 2021, "M1502.4.6.1", "seen")) // "IRC 2021, M1502.4.6.1"
 */
export function cite(basis: Basis): string {
  const where = [[basis.document, basis.edition].filter(Boolean).join(" "), basis.section].filter(Boolean).join(", ");
  const caveat = confirmations[basis.confirmed];
  return caveat === "" ? where : `${where} (${caveat})`;
}
