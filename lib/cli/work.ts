import { closeDatabase } from "@/lib/server/db";
import { work } from "@/lib/server/jobs/work";

/**
 * `npx tsx lib/cli/work.ts [job …]`: does the jobs of the database of DATABASE_URL (its owner's address), or only those
 * named, until it is told to stop. `npm start` starts one beside the web server; more of them, here or elsewhere, share the work.
 */
async function main(): Promise<void> {
  const { DATABASE_URL: ownerUrl } = process.env;
  if (!ownerUrl) throw new Error("DATABASE_URL must be set: the database, with its owner's name and password.");
  const working = await work(ownerUrl, process.argv.slice(2));
  let stopping = false;
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) {
    process.on(signal, () => {
      if (!stopping) void working.stop().then(closeDatabase);
      stopping = true;
    });
  }
  await working.ended;
}

main().catch((error: unknown) => {
  process.stderr.write(`The jobs cannot be done: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
});
