import { register } from "tsx/esm/api";

/** Lets a thread read TypeScript, whatever its parent was started by, and begins its work. */
register();
await import("./settle-worker.ts");
