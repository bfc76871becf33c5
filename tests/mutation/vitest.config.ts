/** For `npm run mutants`: the files of the plan with faults in them, under a runner that switches them on one by one. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig, mergeConfig } from "vitest/config";
import base from "../vitest.config.js";
import { FOLDER, type Plan } from "./plan.js";

const here = fileURLToPath(new URL(".", import.meta.url));
const { code, tests, done } = JSON.parse(readFileSync(`${process.env[FOLDER]}/plan.json`, "utf8")) as Plan;

const { test: common, ...rest } = base;
export default mergeConfig(
  { ...rest, test: { ...common, include: [], setupFiles: [] } },
  defineConfig({
    plugins: [
      {
        name: "faults",
        enforce: "pre",
        transform(_, id) {
          const faulty = code[id.split("?")[0]!];
          return faulty === undefined ? undefined : { code: faulty, map: null };
        },
      },
    ],
    test: {
      include: [...tests],
      exclude: [...done],
      setupFiles: ["tests/seed.ts", "tests/mutation/setup.ts"],
      runner: `${here}runner.ts`,
      pool: "threads",
      maxWorkers: 2,
      testTimeout: 0,
      reporters: [["dot", { summary: false }]],
    },
  }),
);
