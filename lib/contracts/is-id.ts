import { z } from "zod";

const id = z.uuid();

/** Whether a piece of an address can be an id at all; anything else is "not found", not an error. */
export function isId(text: string): boolean {
  return id.safeParse(text).success;
}
