import { defineConfig } from "tsup";

const trades = ["electrical", "venting", "plumbing", "placement", "survey", "report"];

export default defineConfig([
  {
    entry: { index: "src/index.ts", ...Object.fromEntries(trades.map((name) => [name, `src/${name}/index.ts`])) },
    format: ["esm", "cjs"],
    // tsup sets baseUrl by itself, which TypeScript 6 reports as deprecated
    dts: { compilerOptions: { ignoreDeprecations: "6.0", paths: {} } },
    splitting: true,
    sourcemap: false,
    target: "es2022",
    platform: "neutral",
    outDir: "dist",
  },
  {
    entry: { "cli/main": "src/cli/main.ts", "cli/worker": "src/cli/many/worker.ts" },
    format: ["esm"],
    dts: false,
    // what the command and its worker threads have in common is there once
    splitting: true,
    // The command carries its dependencies: it starts several times faster than from many small files. Its threads start from a file of their own.
    noExternal: [/./],
    esbuildOptions: (options) => {
      // the older of two builds of a dependency asks for its files at run time, where there are none
      options.mainFields = ["module", "main"];
      options.chunkNames = "cli/[name]-[hash]";
      // behind a lazy import that no verb reaches; a dependency of the package all the same
      options.external = [...(options.external ?? []), "mathjs"];
    },
    banner: {
      js: '#!/usr/bin/env node\nimport { createRequire as makeRequire } from "node:module";\nconst require = makeRequire(import.meta.url);',
    },
    target: "node20",
    platform: "node",
    outDir: "dist",
  },
]);
