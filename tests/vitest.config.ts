import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));
const entry = (name: string) => `${root}src/${name}index.ts`;

export default defineConfig({
  root,
  resolve: {
    alias: [
      { find: /^dryfit$/, replacement: entry("") },
      { find: /^dryfit\/(\w+)$/, replacement: `${root}src/$1/index.ts` },
    ],
  },
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/seed.ts"],
    testTimeout: 60_000,
    coverage: {
      provider: "v8",
      include: ["src/**"],
      reporter: ["text-summary", "json-summary"],
      reportsDirectory: ".coverage",
      thresholds: { lines: 95, branches: 88, functions: 95, statements: 95 },
    },
  },
});
