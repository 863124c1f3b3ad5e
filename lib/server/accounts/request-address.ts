import { env } from "@/lib/server/env";

/** Where a request came from. Only a proxy that we were told to trust can say so; it adds its word last. */
export function requestAddress(forwardedFor: unknown): string {
  if (!env().trustProxy || typeof forwardedFor !== "string") return "unknown";
  return forwardedFor.split(",").at(-1)?.trim() ?? "unknown";
}
