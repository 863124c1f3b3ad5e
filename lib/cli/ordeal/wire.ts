import { Agent, request } from "node:http";

export type Heard = { readonly status: number; readonly body: unknown };

/** A member's connections to all processes. They can be cut at any moment, whatever is under way. */
export class Wire {
  private agent = new Agent({ keepAlive: true });
  constructor(private readonly ports: readonly number[], private readonly token: string, private readonly random: () => number) {}

  cut(): void {
    this.agent.destroy();
    this.agent = new Agent({ keepAlive: true });
  }

  /** Undefined when nobody knows what became of it: no answer, or one that says that something broke. */
  async ask(method: "GET" | "POST", path: string, body?: object, key?: string): Promise<Heard | undefined> {
    const port = this.ports[Math.floor(this.random() * this.ports.length)];
    return new Promise((done) => {
      const text = body === undefined ? "" : JSON.stringify(body);
      const headers = { Authorization: `Bearer ${this.token}`, ...(body === undefined ? {} : { "Content-Type": "application/json", "Content-Length": Buffer.byteLength(text) }), ...(key === undefined ? {} : { "Idempotency-Key": key }) };
      const asked = request({ host: "127.0.0.1", port, path, method, agent: this.agent, headers, timeout: 15_000 }, (answer) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part));
        answer.on("error", () => done(undefined));
        answer.on("end", () => done(heard(answer.statusCode ?? 500, Buffer.concat(parts).toString("utf8"))));
      });
      asked.on("timeout", () => asked.destroy());
      asked.on("error", () => done(undefined));
      asked.end(text);
    });
  }
}

function heard(status: number, text: string): Heard | undefined {
  if (status >= 500) return undefined;
  try {
    return { status, body: JSON.parse(text) as unknown };
  } catch {
    return undefined;
  }
}
