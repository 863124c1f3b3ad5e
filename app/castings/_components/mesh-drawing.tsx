import { useEffect, useRef, useState, type KeyboardEvent, type PointerEvent } from "react";
import { Button } from "@/app/_components/button";
import type { ReadMesh } from "@/lib/contracts/mesh";
import type { DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import { fetchDrawing } from "./fetch-drawing";
import { markOf } from "./mesh-mark";
import type { MeshScene } from "./mesh-scene";
import { MeshStill } from "./mesh-still";
import { boxText, thickPlace } from "./mesh-words";
import { FIRST_VIEW, turnedBy, TURN_KEYS, type MeshView } from "./mesh-view";
import styles from "./mesh.module.css";

type MeshDrawingProps = { readonly mesh: ReadMesh; readonly cooling: string };

/** A drag across this many pixels is a quarter turn. */
const QUARTER_TURN_PX = 220;
const TURNS: readonly { readonly key: keyof typeof TURN_KEYS; readonly sign: string; readonly label: string }[] = [
  { key: "ArrowLeft", sign: "←", label: "Turn left" },
  { key: "ArrowRight", sign: "→", label: "Turn right" },
  { key: "ArrowUp", sign: "↑", label: "Look from higher" },
  { key: "ArrowDown", sign: "↓", label: "Look from lower" },
  { key: "Home", sign: "⌂", label: "As at first" },
];

/** The mesh in three dimensions, to be turned by mouse, finger or keys; a still drawing where that is not possible. */
export function MeshDrawing({ mesh, cooling }: MeshDrawingProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const label = useRef<HTMLSpanElement>(null);
  const scene = useRef<MeshScene | null>(null);
  const [surface, setSurface] = useState<DrawnSurface | null>(null);
  const [state, setState] = useState<"coming" | "turning" | "still" | "none">("coming");
  const [view, setView] = useState<MeshView>(FIRST_VIEW);
  const mark = markOf(mesh.body, cooling);

  useEffect(() => {
    let over = false;
    fetchDrawing(mesh.meshId)
      .then(async (drawn) => {
        if (over) return;
        setSurface(drawn);
        // A megabyte of code for this drawing alone: fetched when there is one.
        const { openScene } = await import("./mesh-scene");
        if (over || canvas.current === null) return;
        scene.current = openScene(canvas.current, label.current, drawn);
        setState(scene.current === null ? "still" : "turning");
      })
      .catch(() => setState((now) => (now === "coming" ? "none" : now)));
    return () => {
      over = true;
      scene.current?.close();
      scene.current = null;
    };
  }, [mesh.meshId]);

  useEffect(() => scene.current?.show(view, mark), [view, mark, state]);

  const turn = (key: string): boolean => {
    const by = Object.hasOwn(TURN_KEYS, key) ? TURN_KEYS[key as keyof typeof TURN_KEYS] : undefined;
    if (by === undefined) return false;
    setView((now) => (by === "first" ? FIRST_VIEW : turnedBy(now, by)));
    return true;
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (turn(event.key)) event.preventDefault();
  };
  const onPointerMove = (event: PointerEvent): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const quarter = Math.PI / 2 / QUARTER_TURN_PX;
    // A finger that moves up or down scrolls the page.
    const up = event.pointerType === "touch" ? 0 : event.movementY * quarter;
    setView((now) => turnedBy(now, { around: -event.movementX * quarter, up }));
  };
  const words = `The mesh, ${boxText(mesh.body)}, thickest ${thickPlace(mesh.body, cooling)}.`;
  return (
    <div className={styles["drawing"]}>
      <div
        className={styles["stage"]} role="group" aria-label={`${words}${state === "turning" ? " Arrow keys turn it." : ""}`}
        hidden={state === "still" || state === "none"} tabIndex={state === "turning" ? 0 : -1} onKeyDown={onKeyDown}
        onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)} onPointerMove={onPointerMove}
      >
        <canvas ref={canvas} className={styles["canvas"]} aria-hidden="true" />
        <span ref={label} className={styles["label"]} aria-hidden="true" hidden={state !== "turning"}>thickest</span>
        {state === "coming" && <p className={styles["coming"]}>The drawing is being fetched …</p>}
      </div>
      {state === "still" && surface !== null && <MeshStill surface={surface} mark={mark} words={words} />}
      {state === "none" && <p>The drawing could not be fetched; the figures beside it hold all the same.</p>}
      {state === "turning" && (
        <div className={styles["turns"]}>
          {TURNS.map(({ key, sign, label: said }) => (
            <Button key={key} aria-label={said} title={said} onClick={() => turn(key)}>
              {sign}
            </Button>
          ))}
        </div>
      )}
    </div>
  );
}
