/**
 * Small faults for mutation testing, written into a source file all at once: each one sleeps until its number is switched
 * on at run time. So one process tries thousands of them, and no test file is loaded twice.
 */
import ts from "typescript";

/** The kinds of fault. */
export const kinds = ["comparison", "boundary", "arithmetic", "boolean", "condition", "call", "statement"] as const;
export type Kind = (typeof kinds)[number];

/** One fault: what stands in the source, and what stands there instead. */
export interface Mutant {
  readonly id: number;
  readonly file: string;
  readonly line: number;
  readonly kind: Kind;
  readonly from: string;
  readonly to: string;
}

/** A source file with its faults asleep in it. */
export interface Mutated {
  readonly mutants: readonly Mutant[];
  readonly code: string;
}

/** Is fault `id` on? Notes that it was reached while the tests run without any. */
export const ON = "$on";
/** Throws once a fault has made a loop run far longer than the test took without it. */
export const TURN = "$turn";

const { SyntaxKind: K } = ts;

/** Comparisons: the boundary moved, and the answer turned round. */
const comparisons: Readonly<Partial<Record<ts.SyntaxKind, readonly [Kind, string][]>>> = {
  [K.LessThanToken]: [
    ["boundary", "<="],
    ["comparison", ">="],
  ],
  [K.LessThanEqualsToken]: [
    ["boundary", "<"],
    ["comparison", ">"],
  ],
  [K.GreaterThanToken]: [
    ["boundary", ">="],
    ["comparison", "<="],
  ],
  [K.GreaterThanEqualsToken]: [
    ["boundary", ">"],
    ["comparison", "<"],
  ],
  [K.EqualsEqualsEqualsToken]: [["comparison", "!=="]],
  [K.ExclamationEqualsEqualsToken]: [["comparison", "==="]],
};

const arithmetic: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [K.PlusToken]: "-",
  [K.MinusToken]: "+",
  [K.AsteriskToken]: "/",
  [K.SlashToken]: "*",
  [K.PercentToken]: "*",
  [K.AsteriskAsteriskToken]: "*",
  [K.PlusEqualsToken]: "-=",
  [K.MinusEqualsToken]: "+=",
  [K.AsteriskEqualsToken]: "/=",
  [K.SlashEqualsToken]: "*=",
};

const logic: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [K.AmpersandAmpersandToken]: "||",
  [K.BarBarToken]: "&&",
};

/** Methods that answer the other way. */
const otherCall: ReadonlyMap<string, string> = new Map([
  ["Math.min", "Math.max"],
  ["Math.max", "Math.min"],
  ["Math.floor", "Math.ceil"],
  ["Math.ceil", "Math.floor"],
  ["Math.round", "Math.floor"],
  ["Math.sin", "Math.cos"],
  ["Math.cos", "Math.sin"],
  ["some", "every"],
  ["every", "some"],
]);

/** The way a limit binds. */
const otherSense: ReadonlyMap<string, string> = new Map([
  ["atMost", "atLeast"],
  ["atLeast", "atMost"],
]);

interface Edit {
  readonly kind: Kind;
  /** What replaces the node. */
  readonly to: string;
  /** What the list of survivors shows, where that is shorter than the whole node. */
  readonly shown?: readonly [from: string, to: string];
}

const isText = (node: ts.Node): boolean =>
  ts.isStringLiteralLike(node) ||
  ts.isTemplateExpression(node) ||
  (ts.isParenthesizedExpression(node) && isText(node.expression)) ||
  (ts.isBinaryExpression(node) && node.operatorToken.kind === K.PlusToken && (isText(node.left) || isText(node.right)));

/** Whether a node is what an `if`, a `?:` or a loop asks. */
function isCondition(node: ts.Node): "branch" | "loop" | false {
  const { parent } = node;
  if (ts.isIfStatement(parent) && parent.expression === node) return "branch";
  if (ts.isConditionalExpression(parent) && parent.condition === node) return "branch";
  if (ts.isWhileStatement(parent) && parent.expression === node) return "loop";
  if (ts.isForStatement(parent) && parent.condition === node) return "loop";
  return false;
}

