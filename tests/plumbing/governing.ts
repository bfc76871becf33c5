/** The value of a limit in one edition of one text, for tests that compare it with a printed figure. */
import {
  type Adopted,
  type Conditions,
  documentOf,
  type Fuel,
  govern,
  type Limit,
  type Text,
} from "../../src/core/basis/index.js";
import { si, type Unit } from "../../src/core/quantity/index.js";

/** A row of a reference file: `limit,document,edition,when,value,unit`; `when` as `key=value;key=value`. */
export type LimitRow = Readonly<Record<string, string>>;

const asNumber = (text: string): string | number => (/^[\d.]+$/.test(text) ? Number(text) : text);

const conditionsOf = (when: string): Conditions =>
  Object.fromEntries(
    when
      .split(";")
      .filter(Boolean)
      .map((pair) => {
        const [key, value] = pair.split("=");
        return [key!, value === "true" ? true : value === "false" ? false : asNumber(value!)];
      }),
  );

/** The governing SI value, or `undefined` where the edition says nothing. */
export function valueIn(limits: readonly Limit[], row: LimitRow): number | undefined {
  const limit = limits.find(({ id }) => id.endsWith(row["limit"]!));
  if (!limit) throw new Error(`no limit ends with ${row["limit"]}`);
  const text = row["document"] as Text | "";
  const adopted: Adopted = text === "" ? {} : { [documentOf(text)]: Number(row["edition"]) };
  const building = text === "ipc" || text === "ifgc" ? "multifamily" : "dwelling";
  const fuel = (conditionsOf(row["when"] ?? "")["fuel"] ?? "none") as Fuel;
  const place = { adopted, building, local: [], maker: [] } as const;
  return govern(limit, place, fuel, conditionsOf(row["when"] ?? ""))?.value;
}

/** The printed value of a row in SI; `required` and `not` are 1 and 0, a dash is nothing. */
export function printedIn(row: LimitRow): number | undefined {
  if (row["value"] === "-") return undefined;
  if (row["value"] === "required") return 1;
  if (row["value"] === "not") return 0;
  return row["unit"] === "" ? Number(row["value"]) : si(Number(row["value"]), row["unit"] as Unit);
}
