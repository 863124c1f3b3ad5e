import { useEffect, useRef, useState } from "react";
import { MOST_MESH_BYTES, MOST_MESH_MB, type MeshProgress, type ReadMesh } from "@/lib/contracts/mesh";
import { paths } from "@/lib/contracts/paths";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import type { MeshUnit, MeshUp } from "@/lib/domain/shape/mesh/turned";
import { sendFile } from "./send-file";

export type MeshUpload =
  | { readonly state: "idle" }
  | { readonly state: "sending"; readonly percent: number }
  | Extract<MeshProgress, { readonly percent: number }>
  | { readonly state: "refused"; readonly problems: readonly Problem[] };

const ASK_EVERY_MS = 300;
const LOST: Problem = { code: "no-answer", message: "The server cannot be reached. Send the file again when it can; what you typed is still here." };

/** Sends a mesh file and follows its reading. A later file takes the place of one that is still under way. */
export function useMeshUpload(onRead: (mesh: ReadMesh) => void): { readonly upload: MeshUpload; readonly send: (file: File, unit: MeshUnit, up: MeshUp) => void; readonly refuse: (problem: Problem) => void } {
  const [upload, setUpload] = useState<MeshUpload>({ state: "idle" });
  const running = useRef<AbortController | null>(null);
  useEffect(() => () => running.current?.abort(), []);

  const begin = (): AbortSignal => {
    running.current?.abort();
    running.current = new AbortController();
    return running.current.signal;
  };
  const send = (file: File, unit: MeshUnit, up: MeshUp): void => {
    const signal = begin();
    const tell = (next: MeshUpload): void => {
      if (!signal.aborted) setUpload(next);
    };
    const fault = faultOf(file);
    if (fault !== undefined) return tell({ state: "refused", problems: [fault] });
    tell({ state: "sending", percent: 0 });
    follow(file, `${paths.meshes}?${new URLSearchParams({ name: file.name, unit, up })}`, signal, tell).then(
      (mesh) => {
        if (mesh === null || signal.aborted) return;
        setUpload({ state: "idle" });
        onRead(mesh);
      },
      () => tell({ state: "refused", problems: [LOST] }),
    );
  };
  const refuse = (problem: Problem): void => {
    begin();
    setUpload({ state: "refused", problems: [problem] });
  };
  return { upload, send, refuse };
}

/** What need not be sent to be known. */
function faultOf({ name, size }: File): Problem | undefined {
  if (!/\.(stl|obj)$/i.test(name)) return { code: "wrong-kind", message: `${name} is neither STL nor OBJ: its name must end in .stl or .obj.` };
  if (size === 0) return { code: "empty", message: `${name} is empty: it holds 0 bytes.` };
  if (size <= MOST_MESH_BYTES) return undefined;
  return { code: "too-large", message: `${name} has ${(size / 1024 / 1024).toFixed(1)} MB; up to ${MOST_MESH_MB} MB are read. Save it as binary STL, or with fewer triangles: 200 000 (10 MB) are plenty.` };
}

/** The mesh when it is read; null when it was refused, which has been told. */
async function follow(file: File, address: string, signal: AbortSignal, tell: (next: MeshUpload) => void): Promise<ReadMesh | null> {
  const sent = (await sendFile(address, file, signal, (percent) => tell({ state: "sending", percent }))) as Outcome<{ readonly meshId: string }>;
  if (!sent.ok) {
    tell({ state: "refused", problems: sent.problems });
    return null;
  }
  for (;;) {
    const answer = await fetch(paths.mesh(sent.value.meshId), { signal, cache: "no-store" });
    if (!answer.ok) throw new Error(`answered ${answer.status}`);
    const progress = (await answer.json()) as MeshProgress;
    if (progress.state === "done") return progress.mesh;
    if ("problems" in progress) {
      tell({ state: "refused", problems: progress.problems });
      return null;
    }
    tell(progress);
    await new Promise((later) => setTimeout(later, ASK_EVERY_MS));
  }
}
