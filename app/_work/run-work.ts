import type { WorkAnswer, WorkMessage, WorkName, WorkQuestion, WorkReply } from "./work";

type Waiting = { readonly message: WorkMessage; readonly resolve: (answer: unknown) => void; readonly reject: (error: Error) => void };

const waiting = new Map<number, Waiting>();
let worker: Worker | undefined;
let broken = false;
let count = 0;

/**
 * Works something out in the browser's worker, which stays and remembers its last plans. Where a worker
 * cannot be started it is done in the page: slower to type in, but with the same answer.
 */
export function runWork<N extends WorkName>(name: N, question: WorkQuestion<N>): Promise<WorkAnswer<N>> {
  count += 1;
  const message: WorkMessage = { id: count, name, question };
  return new Promise<unknown>((resolve, reject) => {
    waiting.set(message.id, { message, resolve, reject });
    send(message);
  }) as Promise<WorkAnswer<N>>;
}

function send(message: WorkMessage): void {
  const at = broken ? undefined : started();
  if (at === undefined) void inPage(message);
  else at.postMessage(message);
}

function started(): Worker | undefined {
  if (worker !== undefined) return worker;
  try {
    worker = new Worker(new URL("./plan-worker.ts", import.meta.url), { type: "module" });
  } catch {
    broken = true;
    return undefined;
  }
  worker.addEventListener("message", ({ data }: MessageEvent<WorkReply>) => settle(data));
  worker.addEventListener("error", () => {
    broken = true;
    worker?.terminate();
    for (const { message } of waiting.values()) void inPage(message);
  });
  return worker;
}

async function inPage(message: WorkMessage): Promise<void> {
  const { replyTo } = await import("./work");
  settle(replyTo(message));
}

function settle(reply: WorkReply): void {
  const one = waiting.get(reply.id);
  waiting.delete(reply.id);
  if ("failed" in reply) one?.reject(new Error(reply.failed));
  else one?.resolve(reply.answer);
}
