/**
 * One seed for every property test, so that a run says the same each time and a change is to blame for what it breaks.
 * The long run (`npm run fuzz`) draws anew.
 */
import fc from "fast-check";

if (process.env["FUZZ"] === undefined) fc.configureGlobal({ seed: 1959 });
