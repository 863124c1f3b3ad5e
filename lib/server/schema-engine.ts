import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { PrismaPg } from "@prisma/adapter-pg";
import { bindMigrationAwareSqlAdapterFactory } from "@prisma/driver-adapter-utils";
import * as engineModule from "@prisma/schema-engine-wasm/schema_engine_bg";

/** The schema engine that ships inside the packages, so that migrating downloads nothing. */
export type SchemaEngine = engineModule.SchemaEngine;

/**
 * Sends a migration to Postgres as it stands. The stock adapter cuts a script at every semicolon, which breaks
 * functions in dollar quotes; sent whole, Postgres also runs the script as one transaction.
 */
class WholeScriptAdapterFactory extends PrismaPg {
  /** What Postgres said of the last script it refused; the engine passes on only that it did. */
  refusal: Error | undefined;

  override async connect(): ReturnType<PrismaPg["connect"]> {
    const adapter = await super.connect();
    adapter.executeScript = async (script) => {
      await adapter.underlyingDriver().query(script).catch((error: Error) => {
        this.refusal = error;
        throw error;
      });
    };
    return adapter;
  }
}

let loading: Promise<void> | undefined;

/** Instantiates the WebAssembly by hand: its own entry imports the file as a module, which Node 20 cannot. */
async function loadEngine(): Promise<void> {
  const entry = createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm/schema_engine_bg");
  const bytes = await readFile(path.join(path.dirname(entry), "schema_engine_bg.wasm"));
  const imports = { "./schema_engine_bg.js": engineModule } as WebAssembly.Imports;
  const { instance } = await WebAssembly.instantiate(bytes, imports);
  engineModule.__wbg_set_wasm(instance.exports);
  const start = instance.exports["__wbindgen_start"];
  if (typeof start === "function") start();
}

/** Opens an engine on one database for the length of `use`. */
export async function withSchemaEngine<T>(databaseUrl: string, use: (engine: SchemaEngine) => Promise<T>): Promise<T> {
  loading ??= loadEngine();
  await loading;
  const factory = new WholeScriptAdapterFactory({ connectionString: databaseUrl, max: 2, idleTimeoutMillis: 1 });
  const engine = await engineModule.SchemaEngine.new(
    { datamodels: undefined },
    () => undefined,
    bindMigrationAwareSqlAdapterFactory(factory),
  );
  try {
    return await use(engine);
  } catch (error) {
    throw factory.refusal === undefined ? error : refused(error, factory.refusal);
  } finally {
    engine.free();
  }
}

function refused(error: unknown, cause: Error): Error {
  const name = /migration_name="([^"]+)"/.exec(String(error))?.[1] ?? "a migration";
  return new Error(`Postgres refused ${name}: ${cause.message}`, { cause });
}
