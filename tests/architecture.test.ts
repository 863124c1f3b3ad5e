import { describe, expect, it } from "vitest";
import { importFaults } from "./helpers/architecture/import-rules";
import { purityFaults } from "./helpers/architecture/purity-rules";
import { actionFaults, fileFaults, MAX_ACTION_LINES, MAX_FILE_LINES } from "./helpers/architecture/shape-rules";
import { filesBelow, isCode, type SourceFile } from "./helpers/architecture/source-files";

const SOURCES = filesBelow(["app", "lib", "prisma"]);
const EVERYTHING = [...SOURCES, ...filesBelow(["tests", "e2e"])];
const DOMAIN = SOURCES.filter((file) => file.path.startsWith("lib/domain/") && isCode(file));

describe("the house as it stands", () => {
  it("has been read", () => {
    expect(DOMAIN.length).toBeGreaterThan(5);
  });
  it("lets imports point downwards only", () => {
    expect(importFaults(SOURCES)).toEqual([]);
  }, 30_000);
  it("keeps clock, environment, randomness and waiting out of the domain", () => {
    expect(DOMAIN.flatMap(purityFaults)).toEqual([]);
  });
  it("keeps files short and named in kebab-case, without barrels", () => {
    expect(EVERYTHING.flatMap(fileFaults)).toEqual([]);
  });
  it("keeps server actions thin and in their own files", () => {
    expect(SOURCES.flatMap(actionFaults)).toEqual([]);
  });
});

const at = (path: string, text: string): SourceFile => ({ path, text });

describe("an arrow that points the wrong way is found", () => {
  it.each([
    ["domain to contracts", "lib/domain/a.ts", 'import { x } from "@/lib/contracts/x";'],
    ["domain to server, by type only", "lib/domain/a.ts", 'import type { X } from "@/lib/server/x";'],
    ["domain to server, by a relative path", "lib/domain/heat/a.ts", 'import { x } from "../../server/x";'],
    ["domain to server, by re-export", "lib/domain/a.ts", 'export * from "@/lib/server/x";'],
    ["domain to server, by dynamic import", "lib/domain/a.ts", 'const x = () => import("@/lib/server/x");'],
    ["domain to server, by an import type", "lib/domain/a.ts", 'type X = import("@/lib/server/x").X;'],
    ["domain to Node", "lib/domain/a.ts", 'import { readFileSync } from "node:fs";'],
    ["domain to a framework", "lib/domain/a.ts", 'import { cache } from "react";'],
    ["domain to zod", "lib/domain/a.ts", 'import { z } from "zod";'],
    ["contracts to server", "lib/contracts/a.ts", 'import { x } from "@/lib/server/x";'],
    ["contracts to a framework", "lib/contracts/a.ts", 'import { headers } from "next/headers";'],
    ["server to app", "lib/server/a.ts", 'import { x } from "@/app/x";'],
    ["server to the command line", "lib/server/a.ts", 'import { x } from "@/lib/cli/x";'],
    ["app to the command line", "app/a.ts", 'import { x } from "@/lib/cli/x";'],
    ["app to tests", "app/a.ts", 'import { x } from "@/tests/helpers/x";'],
    ["app straight to the database", "app/a.ts", 'import { PrismaClient } from "@prisma/client";'],
    ["the command line to app", "lib/cli/a.ts", 'import { x } from "@/app/x";'],
    ["a client component to server", "app/a.tsx", '"use client";\nimport { x } from "@/lib/server/x";'],
    ["a client component to server, by type only", "app/a.tsx", '"use client";\nimport type { X } from "@/lib/server/x";'],
    ["a client component to Node", "app/a.tsx", '"use client";\nimport { join } from "node:path";'],
  ])("%s", (_name, path, text) => {
    expect(importFaults([at(path, text)])).toHaveLength(1);
  });

  it("a client component to server through another file of app", () => {
    const client = at("app/a.tsx", '"use client";\nimport { b } from "./b";');
    const between = at("app/b.ts", 'import { x } from "@/lib/server/x";\nexport const b = x;');
    expect(importFaults([client, between])).toHaveLength(1);
  });

  it.each([
    ["app to server", "app/a.ts", 'import { x } from "@/lib/server/x";'],
    ["app to domain, skipping layers", "app/a.ts", 'import { x } from "@/lib/domain/x";'],
    ["server to domain, skipping layers", "lib/server/a.ts", 'import { x } from "@/lib/domain/x";'],
    ["contracts to domain", "lib/contracts/a.ts", 'import { z } from "zod";\nimport { x } from "@/lib/domain/x";'],
    ["domain to domain", "lib/domain/a.ts", 'import { Temporal } from "temporal-polyfill";\nimport { b } from "./b";'],
    ["the command line to server", "lib/cli/a.ts", 'import { x } from "@/lib/server/x";'],
    ["a client component to contracts", "app/a.tsx", '"use client";\nimport { x } from "@/lib/contracts/x";'],
  ])("and a right one is left alone: %s", (_name, path, text) => {
    expect(importFaults([at(path, text)])).toEqual([]);
  });

  it("and a client component may call server actions, which do reach the server", () => {
    const client = at("app/a.tsx", '"use client";\nimport { book } from "./actions";');
    const actions = at("app/actions.ts", '"use server";\nimport { x } from "@/lib/server/x";\nexport async function book() { return x(); }');
    expect(importFaults([client, actions])).toEqual([]);
  });
});

