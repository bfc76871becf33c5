/** The layers: a folder imports only from the folders before it. `npm run check:layers` checks them. */
const layers = [
  "core/quantity",
  "core/basis",
  "core/table",
  "core/rule",
  "physics",
  "(electrical|venting|plumbing|placement)",
  "survey",
  "report",
  "cli",
];

/** Nothing in a layer imports from a later one. */
const upward = layers.slice(0, -1).map((layer, i) => ({
  name: `${layer.replace(/[()|]/g, "-")} imports no later layer`,
  severity: "error",
  from: { path: `^src/${layer}/` },
  to: { path: `^src/(${layers.slice(i + 1).join("|")}|index\\.ts)(/|$)` },
}));

/** @type {import("dependency-cruiser").IConfiguration} */
module.exports = {
  forbidden: [
    ...upward,
    {
      name: "the trades do not import each other",
      severity: "error",
      from: { path: "^src/(electrical|venting|plumbing|placement)/" },
      to: { path: "^src/(electrical|venting|plumbing|placement)/", pathNot: "^src/$1/" },
    },
    {
      name: "trades take core by its front door",
      severity: "error",
      from: { path: "^src/(electrical|venting|plumbing|placement)/" },
      to: { path: "^src/core/\\w+/", pathNot: "/index\\.ts$" },
    },
    {
      name: "only the command and the tests touch Node",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/cli/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "core, physics and the trades need no library but zod",
      severity: "error",
      from: { path: "^src/(core|physics|electrical|venting|plumbing|placement)/", pathNot: "^src/core/quantity/compound\\.ts$" },
      to: { path: "node_modules/", pathNot: "node_modules/zod/" },
    },
    {
      name: "kernels of physics and of quantity need no library at all",
      severity: "error",
      from: { path: "^src/(physics|core/quantity)/", pathNot: "^src/core/quantity/compound\\.ts$" },
      to: { path: "node_modules/" },
    },
    { name: "no circles", severity: "error", from: {}, to: { circular: true } },
    { name: "nothing that cannot be found", severity: "error", from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types"], extensions: [".ts", ".js"] },
  },
};
