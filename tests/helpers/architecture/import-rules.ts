import { posix } from "node:path";
import { directivesOf, importsOf, isCode, parse, type SourceFile } from "./source-files";

/*
 *   app ──▶ lib/server ──▶ lib/contracts ──▶ lib/domain ──▶ nothing
 *
 * app and lib/server may skip layers downwards. A client component ("use client") reaches only the
 * last two and its own kind. lib/cli may use everything in lib.
 */
type Layer = "app" | "client" | "server" | "contracts" | "domain" | "cli" | "prisma" | "tests";

const MAY_USE: Readonly<Record<Exclude<Layer, "tests" | "prisma">, readonly Layer[]>> = {
  app: ["app", "client", "server", "contracts", "domain"],
  client: ["app", "client", "contracts", "domain"],
  server: ["server", "contracts", "domain"],
  contracts: ["contracts", "domain"],
  domain: ["domain"],
  cli: ["cli", "server", "contracts", "domain", "prisma"],
};

/** Packages each pure layer may name; the others are held by their own needs. */
const PACKAGES: Partial<Record<Layer, readonly string[]>> = {
  domain: ["temporal-polyfill"],
  contracts: ["zod", "temporal-polyfill"],
};

/** What only the server may name: a page that reached for these would go round commands and queries. */
const SERVER_ONLY = /^(pg|@prisma\/.*|prisma|nodemailer|pino|@node-rs\/argon2)$/;

/** One line for every arrow that points the wrong way, in the given files as a whole. */
export function importFaults(files: readonly SourceFile[]): readonly string[] {
  const code = files.filter(isCode);
  const byPath = new Map(code.map((file) => [file.path, { file, source: parse(file) }]));
  const layerAt = (path: string): Layer | undefined => {
    const layer = layerOf(path);
    const source = byPath.get(path)?.source;
    return layer === "app" && source !== undefined && directivesOf(source.statements).includes("use client") ? "client" : layer;
  };
  return code.flatMap(({ path }) => {
    const layer = layerAt(path);
    const source = byPath.get(path)?.source;
    if (layer === undefined || layer === "tests" || layer === "prisma" || source === undefined) return [];
    return importsOf(source).flatMap((specifier) => {
      const target = targetOf(path, specifier);
      if (target === undefined) return packageFaults(path, layer, specifier);
      const found = targetFile(target, byPath);
      const targetLayer = layerAt(found ?? target);
      if (targetLayer === undefined || MAY_USE[layer].includes(targetLayer)) return clientLeaks(path, layer, found, byPath);
      return [`${path} (${layer}) must not use ${specifier} (${targetLayer})`];
    });
  });
}

function layerOf(path: string): Layer | undefined {
  if (path.startsWith("app/")) return "app";
  if (path.startsWith("prisma/")) return "prisma";
  if (path.startsWith("tests/") || path.startsWith("e2e/")) return "tests";
  const inLib = /^lib\/(server|contracts|domain|cli)\//.exec(path)?.[1];
  return inLib as "server" | "contracts" | "domain" | "cli" | undefined;
}

/** The path inside the repository that a specifier means, or nothing when it names a package. */
function targetOf(from: string, specifier: string): string | undefined {
  if (specifier.startsWith("@/")) return posix.normalize(specifier.slice(2));
  return specifier.startsWith(".") ? posix.join(posix.dirname(from), specifier) : undefined;
}

type Parsed = { readonly file: SourceFile; readonly source: ReturnType<typeof parse> };

function targetFile(target: string, byPath: ReadonlyMap<string, Parsed>): string | undefined {
  const bare = target.replace(/\.m?js$/, "");
  return [target, `${bare}.ts`, `${bare}.tsx`, `${bare}.mts`, `${bare}.mjs`, `${bare}/index.ts`, `${bare}/index.tsx`].find((path) => byPath.has(path));
}

function packageFaults(path: string, layer: Layer, specifier: string): readonly string[] {
  const name = specifier.startsWith("@") ? specifier.split("/").slice(0, 2).join("/") : (specifier.split("/")[0] ?? specifier);
  const allowed = PACKAGES[layer];
  if (allowed !== undefined && !allowed.includes(name)) return [`${path} (${layer}) must not use the package ${specifier}`];
  if ((layer === "app" || layer === "client") && SERVER_ONLY.test(name)) return [`${path} (${layer}) must not use the package ${specifier}`];
  if (layer === "client" && specifier.startsWith("node:")) return [`${path} (client) must not use ${specifier}`];
  return [];
}

/**
 * What a client component takes from app becomes client code too, unless it is a server action. So
 * the files it reaches through app are followed until one of them leaves for the server.
 */
function clientLeaks(path: string, layer: Layer, first: string | undefined, byPath: ReadonlyMap<string, Parsed>): readonly string[] {
  if (layer !== "client" || first === undefined) return [];
  const seen = new Set<string>();
  const faults: string[] = [];
  const follow = (at: string): void => {
    const parsed = byPath.get(at);
    if (seen.has(at) || !at.startsWith("app/") || parsed === undefined) return;
    seen.add(at);
    const directives = directivesOf(parsed.source.statements);
    if (directives.includes("use server") || directives.includes("use client")) return;
    for (const specifier of importsOf(parsed.source)) {
      const target = targetOf(at, specifier);
      if (target === undefined) continue;
      const layerThere = layerOf(target);
      if (layerThere === "server" || layerThere === "cli") faults.push(`${path} (client) reaches ${specifier} (${layerThere}) through ${at}`);
      else follow(targetFile(target, byPath) ?? target);
    }
  };
  follow(first);
  return faults;
}
