/** Formulas of workings, set as MathML. */
import { type Content, element, join, type Markup, words } from "./markup.js";

/** A formula taken apart. */
type Node =
  | { readonly kind: "number"; readonly text: string }
  | { readonly kind: "symbol"; readonly name: string }
  /** A number with its unit, as the formula writes it: `(1 m/s^2)`. */
  | { readonly kind: "constant"; readonly number: string; readonly unit: string }
  | { readonly kind: "minus"; readonly of: Node }
  | { readonly kind: "binary"; readonly operator: string; readonly left: Node; readonly right: Node }
  | { readonly kind: "call"; readonly name: string; readonly of: readonly Node[] };

const TOKEN = /\s*(?:(\d+(?:\.\d+)?(?:e[+-]?\d+)?)|([A-Za-z_]\w*)|(<=|>=|==|[-+*/^(),=<>]))/y;

type Token = { readonly kind: "number" | "name" | "mark"; readonly text: string };

function tokensOf(formula: string): Token[] | undefined {
  const tokens: Token[] = [];
  const end = formula.trimEnd().length;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < end) {
    const match = TOKEN.exec(formula);
    if (!match) return undefined;
    const [, number, name, mark] = match;
    tokens.push(
      number !== undefined
        ? { kind: "number", text: number }
        : name !== undefined
          ? { kind: "name", text: name }
          : { kind: "mark", text: mark! },
    );
  }
  return tokens;
}

/** How deep a formula may nest; the deepest of any rule is far below. */
const DEEPEST = 60;

