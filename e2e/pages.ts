import { readdirSync } from "node:fs";
import path from "node:path";
import { castingOf, firingOf, rows } from "./rows";

const app = path.resolve(import.meta.dirname, "..", "app");

/** Every page of the product, by its folder: "/firings/[firingId]/move". */
export function allRoutes(): string[] {
  const files = readdirSync(app, { recursive: true, encoding: "utf8" }).filter((file) => path.basename(file) === "page.tsx" && !file.startsWith("_"));
  return files.map((file) => `/${path.dirname(file)}`.replace(/^\/\.$/, "/")).sort();
}

export type Ids = Readonly<Record<string, string>>;

/** Ids of the demo workshop, to put into the addresses. */
export async function demoIds(): Promise<Ids> {
  const [equipment] = await rows<{ equipment_id: string }>("SELECT equipment_id FROM equipment WHERE name = 'Heron'");
  return {
    castingId: await castingOf("Wader"),
    firingId: await firingOf("Seal, resting"),
    equipmentId: equipment?.equipment_id ?? "",
    token: "a-token-that-is-none",
  };
}

export function filled(route: string, ids: Ids): string {
  return route.replaceAll(/\[(\w+)\]/g, (_, name: string) => ids[name] ?? "missing");
}
