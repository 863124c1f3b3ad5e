import { Agent, request } from "node:http";

export type Answer = { readonly status: number; readonly body: string; readonly ms: number };
export type Poster = { readonly post: (path: string, token: string, key: string, body: object) => Promise<Answer>; readonly close: () => void };

/** Clients shared out to processes; their connections are new, as one that was idle for long may be closed by the server at any moment. */
export async function withPosters<T>(ports: readonly number[], clients: number, work: (posters: readonly Poster[]) => Promise<T>): Promise<T> {
  const posters = ports.map((port) => poster(port, Math.ceil(clients / ports.length)));
  try {
    return await work(posters);
  } finally {
    for (const one of posters) one.close();
  }
}

/** A client with connections of its own to one process. */
function poster(port: number, connections: number): Poster {
  const agent = new Agent({ keepAlive: true, maxSockets: connections });
  const post = (path: string, token: string, key: string, body: object): Promise<Answer> =>
    new Promise((done, failed) => {
      const text = JSON.stringify(body);
      const from = performance.now();
      const headers = { Authorization: `Bearer ${token}`, "Content-Type": "application/json", "Idempotency-Key": key, "Content-Length": Buffer.byteLength(text) };
      const asked = request({ host: "127.0.0.1", port, path, method: "POST", agent, headers }, (answer) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part)).on("error", failed);
        answer.on("end", () => done({ status: answer.statusCode ?? 0, body: Buffer.concat(parts).toString("utf8"), ms: performance.now() - from }));
      });
      asked.on("error", failed).end(text);
    });
  return { post, close: () => agent.destroy() };
}
