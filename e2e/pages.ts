import { readdirSync } from "node:fs";
import path from "node:path";
import { castingOf, firingOf, rows } from "./rows";

const app = path.resolve(import.meta.dirname, "..", "app");

function folders(file: string): string[] {
  const files = readdirSync(app, { recursive: true, encoding: "utf8" }).filter((one) => path.basename(one) === file && !one.startsWith("_"));
  return files.map((one) => `/${path.dirname(one)}`.replace(/^\/\.$/, "/")).sort();
}

/** Every page of the product, by its folder: "/firings/[firingId]/move". */
export function allRoutes(): string[] {
  return folders("page.tsx");
}

/** Every address that answers without being a page. */
export function allRouteHandlers(): string[] {
  return folders("route.ts");
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
