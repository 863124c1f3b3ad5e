import { ok, refuse, type Outcome } from "@/lib/domain/refusal";

/** How a field is called on its form, its unit, and what it takes, e.g. "10 to 150 mm", where that is known. */
export type NumberWords = { readonly label: string; readonly unit?: string; readonly allowed?: string };

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;
/** 1,200 means twelve hundred to some and one and a fifth to others. */
const UNCLEAR = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * Reads a number as a person types it: spaces (also between thousands), a comma or a point before the
 * decimals. Undefined for an empty field. Refuses what cannot be read, and what could be read in two ways.
 *
 * @example readNumber("mould.wallMm", "37,5", { label: "The mould wall", allowed: "10 to 150 mm" }) // 37.5
 */
export function readNumber(field: string, typed: string, words: NumberWords): Outcome<number | undefined> {
  const text = typed.replaceAll(/[\s\u00a0\u202f]/g, "").replace("\u2212", "-");
  if (text === "") return ok(undefined);
  const { label, unit } = words;
  const measure = unit === undefined ? "a number" : `a number of ${unit}`;
  const allowed = words.allowed ?? `${measure}, such as 40 or 2.5`;
  const asked = { field, value: typed, allowed };
  if (UNCLEAR.test(text)) {
    const [one, other] = [text.replace(",", ""), text.replace(",", ".")];
    return refuse({ ...asked, code: "unclear", message: `${label} is “${typed}”, which could mean ${one} or ${other}; write the one you mean.` });
  }
  const plain = text.replace(",", ".");
  if (!NUMBER.test(plain)) return refuse({ ...asked, code: "wrong-type", message: `${label} is “${typed}”; it must be ${words.allowed === undefined ? "" : "a number, "}${allowed}.` });
  return ok(Number(plain));
}