/** The faults of one node. */
function editsOf(node: ts.Node, text: (node: ts.Node) => string): Edit[] {
  const edits: Edit[] = [];
  const question = isCondition(node);
  if (question && node.kind !== K.TrueKeyword && node.kind !== K.FalseKeyword) {
    // A loop that never ends says nothing that a loop that never starts does not.
    if (question === "branch") edits.push({ kind: "condition", to: "true" });
    edits.push({ kind: "condition", to: "false" });
  }
  if (ts.isBinaryExpression(node)) {
    const { left, right, operatorToken } = node;
    const operator = operatorToken.kind;
    const joined = (sign: string) => `(${text(left)}) ${sign} (${text(right)})`;
    const shown = (sign: string) => [text(node), `${text(left)} ${sign} ${text(right)}`] as const;
    for (const [kind, sign] of comparisons[operator] ?? []) {
      edits.push({ kind, to: joined(sign), shown: shown(sign) });
    }
    const otherSign = arithmetic[operator];
    if (otherSign !== undefined && !isText(node) && !isText(left) && !isText(right)) {
      const to =
        operator >= K.FirstAssignment && operator <= K.LastAssignment
          ? `${text(left)} ${otherSign} (${text(right)})`
          : joined(otherSign);
      edits.push({ kind: "arithmetic", to, shown: shown(otherSign) });
    }
    const otherLogic = logic[operator];
    if (otherLogic !== undefined) {
      edits.push({ kind: "boolean", to: joined(otherLogic), shown: shown(otherLogic) });
    }
    if (operator === K.QuestionQuestionToken) {
      edits.push({ kind: "boolean", to: text(left), shown: [text(node), text(left)] });
      edits.push({ kind: "boolean", to: text(right), shown: [text(node), text(right)] });
    }
  } else if (ts.isPrefixUnaryExpression(node)) {
    if (node.operator === K.ExclamationToken) edits.push({ kind: "boolean", to: `!!${text(node.operand)}` });
    if (node.operator === K.MinusToken) edits.push({ kind: "arithmetic", to: `+${text(node.operand)}` });
  } else if (node.kind === K.TrueKeyword) edits.push({ kind: "boolean", to: "false" });
  else if (node.kind === K.FalseKeyword) edits.push({ kind: "boolean", to: "true" });
  else if (ts.isStringLiteral(node) && ts.isPropertyAssignment(node.parent) && node.parent.name.getText() === "sense") {
    const other = otherSense.get(node.text);
    if (other !== undefined) edits.push({ kind: "comparison", to: JSON.stringify(other) });
  } else if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "judge") {
    const to = `judge((({ pass, fail, ...rest }) => ({ ...rest, pass: fail, fail: pass }))(${node.arguments.map(text).join(", ")}))`;
    edits.push({ kind: "comparison", to, shown: ["judge(…)", "pass and fail change places"] });
  } else if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)) {
    const { expression, name } = node.expression;
    const other = otherCall.get(text(node.expression)) ?? otherCall.get(name.text);
    if (other !== undefined && !node.questionDotToken && !node.expression.questionDotToken) {
      const head = other.includes(".") ? other : `${text(expression)}.${other}`;
      const to = `${head}(${node.arguments.map(text).join(", ")})`;
      edits.push({ kind: "call", to, shown: [text(node), to] });
    }
  }
  return edits;
}

/** A statement that can go: it does something and declares nothing. */
const canGo = (node: ts.Node): node is ts.ExpressionStatement =>
  ts.isExpressionStatement(node) &&
  !ts.isStringLiteral(node.expression) &&
  !(ts.isCallExpression(node.expression) && node.expression.expression.kind === K.SuperKeyword);

const short = (text: string) => text.replace(/\s+/g, " ").trim();

/**
 * Puts the faults of one file into it, asleep.
 *
 * @param file - its path, for the list
 * @param source - its TypeScript
 * @param first - the number of its first fault, 1 or more
 * @param takes - whether to take a fault; a sample leaves some out
 * @param skips - names of methods to leave as they are, whether written in place or as the name of a function
 */
export function mutate(
  file: string,
  source: string,
  first: number,
  takes: () => boolean = () => true,
  skips: readonly string[] = [],
): Mutated {
  const tree = ts.createSourceFile(file, source, ts.ScriptTarget.ES2022, true, ts.ScriptKind.TS);
  const mutants: Mutant[] = [];
  const text = (node: ts.Node) => source.slice(node.getStart(tree), node.end);
  const lineOf = (node: ts.Node) => tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1;
  const skipped = new Set(skips);
  const findSkipped = (node: ts.Node): void => {
    if (ts.isPropertyAssignment(node) && skips.includes(node.name.getText(tree)) && ts.isIdentifier(node.initializer)) {
      skipped.add(node.initializer.text);
    }
    ts.forEachChild(node, findSkipped);
  };
  findSkipped(tree);
  const take = (node: ts.Node, kind: Kind, from: string, to: string): number | undefined => {
    if (!takes()) return undefined;
    const id = first + mutants.length;
    mutants.push({ id, file, line: lineOf(node), kind, from: short(from), to: short(to) });
    return id;
  };

  const emit = (node: ts.Node): string => {
    if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return text(node);
    if (
      (ts.isMethodDeclaration(node) || ts.isFunctionDeclaration(node)) &&
      skipped.has(node.name?.getText(tree) ?? "")
    ) {
      return text(node);
    }
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeParameterDeclaration(node))
      return text(node);
    const edits = editsOf(node, text).flatMap(({ kind, to, shown }) => {
      const id = take(node, kind, shown?.[0] ?? text(node), shown?.[1] ?? to);
      return id === undefined ? [] : [{ id, to }];
    });
    const gone = canGo(node) ? take(node, "statement", text(node), "(nothing)") : undefined;
    let out = "";
    let at = node.getStart(tree);
    ts.forEachChild(node, (child) => {
      out += source.slice(at, child.getStart(tree)) + emit(child);
      at = child.end;
    });
    out += source.slice(at, node.end);
    for (const { id, to } of edits.toReversed()) out = `(${ON}(${id}) ? (${to}) : ${out})`;
    if (edits.length > 0 && out.startsWith("(")) out = ` ${out}`;
    if (gone !== undefined) out = `{ if (!${ON}(${gone})) { ${out} } }`;
    if (ts.isIterationStatement(node.parent, false) && node.parent.statement === node) out = `{ ${TURN}(); ${out} }`;
    return out;
  };

  const head = `const { ${ON}, ${TURN} } = globalThis.$faults;`;
  return { mutants, code: [head, ...tree.statements.map(emit)].join("\n") };
}
