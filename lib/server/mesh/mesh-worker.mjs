// The thread in which a mesh is read: a plain file, so that it starts beside a built server as well as from its sources.
import { register } from "tsx/esm/api";

register();
await import("./answer-mesh.ts");
