import { type Adoptable, adoptable } from "../basis/index.js";

/** A document and edition as a reader knows it: `IRC 2021`. */
export const documentTitle = (document: Adoptable, edition: number): string =>
  `${adoptable[document].short} ${edition}`;
