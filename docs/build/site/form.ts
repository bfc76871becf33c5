/** A form from a JSON Schema: what is not said stays out of the value, and nothing is guessed. */
import { type Attributes, button, make, nextId } from "./dom.js";

/** The part of JSON Schema that the entries' inputs are written in, with marks of our own. */
export interface Schema {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly items?: Schema;
  readonly oneOf?: readonly Schema[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxItems?: number;
  /** The dimension of a quantity, the least and most that can be meant, and one as it is written. */
  readonly quantity?: string;
  readonly between?: readonly [string, string];
  readonly examples?: readonly unknown[];
  /** Always shown, and left out of the value where nothing in it is said. */
  readonly open?: true;
}

/** Where in a value. */
export type Path = readonly (string | number)[];

/** One field of a form, or a group of them. */
export interface Field {
  readonly node: HTMLElement;
  /** What takes the keyboard. */
  readonly control: HTMLElement;
  /** The value; `undefined` where nothing is said. */
  readonly read: () => unknown;
  readonly write: (value: unknown) => void;
  /** The field at a path, or the nearest one round it that is shown. */
  readonly at: (path: Path) => Field;
}

/** The inside of a group. */
interface Body {
  readonly node: HTMLElement;
  readonly read: () => unknown;
  readonly write: (value: unknown) => void;
  readonly at: (path: Path) => Field | undefined;
}

/** A name of the code as words: `roomDoor` reads "room door". What is written otherwise stays. */
export const apart = (name: string): string =>
  /^[a-z]+(?:[A-Z][a-z]+)+$/.test(name) ? name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`) : name;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Tells the form's owner that a button changed it. */
const changed = (node: HTMLElement): void => {
  node.dispatchEvent(new Event("input", { bubbles: true }));
};

/** What can be written into a field, in words. */
function hintOf({ description, quantity, between, examples, type, minimum, maximum }: Schema): string {
  const known = (value: number | undefined): value is number =>
    value !== undefined && Math.abs(value) < Number.MAX_SAFE_INTEGER;
  const bounds = between
    ? `${between[0]} to ${between[1]}`
    : [known(minimum) ? `at least ${minimum}` : "", known(maximum) ? `at most ${maximum}` : ""]
        .filter(Boolean)
        .join(", ");
  const form = quantity
    ? `with its unit, as ${examples?.[0]}`
    : type === "integer"
      ? "a whole number"
      : type === "number"
        ? "a number"
        : "";
  const how = [form, bounds].filter(Boolean).join("; ");
  return [description, how && `${how.charAt(0).toUpperCase()}${how.slice(1)}.`].filter(Boolean).join(". ");
}

/** Name, help and control of one value. */
function single(
  name: string,
  schema: Schema,
  needed: boolean,
  control: HTMLInputElement | HTMLSelectElement,
): HTMLElement {
  const id = nextId();
  const hint = hintOf(schema);
  control.id = id;
  if (hint) control.setAttribute("aria-describedby", `${id}-help`);
  return make(
    "div",
    { class: "field" },
    make("label", { for: id }, apart(name), needed ? make("span", { class: "quiet" }, " (needed)") : null),
    hint ? make("p", { id: `${id}-help`, class: "help" }, hint) : null,
    control,
  );
}

function textField(name: string, schema: Schema, needed: boolean): Field {
  const isNumber = schema.type === "integer" || schema.type === "number";
  const isAmount = schema.type === "amount";
  const control = make("input", {
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    inputmode: isNumber ? "decimal" : undefined,
    placeholder: needed ? undefined : "not said",
  });
  // a value that came from elsewhere is given back as it came until someone writes over it
  let came: { readonly text: string; readonly value: unknown } = { text: "", value: undefined };
  const textOf = (value: unknown): string => {
    if (!isRecord(value)) return value === undefined ? "" : String(value);
    const { value: amount, unit, plusMinus } = value;
    // the exact value is kept beside the text; nobody reads more digits than these
    const shown = typeof amount === "number" ? Number(amount.toPrecision(7)) : amount;
    return `${shown} ${unit}${plusMinus === undefined ? "" : ` ± ${plusMinus} ${unit}`}`;
  };
  const field: Field = {
    node: single(name, schema, needed, control),
    control,
    read: () => {
      const text = control.value;
      if (text === came.text) return came.value;
      if (text.trim() === "") return undefined;
      if (isAmount && /^\s*(true|false)\s*$/.test(text)) return text.trim() === "true";
      if ((isNumber || isAmount) && /^\s*-?\d+(\.\d+)?\s*$/.test(text)) return Number(text);
      return text;
    },
    write: (value) => {
      control.value = textOf(value);
      came = { text: control.value, value };
    },
    at: () => field,
  };
  return field;
}

function choiceField(name: string, schema: Schema, needed: boolean, notSaid = "not said"): Field {
  const values: unknown[] = schema.type === "boolean" ? [true, false] : [...schema.enum!];
  const textOf = (value: unknown): string =>
    typeof value === "boolean" ? (value ? "yes" : "no") : apart(String(value));
  const control = make("select", {}, make("option", { value: "" }, notSaid));
  const offer = (value: unknown, i: number) => control.append(make("option", { value: i }, textOf(value)));
  values.forEach(offer);
  const field: Field = {
    node: single(name, schema, needed, control),
    control,
    read: () => (control.value === "" ? undefined : values[Number(control.value)]),
    write: (value) => {
      let place = values.indexOf(value);
      if (value !== undefined && place < 0) {
        place = values.push(value) - 1;
        offer(value, place);
      }
      control.value = value === undefined ? "" : String(place);
    },
    at: () => field,
  };
  return field;
}

function recordBody({ properties = {}, required = [] }: Schema, without?: string): Body {
  const fields = new Map(
    Object.entries(properties)
      .filter(([name]) => name !== without)
      .map(([name, schema]) => [name, fieldOf(name, schema, required.includes(name))]),
  );
  return {
    node: make("div", {}, ...[...fields.values()].map(({ node }) => node)),
    read: () =>
      Object.fromEntries(
        [...fields].map(([name, field]) => [name, field.read()]).filter(([, value]) => value !== undefined),
      ),
    write: (value) => {
      for (const [name, field] of fields) field.write(isRecord(value) ? value[name] : undefined);
    },
    at: ([name, ...rest]) => fields.get(String(name))?.at(rest),
  };
}

function listBody(name: string, { items, maxItems }: Schema): Body {
  const held: Field[] = [];
  const rows = make("div");
  const more = button(`Add to ${apart(name)}`, () => {
    add().control.focus();
    changed(rows);
  });
  const tidy = (): void => {
    more.disabled = held.length >= (maxItems ?? Number.POSITIVE_INFINITY);
    [...rows.children].forEach((row, i) => {
      row.querySelector("[data-drop]")!.textContent = `Remove ${apart(name)} ${i + 1}`;
      row.querySelector("legend,label")!.textContent = `${apart(name)} ${i + 1}`;
    });
  };
  const add = (): Field => {
    const field = fieldOf(`${name} ${held.length + 1}`, items!, true);
    const row = make("div", { class: "row" }, field.node);
    row.append(
      button(
        "Remove",
        () => {
          held.splice(held.indexOf(field), 1);
          row.remove();
          tidy();
          more.focus();
          changed(rows);
        },
        { "data-drop": true },
      ),
    );
    held.push(field);
    rows.append(row);
    tidy();
    return field;
  };
  return {
    node: make("div", {}, rows, more),
    read: () => held.map((field) => field.read()),
    write: (value) => {
      held.length = 0;
      rows.replaceChildren();
      for (const one of Array.isArray(value) ? value : []) add().write(one);
      tidy();
    },
    at: ([index, ...rest]) => held[Number(index)]?.at(rest),
  };
}

/** One of several records, told apart by one of their fields. */
function unionBody({ oneOf = [] }: Schema): Body {
  const [first] = oneOf;
  const by = Object.entries(first!.properties!).find(([, { const: fixed }]) => fixed !== undefined)![0];
  const tagOf = ({ properties }: Schema): unknown => properties![by]!.const;
  const kind = choiceField(by, { ...first!.properties![by], enum: oneOf.map(tagOf) }, true);
  const holder = make("div");
  let rest: Body | undefined;
  const choose = (): void => {
    const chosen = oneOf.find((option) => tagOf(option) === kind.read());
    rest = chosen && recordBody(chosen, by);
    holder.replaceChildren(...(rest ? [rest.node] : []));
  };
  kind.control.addEventListener("input", choose);
  return {
    node: make("div", {}, kind.node, holder),
    read: () => {
      const tag = kind.read();
      return { ...(tag === undefined ? {} : { [by]: tag }), ...(rest?.read() as object | undefined) };
    },
    write: (value) => {
      kind.write(isRecord(value) ? value[by] : undefined);
      choose();
      rest?.write(value);
    },
    at: (path) => (path[0] === by ? kind : rest?.at(path)),
  };
}

/** A framed group. One that may be left out has a box to tick, since a group without anything in it says something too. */
function groupField(name: string, schema: Schema, needed: boolean, bodyOf: () => Body): Field {
  const isOpen = needed || schema.open === true;
  const holder = make("div");
  let body: Body | undefined;
  const show = (shown: boolean): void => {
    body = shown ? (body ?? bodyOf()) : undefined;
    holder.replaceChildren(...(body ? [body.node] : []));
  };
  const id = nextId();
  const box = make("input", { type: "checkbox", id });
  box.addEventListener("input", () => show(box.checked));
  const node = make(
    "fieldset",
    { tabindex: isOpen ? "-1" : undefined },
    make("legend", {}, apart(name)),
    schema.description ? make("p", { class: "help" }, schema.description) : null,
    isOpen ? null : make("p", { class: "tick" }, box, make("label", { for: id }, ` Say something of ${apart(name)}`)),
    holder,
  );
  if (isOpen) show(true);
  const field: Field = {
    node,
    control: isOpen ? node : box,
    read: () => {
      const value = body?.read();
      return schema.open && isRecord(value) && Object.keys(value).length === 0 ? undefined : value;
    },
    write: (value) => {
      if (!isOpen) {
        box.checked = value !== undefined;
        show(box.checked);
      }
      body?.write(value);
    },
    at: (path) => (path.length === 0 ? field : (body?.at(path) ?? field)),
  };
  return field;
}

/**
 * The field, or group of fields, that a schema asks for.
 *
 * @throws RangeError for a schema of a form that no field is known for
 */
export function fieldOf(name: string, schema: Schema, needed: boolean): Field {
  if (schema.quantity !== undefined) return textField(name, schema, needed);
  if (schema.oneOf) return groupField(name, schema, needed, () => unionBody(schema));
  if (schema.enum) return choiceField(name, schema, needed);
  switch (schema.type) {
    case "boolean":
      return choiceField(name, schema, needed);
    case "object":
      return groupField(name, schema, needed, () => recordBody(schema));
    case "array":
      return groupField(name, schema, needed, () => listBody(name, schema));
    case "string":
    case "integer":
    case "number":
    case "amount":
      return textField(name, schema, needed);
    default:
      throw new RangeError(`no field is known for ${name}: ${JSON.stringify(schema)}`);
  }
}

/** A whole form: the fields of a record without a frame round them. */
export function formOf(schema: Schema, attributes: Attributes): Field {
  const body = recordBody(schema);
  const node = make("form", { tabindex: "-1", ...attributes }, body.node);
  node.addEventListener("submit", (event) => event.preventDefault());
  const field: Field = {
    node,
    control: node,
    read: body.read,
    write: body.write,
    at: (path) => (path.length === 0 ? field : (body.at(path) ?? field)),
  };
  return field;
}

/** Writes a complaint beside a field and marks it as wrong. */
export function complain({ node, control }: Field, text: string): void {
  const id = nextId();
  control.setAttribute("aria-invalid", "true");
  const before = control.getAttribute("aria-describedby");
  control.setAttribute("aria-describedby", before ? `${id} ${before}` : id);
  const fault = make("p", { id, class: "fault" }, text);
  if (node === control) node.prepend(fault);
  else if (node instanceof HTMLFieldSetElement) node.querySelector("legend")!.after(fault);
  else node.append(fault);
}

/** Takes every complaint away. */
export function calm(root: HTMLElement): void {
  for (const fault of root.querySelectorAll(".fault")) {
    for (const control of [root, ...root.querySelectorAll(`[aria-describedby~="${fault.id}"]`)]) {
      const rest = (control.getAttribute("aria-describedby") ?? "").split(" ").filter((id) => id && id !== fault.id);
      if (rest.length > 0) control.setAttribute("aria-describedby", rest.join(" "));
      else control.removeAttribute("aria-describedby");
      control.removeAttribute("aria-invalid");
    }
    fault.remove();
  }
}
