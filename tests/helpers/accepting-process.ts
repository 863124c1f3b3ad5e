import { acceptSettlement } from "@/lib/server/commands/accept-settlement";
import type { Who } from "@/lib/server/who";

/* A program that accepts a settlement, to be killed while it does: who and what it accepts stand in ACCEPTING as JSON. */
const { who, order } = JSON.parse(process.env["ACCEPTING"] ?? "{}") as { readonly who: Who; readonly order: unknown };
process.stdout.write(JSON.stringify(await acceptSettlement(who, order)));
process.exit(0);
