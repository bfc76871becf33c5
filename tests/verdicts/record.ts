/** Records the verdicts over the sample surveys anew: `tsx tests/verdicts/record.ts`. Prints what changed. */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { differences, recordedFile, recordedText, verdictsNow } from "./recorded.js";

const before = existsSync(recordedFile) ? JSON.parse(readFileSync(recordedFile, "utf8")) : {};
const after = await verdictsNow();
writeFileSync(recordedFile, recordedText(after));
const changes = differences(before, after);
console.log(changes.length === 0 ? "No verdict changed." : changes.join("\n"));
if (changes.length > 0) console.log(`${changes.length} changed; list them in docs/changes.md.`);