describe("impurity in the domain is found", () => {
  it.each([
    "const t = Date.now();", "const t = new Date();", "const t = Temporal.Now.instant();", "const r = Math.random();",
    "const e = process.env.HOME;", "const t = performance.now();", "const id = crypto.randomUUID();", "const g = globalThis;",
    "async function f() { return 1; }", "const f = async () => 1;", "const p = Promise.resolve(1);", "setTimeout(() => 1, 5);",
    "const u = import.meta.url;", 'const m = import("./b");', "console.log(1);", "const s = (1).toLocaleString();",
    "const f = new Intl.NumberFormat();", 'const c = "a".localeCompare("b");',
  ])("%s", (text) => {
    expect(purityFaults(at("lib/domain/a.ts", text)).length).toBeGreaterThan(0);
  });

  it.each([
    "const process = 850; export const hot = process + 1;", "type T = { readonly process: number };", "const x = { process: 1 }.process;",
    'const t = Temporal.Instant.from("2026-01-01T00:00Z");', "const m = Math.max(1, 2);", '// Date.now() is not used\nconst s = "new Date()";',
    'const s = (1).toLocaleString("en-GB");', "function f(document: string) { return document; }",
  ])("and what only looks like it is left alone: %s", (text) => {
    expect(purityFaults(at("lib/domain/a.ts", text))).toEqual([]);
  });
});

describe("a file out of shape is found", () => {
  const lines = (count: number) => Array.from({ length: count }, () => "// line").join("\n");

  it("one line above the limit, and not at it", () => {
    expect(fileFaults(at("lib/domain/a.ts", lines(MAX_FILE_LINES)))).toEqual([]);
    expect(fileFaults(at("lib/domain/a.ts", lines(MAX_FILE_LINES + 1)))).toHaveLength(1);
  });

  it.each(["lib/domain/heatFlow.ts", "lib/Domain/heat.ts", "app/Kiln.tsx", "lib/domain/heat_flow.ts", "lib/domain/index.ts", "lib/server/utils.ts"])("%s", (path) => {
    expect(fileFaults(at(path, ""))).toHaveLength(1);
  });

  it.each(["app/(signed-in)/firings/[firingId]/page.tsx", "app/api/auth/[...nextauth]/route.ts", "app/api/v1/openapi.json/route.ts", "app/feeds/[secret]/calendar.ics/route.ts", "app/_components/a-b.module.css", "tests/domain/a.test.ts", "lib/cli/start.d.mts"])(
    "and a well-named one is left alone: %s",
    (path) => {
      expect(fileFaults(at(path, ""))).toEqual([]);
    },
  );
});

describe("a thick or hidden server action is found", () => {
  const body = (count: number) => Array.from({ length: count }, () => "  step();").join("\n");
  const action = (count: number) => `"use server";\nexport async function book() {\n${body(count)}\n}`;

  it("one line above the limit, and not at it", () => {
    expect(actionFaults(at("app/runs/actions.ts", action(MAX_ACTION_LINES)))).toEqual([]);
    expect(actionFaults(at("app/runs/actions.ts", action(MAX_ACTION_LINES + 1)))).toHaveLength(1);
  });

  it("when written as a constant", () => {
    const text = `"use server";\nexport const book = async () => {\n${body(MAX_ACTION_LINES + 1)}\n};`;
    expect(actionFaults(at("app/runs/actions.ts", text))).toHaveLength(1);
  });

  it("in a file of another name, in a page, and without its directive", () => {
    expect(actionFaults(at("app/runs/book.ts", action(1)))).toHaveLength(1);
    expect(actionFaults(at("app/runs/page.tsx", 'export default function P() { async function f() { "use server"; } return f; }'))).toHaveLength(1);
    expect(actionFaults(at("app/runs/actions.ts", "export async function book() {}"))).toHaveLength(1);
  });

  it("and a helper that is not exported may be longer", () => {
    expect(actionFaults(at("app/runs/actions.ts", `"use server";\nfunction helper() {\n${body(30)}\n}`))).toEqual([]);
  });
});
