import { createServer } from "node:net";

/** Whether a port of this machine can be listened on. */
export function isFree(port: number, host = "127.0.0.1"): Promise<boolean> {
  return new Promise((answer) => {
    const probe = createServer();
    probe.once("error", () => answer(false));
    probe.listen(port, host, () => probe.close(() => answer(true)));
  });
}

/** The wished port when it is free, else any free one. Somebody may still take it first: be ready to ask again. */
export async function freePort(wished?: number): Promise<number> {
  if (wished !== undefined && (await isFree(wished))) return wished;
  return new Promise((answer, fail) => {
    const probe = createServer();
    probe.once("error", fail);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() => (address !== null && typeof address === "object" ? answer(address.port) : fail(new Error("no free port"))));
    });
  });
}