/** A reader for the part of mathjs's notation that the workings use; gives up on anything else. */
class Reader {
  readonly #tokens: readonly Token[];
  #at = 0;
  #depth = 0;
  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }
  get done(): boolean {
    return this.#at === this.#tokens.length;
  }
  #peek(ahead = 0): Token | undefined {
    return this.#tokens[this.#at + ahead];
  }
  #takes(...marks: string[]): string | undefined {
    const token = this.#peek();
    if (token?.kind !== "mark" || !marks.includes(token.text)) return undefined;
    this.#at++;
    return token.text;
  }
  #needs(mark: string): void {
    if (this.#takes(mark) === undefined) throw new SyntaxError(`${mark} is missing`);
  }

  relation(): Node {
    if (++this.#depth > DEEPEST) throw new SyntaxError("nested too deeply");
    let left = this.#sum();
    for (let mark = this.#relationMark(); mark !== undefined; mark = this.#relationMark()) {
      left = { kind: "binary", operator: mark, left, right: this.#sum() };
    }
    this.#depth--;
    return left;
  }
  #relationMark(): string | undefined {
    return this.#takes("=", "==", "<", ">", "<=", ">=");
  }
  #sum(): Node {
    let left = this.#product();
    for (let mark = this.#takes("+", "-"); mark !== undefined; mark = this.#takes("+", "-")) {
      left = { kind: "binary", operator: mark, left, right: this.#product() };
    }
    return left;
  }
  #product(): Node {
    let left = this.#signed();
    for (let mark = this.#takes("*", "/"); mark !== undefined; mark = this.#takes("*", "/")) {
      left = { kind: "binary", operator: mark, left, right: this.#signed() };
    }
    return left;
  }
  #signed(): Node {
    if (this.#takes("-") !== undefined) return { kind: "minus", of: this.#signed() };
    return this.#power();
  }
  #power(): Node {
    const base = this.#atom();
    if (this.#takes("^") === undefined) return base;
    return { kind: "binary", operator: "^", left: base, right: this.#signed() };
  }
  #atom(): Node {
    const token = this.#peek();
    if (token?.kind === "number") {
      this.#at++;
      return this.#peek()?.kind === "name" ? this.#withUnit(token.text) : { kind: "number", text: token.text };
    }
    if (token?.kind === "name") {
      this.#at++;
      if (this.#takes("(") === undefined) return { kind: "symbol", name: token.text };
      const of = [this.relation()];
      while (this.#takes(",") !== undefined) of.push(this.relation());
      this.#needs(")");
      return { kind: "call", name: token.text, of };
    }
    this.#needs("(");
    const constant = this.#constant();
    if (constant) return constant;
    const inner = this.relation();
    this.#needs(")");
    return inner;
  }
  /** `1 ft^3`: a number followed at once by the name of a unit. */
  #withUnit(number: string): Node {
    let unit = this.#peek()!.text;
    this.#at++;
    if (this.#peek()?.text === "^" && this.#peek(1)?.kind === "number") {
      unit += `^${this.#peek(1)!.text}`;
      this.#at += 2;
    }
    return { kind: "constant", number, unit };
  }
  /** `1 m/s^2)` after an opening bracket, with no bracket inside: a number with a compound unit. */
  #constant(): Node | undefined {
    const number = this.#peek();
    if (number?.kind !== "number" || this.#peek(1)?.kind !== "name") return undefined;
    let unit = "";
    let ahead = 1;
    for (let token = this.#peek(ahead); token?.text !== ")"; token = this.#peek(++ahead)) {
      if (token === undefined || token.text === "(") return undefined;
      unit += token.text;
    }
    this.#at += ahead + 1;
    return { kind: "constant", number: number.text, unit };
  }
}

function parse(formula: string): Node | undefined {
  const tokens = tokensOf(formula);
  if (!tokens || tokens.length === 0) return undefined;
  const reader = new Reader(tokens);
  try {
    const node = reader.relation();
    return reader.done ? node : undefined;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

const weights: Readonly<Record<string, number>> = { "+": 2, "-": 2, "*": 3, "/": 3, "^": 5 };
const weightOf = (node: Node): number =>
  node.kind === "binary" ? (weights[node.operator] ?? 1) : node.kind === "minus" ? 1.8 : 6;

const marks: Readonly<Record<string, string>> = { "*": "·", "-": "−", "<=": "≤", ">=": "≥", "==": "=" };
/** Signs between two things; their space is said, since a line may begin with one. */
const between = new Set(["+", "-", "*", "=", "==", "<", ">", "<=", ">="]);
const operator = (mark: string, isSign = false): Markup =>
  element(
    "mo",
    between.has(mark) && !isSign ? { form: "infix", lspace: "0.25em", rspace: "0.25em" } : {},
    words(marks[mark] ?? mark),
  );
const fenced = (content: Content): Content => [operator("("), content, operator(")")];

/** A name as words: `riseAcross` reads "rise across". */
const nameWords = (name: string): string =>
  name
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .replace(/_/g, " ")
    .toLowerCase();

const unitWords = (unit: string): string => unit.replace(/\^2/g, "²").replace(/\^3/g, "³").replaceAll("*", "·");

/** How a symbol is set: by its name, or by its value, and how closely what stands there holds together. */
type Setting = (name: string) => { readonly markup: Markup; readonly weight: number };

/** A value with its unit holds together less closely than a power, and one with a minus less than anything. */
const VALUE = 4.5;
const NEGATIVE = 1.5;
const NAME = 6;

class Setter {
  readonly #symbol: Setting;
  constructor(symbol: Setting) {
    this.#symbol = symbol;
  }
  /** In brackets where it binds less than what is round it. */
  #inside(node: Node, least: number): Content {
    const set = this.set(node);
    const weight = node.kind === "symbol" ? this.#symbol(node.name).weight : weightOf(node);
    return weight < least ? fenced(set) : set;
  }
  #row(node: Node, least: number): Markup {
    return element("mrow", {}, this.#inside(node, least));
  }
  set(node: Node): Content {
    switch (node.kind) {
      case "number":
        return element("mn", {}, words(node.text));
      case "symbol":
        return node.name === "pi" ? element("mi", {}, words("π")) : this.#symbol(node.name).markup;
      case "constant":
        return element("mn", {}, words(`${node.number} ${unitWords(node.unit)}`));
      case "minus":
        return [operator("-", true), this.#inside(node.of, VALUE)];
      case "call":
        return this.#call(node.name, node.of);
      case "binary": {
        const { operator: mark, left, right } = node;
        if (mark === "/") return element("mfrac", {}, this.#row(left, 0), this.#row(right, 0));
        if (mark === "^") return element("msup", {}, this.#row(left, 6), this.#row(right, 0));
        const weight = weightOf(node);
        // a minus that leads needs no brackets; one that follows another mark does
        return [
          this.#inside(left, left.kind === "minus" ? 0 : weight),
          operator(mark),
          this.#inside(right, weight + (mark === "-" ? 1 : 0)),
        ];
      }
    }
  }
  #call(name: string, of: readonly Node[]): Content {
    const [first] = of;
    if (name === "sqrt" && of.length === 1) return element("msqrt", {}, this.set(first!));
    if (name === "abs" && of.length === 1) return [operator("|"), this.set(first!), operator("|")];
    const list = of.flatMap((one, i) => (i === 0 ? [this.set(one)] : [operator(","), this.set(one)]));
    return [element("mi", { mathvariant: "normal" }, words(name)), fenced(list)];
  }
  /** The pieces of one side of a formula between which a line may break: its terms, or the factors of a product. */
  terms(node: Node): Content[] {
    if (node.kind === "binary" && (node.operator === "+" || node.operator === "-")) {
      const { operator: mark, left, right } = node;
      return [...this.terms(left), [operator(mark), this.#inside(right, mark === "-" ? 3 : 2)]];
    }
    return this.#factors(node);
  }
  #factors(node: Node): Content[] {
    if (node.kind !== "binary" || node.operator !== "*") return [this.set(node)];
    const { left, right } = node;
    const before = left.kind === "binary" && left.operator === "*" ? this.#factors(left) : [this.#first(left)];
    return [...before, [operator("*"), this.#inside(right, 3)]];
  }
  /** What a product begins with: a minus that leads needs no brackets. */
  #first(node: Node): Content {
    return this.#inside(node, node.kind === "minus" ? 0 : 3);
  }
}

/*
 * Words are set as identifiers and values as numbers, not as text: text counts as space in MathML, and a row of one sign
 * among spaces is taken for a single wide sign, with no room round it.
 */
const byName: Setting = (name) => {
  const text = nameWords(name);
  return { markup: element("mi", {}, words(text)), weight: NAME };
};

const mathematics = (content: Content): Markup =>
  element("math", { displaystyle: "true" }, element("mrow", {}, content));

/** A formula as pieces of mathematics with spaces between them, so that a long one breaks on a narrow page. */
function pieces(terms: readonly Content[]): Markup {
  const blank = words(" ");
  return join(terms.flatMap((term, i) => [i === 0 ? null : blank, mathematics(term)]));
}

/** A piece of so many letters may be wider than a phone. */
const LONGEST = 30;
const lettersOf = (content: Content): number => join(content).replace(/<[^>]*>/g, "").length;

/** A line of a formula; one with a piece that cannot break scrolls by itself, and the keyboard reaches it. */
const formulaLine = (terms: readonly Content[]): Markup =>
  element(
    "div",
    terms.some((term) => lettersOf(term) > LONGEST)
      ? { class: "wide", tabindex: 0, role: "group", "aria-label": "Long formula" }
      : {},
    pieces(terms),
  );

/**
 * A formula of the workings as MathML: with its names, then with its values, then its result.
 *
 * @param formula - `left = right`, as mathjs reads it: numbers, names, + - * / ^, brackets, calls
 * @param values - the text of each name's value; a name without one stays a name
 * @returns `undefined` for a formula in any other notation, which is then better shown as it is written
 */
export function formulaMarkup(formula: string, values: Readonly<Record<string, string>>): Markup | undefined {
  const node = parse(formula);
  if (node?.kind !== "binary" || node.operator !== "=") return undefined;
  const { left, right } = node;
  if (left.kind !== "symbol") return undefined;
  const named = new Setter(byName);
  const valued = new Setter((name) => {
    const text = Object.hasOwn(values, name) ? values[name]! : undefined;
    if (text === undefined) return byName(name);
    return { markup: element("mn", {}, words(text)), weight: text.startsWith("-") ? NEGATIVE : VALUE };
  });
  const [first, ...rest] = named.terms(right);
  const [firstValue, ...restValues] = valued.terms(right);
  const result = Object.hasOwn(values, left.name) ? values[left.name]! : undefined;
  const equals = operator("=");
  const lead = [named.set(left), equals, first!];
  return join(
    formulaLine([lead, ...rest]),
    formulaLine([
      [equals, firstValue!],
      ...restValues,
      ...(result === undefined ? [] : [[equals, element("mn", {}, words(result))]]),
    ]),
  );
}
