import { replyTo, type WorkMessage } from "./work";

self.addEventListener("message", ({ data }: MessageEvent<WorkMessage>) => {
  self.postMessage(replyTo(data));
});
