import { z } from "zod";
import type { KeptMove } from "@/lib/server/ways-out/write-settlement";

const KEPT = z.array(
  z.object({
    firingId: z.uuid(), title: z.string(), kilnId: z.uuid(), kilnFrom: z.string(), kilnTo: z.string(),
    from: z.object({ kilnId: z.uuid(), kilnFrom: z.string() }).nullable(), told: z.array(z.uuid()),
  }),
);

/** The moves of a settlement as they were kept. @throws when they are none, which is a bug */
export function keptMoves(json: unknown): readonly KeptMove[] {
  return KEPT.parse(json);
}
