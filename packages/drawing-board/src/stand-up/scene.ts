import type { Box3, Point3 } from "@dryfit/joinery";
import { Box3 as Box, Group, Matrix4, OrthographicCamera, Ray, Scene, Vector3, WebGLRenderer } from "three";
import type { Colours } from "../page-colours.ts";
import { axesOf, type Eye } from "./eye.ts";
import type { ScenePart } from "./scene-model.ts";
import { inksOf, type PartInWood, woodOf } from "./scene-wood.ts";

/** What is to be seen at a moment. */
export interface Look {
  readonly eye: Eye;
  /** How far each part is from home. */
  readonly offsets: Readonly<Record<string, Point3>>;
  /** Turns parts about an axis parallel to x; positive from y to z. */
  readonly swing: { readonly parts: readonly string[]; readonly axis: Point3; readonly deg: number } | null;
  /** Parts that are spoken of: drawn in a bolder line. */
  readonly bold: readonly string[];
  /** Wood in wood, where the parts are home. */
  readonly clashes: readonly Box3[];
  readonly colours: Colours;
  /** CSS pixels. */
  readonly size: { readonly width: number; readonly height: number };
}

/** Where a point of the case, moved along with a part, lies on the canvas: CSS pixels from its upper left. */
export type Spot = { readonly x: number; readonly y: number };

export interface PartsScene {
  /** Draws once; nothing moves until it is called again. Gives back where the middles lie of parts that are not covered. */
  readonly draw: (look: Look) => ReadonlyMap<string, Spot>;
  readonly dispose: () => void;
}

/**
 * The parts as ink on paper: faces in the paper's colour hide what lies behind them, edges and contours are lines.
 * Null where the browser has no WebGL.
 */
export function createScene(canvas: HTMLCanvasElement, parts: readonly ScenePart[]): PartsScene | null {
  const context = canvas.getContext("webgl2", { antialias: true, alpha: true, powerPreference: "low-power" });
  if (!context) return null;
  const renderer = new WebGLRenderer({ canvas, context, antialias: true, alpha: true });
  renderer.setClearAlpha(0);
  const scene = new Scene();
  const camera = new OrthographicCamera();
  camera.matrixAutoUpdate = false;
  const inks = inksOf();
  const woods = parts.map((part) => ({ part, wood: woodOf(part, inks) }));
  const clashes = new Group();
  scene.add(...woods.map(({ wood }) => wood.group), clashes);

  return {
    draw(look) {
      renderer.setPixelRatio(Math.min(2, devicePixelRatio));
      renderer.setSize(look.size.width, look.size.height, false);
      inks.wet(look.colours, look.size);
      for (const { part, wood } of woods) place(part, wood, look);
      inks.clash(clashes, look.clashes);
      aim(camera, look, woods);
      const { towards } = axesOf(look.eye);
      for (const { wood } of woods) wood.contour(towards);
      renderer.render(scene, camera);
      const open = woods.filter((each) => !isCovered(each, woods, towards));
      return new Map(open.map(({ part, wood }) => [part.part, spotOf(wood, part, camera, look)]));
    },
    dispose() {
      for (const { wood } of woods) wood.dispose();
      inks.dispose();
      renderer.dispose();
      // A browser keeps only so many; the next drawing asks for its own.
      renderer.forceContextLoss();
    },
  };
}

function place({ part }: ScenePart, { group, setBold }: PartInWood, look: Look): void {
  const by = look.offsets[part] ?? { x: 0, y: 0, z: 0 };
  group.matrix.makeTranslation(by.x, by.y, by.z);
  if (look.swing?.parts.includes(part)) {
    const { axis, deg } = look.swing;
    group.matrix
      .makeTranslation(0, axis.y, axis.z)
      .multiply(new Matrix4().makeRotationX((deg * Math.PI) / 180))
      .multiply(new Matrix4().makeTranslation(0, -axis.y, -axis.z));
  }
  group.matrixWorldNeedsUpdate = true;
  group.updateMatrixWorld(true);
  setBold(look.bold.includes(part));
}

/** Room round the drawing, as a share of it. */
const ROOM = 1.08;

/** Looks square at the middle of all there is, as near as the paper allows. */
function aim(
  camera: OrthographicCamera,
  { eye, size }: Look,
  woods: readonly { readonly part: ScenePart; readonly wood: PartInWood }[],
): void {
  const { right, up, towards } = axesOf(eye);
  const corners = woods.flatMap(({ part, wood }) => cornersIn(part, wood));
  const [across, high, deep] = [right, up, towards].map((way) => {
    const along = corners.map((p) => p.x * way.x + p.y * way.y + p.z * way.z);
    return { min: Math.min(...along), max: Math.max(...along) };
  }) as [Span, Span, Span];
  const perPixel =
    Math.max(widthOf(across) / size.width, widthOf(high) / size.height, 1e-3) * (ROOM / eye.zoom);
  camera.right = (size.width * perPixel) / 2;
  camera.left = -camera.right;
  camera.top = (size.height * perPixel) / 2;
  camera.bottom = -camera.top;
  camera.near = 1;
  camera.far = widthOf(deep) + 102;
  camera.updateProjectionMatrix();
  const at = (span: Span, way: Point3, by: number): Vector3 =>
    new Vector3(way.x, way.y, way.z).multiplyScalar(by + (span.min + span.max) / 2);
  const position = at(across, right, 0)
    .add(at(high, up, 0))
    .add(at(deep, towards, widthOf(deep) / 2 + 51));
  camera.matrix.makeBasis(vector(right), vector(up), vector(towards)).setPosition(position);
  camera.matrixWorldNeedsUpdate = true;
  camera.updateMatrixWorld(true);
}

interface Span {
  readonly min: number;
  readonly max: number;
}

function widthOf({ min, max }: Span): number {
  return max - min;
}

function cornersIn({ box: { min, max } }: ScenePart, { group }: PartInWood): readonly Vector3[] {
  return [min.x, max.x].flatMap((x) =>
    [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => new Vector3(x, y, z).applyMatrix4(group.matrix))),
  );
}

/** Whether another part's box lies between the eye and this part's middle. */
function isCovered(
  { part, wood }: { readonly part: ScenePart; readonly wood: PartInWood },
  woods: readonly { readonly part: ScenePart; readonly wood: PartInWood }[],
  towards: Point3,
): boolean {
  const from = middleOf(part).applyMatrix4(wood.group.matrix);
  return woods.some((other) => {
    if (other.part === part) return false;
    const back = other.wood.group.matrix.clone().invert();
    const ray = new Ray(from.clone().applyMatrix4(back), vector(towards).transformDirection(back));
    return ray.intersectsBox(boxOf(other.part));
  });
}

function middleOf(part: ScenePart): Vector3 {
  return boxOf(part).getCenter(new Vector3());
}

function boxOf({ box: { min, max } }: ScenePart): Box {
  return new Box(vector(min), vector(max));
}

function spotOf({ group }: PartInWood, part: ScenePart, camera: OrthographicCamera, { size }: Look): Spot {
  const seen = middleOf(part).applyMatrix4(group.matrix).project(camera);
  return { x: ((seen.x + 1) / 2) * size.width, y: ((1 - seen.y) / 2) * size.height };
}

function vector({ x, y, z }: Point3): Vector3 {
  return new Vector3(x, y, z);
}
