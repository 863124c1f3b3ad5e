import { z } from "zod";
import type { Worked } from "@/lib/domain/coldworking/faces";
import type { CastSurface } from "@/lib/domain/coldworking/sequence";

export type ColdWorkChoice = { readonly surface: CastSurface; readonly worked: Worked };

const schema: z.ZodType<ColdWorkChoice> = z.object({
  surface: z.enum(["smooth", "usual", "rough"]).catch("usual"),
  worked: z.enum(["by-shape", "flat", "round"]).catch("by-shape"),
});

/** How a casting comes out and is worked, from an address; what is missing or unknown there is the usual. */
export function readColdWorkChoice(asked: unknown): ColdWorkChoice {
  return schema.parse(typeof asked === "object" && asked !== null ? asked : {});
}
