/** The `ts` blocks of the README and the documents; run as a program, it compiles each as a reader who copies it would. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import ts from "typescript";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** One block, with where it starts. */
export interface Snippet {
  readonly file: string;
  readonly line: number;
  readonly code: string;
}

function snippetsOf(file: string): Snippet[] {
  const text = readFileSync(root + file, "utf8");
  return [...text.matchAll(/^```ts\n([\s\S]*?)^```$/gm)].map((match) => ({
    file,
    line: text.slice(0, match.index).split("\n").length,
    code: match[1]!,
  }));
}

/** Every block that imports the package; one that only shows a shape imports nothing. */
export function snippets(): Snippet[] {
  const documents = readdirSync(`${root}docs`, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".md"))
    .map((name) => `docs/${name}`)
    .sort();
  return ["README.md", "DEVELOPERS.md", ...documents]
    .flatMap(snippetsOf)
    .filter(({ code }) => /^import .* from "dryfit/m.test(code));
}

/** What the compiler has to say of the blocks, by file and line. */
export function faultsOfSnippets(found: readonly Snippet[]): string[] {
  const { config } = ts.readConfigFile(`${root}tsconfig.json`, ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root, { noEmit: true, skipLibCheck: true });
  // the blocks are files that exist only for the compiler
  const byName = new Map(found.map((snippet, i): [string, Snippet] => [`${root}docs/snippet-${i}.ts`, snippet]));
  const textOf = (name: string): string | undefined => byName.get(name)?.code.concat("\nexport {};\n");
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile, getSourceFile } = host;
  host.fileExists = (name) => byName.has(name) || fileExists(name);
  host.readFile = (name) => textOf(name) ?? readFile(name);
  host.getSourceFile = (name, version, ...rest) => {
    const text = textOf(name);
    return text === undefined ? getSourceFile(name, version, ...rest) : ts.createSourceFile(name, text, version);
  };
  const program = ts.createProgram([...byName.keys()], options, host);
  return [...byName].flatMap(([name, { file, line }]) => {
    const source = program.getSourceFile(name);
    return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map((fault) => {
      const at = source!.getLineAndCharacterOfPosition(fault.start ?? 0).line;
      return `${file}:${line + at + 1}: ${ts.flattenDiagnosticMessageText(fault.messageText, " ").slice(0, 300)}`;
    });
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const found = snippets();
  const faults = faultsOfSnippets(found);
  for (const fault of faults) console.error(fault);
  console.log(`${found.length} blocks, ${faults.length} faults.`);
  process.exitCode = faults.length > 0 ? 1 : 0;
}
