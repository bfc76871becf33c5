import { processIo } from "./io.js";
import { run } from "./run.js";

// Everything was written and taken by then; an input that is still open would keep the process waiting.
process.exit(await run(process.argv.slice(2), processIo()));
