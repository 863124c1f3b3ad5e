import {
  type LineBasicMaterial, AmbientLight, Box3, Box3Helper, BufferAttribute, BufferGeometry, Color, DirectionalLight, Group, Mesh,
  MeshBasicMaterial, MeshLambertMaterial, OrthographicCamera, Scene, SphereGeometry, Vector3, WebGLRenderer,
} from "three";
import { FULL, type DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import type { MeshMark } from "./mesh-mark";
import { axesOf, type MeshView } from "./mesh-view";

export type MeshScene = { readonly show: (view: MeshView, mark: MeshMark) => void; readonly close: () => void };

/** Air around the drawing, of what is drawn. */
const AIR = 1.04;
const EYE_AWAY = 4;
/** Where the thick place itself is, of the ball that is drawn around it. */
const DOT = 0.14;

/** Draws a surface on a canvas; null where the browser cannot. `label` is moved to the thick place. */
export function openScene(canvas: HTMLCanvasElement, label: HTMLElement | null, surface: DrawnSurface): MeshScene | null {
  const renderer = rendererOn(canvas);
  if (renderer === null) return null;
  const scene = new Scene();
  const camera = new OrthographicCamera();
  camera.up.set(0, 0, 1);
  const glass = new Mesh(geometryOf(surface), new MeshLambertMaterial({ flatShading: true }));
  const box = new Box3().setFromObject(glass);
  const frame = new Box3Helper(box);
  const middle = box.getCenter(new Vector3());
  const reach = AIR * box.getSize(new Vector3()).length() / 2;
  const [ball, dot] = [shownThrough(0.3), shownThrough(1)];
  const sky = new DirectionalLight(0xffffff, 2.2);
  const lights = new Group().add(new AmbientLight(0xffffff, 1.4), sky);
  scene.add(glass, frame, ball, dot, lights);
  let last: readonly [MeshView, MeshMark] | null = null;

  const draw = (): void => {
    const { clientWidth: width, clientHeight: height } = canvas;
    if (last === null || width === 0 || height === 0) return;
    const [view, { at, radius }] = last;
    const { towards, right, upward } = axesOf(view);
    const narrow = Math.min(width, height);
    Object.assign(camera, { left: (-reach * width) / narrow, right: (reach * width) / narrow, top: (reach * height) / narrow, bottom: (-reach * height) / narrow, near: 0, far: 2 * EYE_AWAY });
    camera.position.copy(middle).addScaledVector(new Vector3(...towards), EYE_AWAY);
    camera.lookAt(middle);
    camera.updateProjectionMatrix();
    // The light stays over the viewer's left shoulder, so that edges show from every side.
    sky.position.set(...towards).addScaledVector(new Vector3(...right), -0.6).addScaledVector(new Vector3(...upward), 0.9);
    for (const [mesh, size] of [[ball, radius], [dot, DOT * radius]] as const) {
      mesh.position.set(...at);
      mesh.scale.setScalar(size);
    }
    renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
    renderer.setSize(width, height, false);
    renderer.render(scene, camera);
    const spot = new Vector3(...at).project(camera);
    if (label !== null) label.style.translate = `${Math.round(((spot.x + 1) / 2) * width)}px ${Math.round(((1 - spot.y) / 2) * height)}px`;
  };
  const recolour = (): void => {
    const colour = coloursOf(canvas);
    glass.material.color.copy(colour("--mesh-glass"));
    ball.material.color.copy(colour("--mesh-mark"));
    dot.material.color.copy(colour("--mesh-dot"));
    (frame.material as LineBasicMaterial).color.copy(colour("--mesh-frame"));
    draw();
  };
  const sized = new ResizeObserver(draw);
  sized.observe(canvas);
  const schemes = ["(prefers-color-scheme: dark)", "print"].map((query) => window.matchMedia(query));
  for (const scheme of schemes) scheme.addEventListener("change", recolour);
  recolour();
  return {
    show: (view, mark) => {
      last = [view, mark];
      draw();
    },
    close: () => {
      sized.disconnect();
      for (const scheme of schemes) scheme.removeEventListener("change", recolour);
      for (const { geometry, material } of [glass, ball, dot]) {
        geometry.dispose();
        material.dispose();
      }
      frame.dispose();
      renderer.dispose();
    },
  };
}

/** Kept after drawing, so that it can be printed. */
function rendererOn(canvas: HTMLCanvasElement): WebGLRenderer | null {
  // Asked first: the renderer writes an error to the console where there is none.
  const context = canvas.getContext("webgl2", { antialias: true, alpha: true, preserveDrawingBuffer: true });
  return context === null ? null : new WebGLRenderer({ canvas, context, alpha: true });
}

function geometryOf({ points, triangles }: DrawnSurface): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.from(points, (value) => value / FULL), 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  return geometry;
}

/** A ball that is seen through whatever lies before it. */
function shownThrough(opacity: number): Mesh<SphereGeometry, MeshBasicMaterial> {
  const ball = new Mesh(new SphereGeometry(1, 32, 24), new MeshBasicMaterial({ transparent: true, opacity, depthTest: false }));
  ball.renderOrder = 1 + opacity;
  return ball;
}

/** The page's own colours: three knows no oklch, so a pixel is painted with each and read back. */
function coloursOf(element: HTMLElement): (name: string) => Color {
  const style = getComputedStyle(element);
  const pixel = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  return (name) => {
    if (pixel === null) return new Color(0x888888);
    pixel.fillStyle = style.getPropertyValue(name);
    pixel.fillRect(0, 0, 1, 1);
    const [red = 0, green = 0, blue = 0] = pixel.getImageData(0, 0, 1, 1).data;
    return new Color().setRGB(red / 255, green / 255, blue / 255, "srgb");
  };
}
