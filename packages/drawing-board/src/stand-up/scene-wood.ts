import type { Box3, Point3 } from "@dryfit/joinery";
import {
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  Group,
  type Material,
  Matrix3,
  Mesh,
  ShaderMaterial,
  ShapeUtils,
  Vector2,
  Vector3,
} from "three";
import { LineMaterial } from "three/addons/lines/LineMaterial.js";
import { LineSegments2 } from "three/addons/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
import type { Colours } from "../page-colours.ts";
import type { ScenePart } from "./scene-model.ts";
import type { Cap } from "./solid-faces.ts";

/** A part drawn in the case frame, to be moved by its group's matrix. */
export interface PartInWood {
  readonly group: Group;
  readonly setBold: (isBold: boolean) => void;
  /** Draws where its round walls turn away from the eye. */
  readonly contour: (towards: Point3) => void;
  readonly dispose: () => void;
}

/** What all parts are drawn with. */
export interface Inks {
  readonly face: ShaderMaterial;
  readonly boldFace: ShaderMaterial;
  readonly line: LineMaterial;
  readonly boldLine: LineMaterial;
  /** Takes up the page's colours. */
  readonly wet: (colours: Colours, size: { readonly width: number; readonly height: number }) => void;
  readonly clash: (group: Group, boxes: readonly Box3[]) => void;
  readonly dispose: () => void;
}

export function woodOf(part: ScenePart, inks: Inks): PartInWood {
  const skin = skinOf(part);
  const mesh = new Mesh(skin, inks.face);
  const sharp = linesFrom(edgesOf(part), inks.line);
  const round = linesFrom([], inks.line);
  const group = new Group();
  group.matrixAutoUpdate = false;
  group.add(mesh, sharp, round);
  const arrises = roundArrises(part);
  return {
    group,
    setBold(isBold) {
      mesh.material = isBold ? inks.boldFace : inks.face;
      sharp.material = isBold ? inks.boldLine : inks.line;
      round.material = sharp.material;
    },
    contour(towards) {
      const eye = vector(towards).applyMatrix3(new Matrix3().setFromMatrix4(group.matrix).transpose());
      const shown = arrises.filter(({ before, after }) => before.dot(eye) > 0 !== after.dot(eye) > 0);
      redraw(
        round,
        shown.flatMap(({ ends }) => ends),
      );
    },
    dispose() {
      for (const { geometry } of [mesh, sharp, round]) geometry.dispose();
    },
  };
}

export function inksOf(): Inks {
  const face = faceInk(0);
  const boldFace = faceInk(1);
  const line = new LineMaterial({ linewidth: 1.3 });
  const boldLine = new LineMaterial({ linewidth: 2.4 });
  const clash = clashInk();
  const clashLine = new LineMaterial({ linewidth: 2, depthTest: false });
  const all: readonly Material[] = [face, boldFace, line, boldLine, clash, clashLine];
  return {
    face,
    boldFace,
    line,
    boldLine,
    wet({ paper, ink, recess, path, error }, { width, height }) {
      for (const { uniforms } of [face, boldFace]) {
        uniforms.paper!.value.set(...rgbOf(paper));
        uniforms.ink!.value.set(...rgbOf(ink));
        uniforms.recess!.value.set(...rgbOf(recess));
        uniforms.path!.value.set(...rgbOf(path));
      }
      clash.uniforms.ink!.value.set(...rgbOf(error));
      clash.uniforms.paper!.value.set(...rgbOf(paper));
      for (const each of [line, boldLine]) each.color.setRGB(...linear(ink));
      clashLine.color.setRGB(...linear(error));
      for (const each of [line, boldLine, clashLine]) each.resolution.set(width, height);
    },
    clash(group, boxes) {
      for (const old of [...group.children] as Mesh[]) {
        old.geometry.dispose();
        group.remove(old);
      }
      for (const box of boxes) group.add(...clashMarks(box, clash, clashLine));
    },
    dispose() {
      for (const each of all) each.dispose();
    },
  };
}

/** Triangles with their normals, and where they lie on the panel, for the hatch on floors. */
function skinOf(part: ScenePart): BufferGeometry {
  const at: number[] = [];
  const normals: number[] = [];
  /** Panel x, y, and how deep a floor lies; 0 where there is none. */
  const places: number[] = [];
  const { caps, walls } = part.faces;
  for (const cap of caps) {
    const normal = scaled(part.frame.into, cap.looks === "A" ? -1 : 1);
    const floor = cap.isFloor ? 1 : 0;
    for (const p of triangles(cap)) {
      at.push(...inCase(part, p.x, p.y, cap.depth));
      normals.push(normal.x, normal.y, normal.z);
      places.push(p.x, p.y, floor);
    }
  }
  for (const { from, to, a, b } of walls) {
    const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
    const normal = onPanel(part, (b.y - a.y) / length, (a.x - b.x) / length);
    const corners = [
      inCase(part, a.x, a.y, from),
      inCase(part, b.x, b.y, from),
      inCase(part, b.x, b.y, to),
      inCase(part, a.x, a.y, to),
    ] as const;
    for (const i of [0, 1, 2, 0, 2, 3] as const) {
      at.push(...corners[i]);
      normals.push(normal.x, normal.y, normal.z);
      places.push(0, 0, 0);
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(new Float32Array(at), 3));
  geometry.setAttribute("normal", new BufferAttribute(new Float32Array(normals), 3));
  geometry.setAttribute("place", new BufferAttribute(new Float32Array(places), 3));
  return geometry;
}

function triangles({ region }: Cap): readonly Vector2[] {
  const rings = [region.outer, ...region.holes].map(({ vertices }) =>
    vertices.map(({ x, y }) => new Vector2(x, y)),
  );
  const [outer, ...holes] = rings;
  const all = rings.flat();
  return ShapeUtils.triangulateShape(outer!, holes).flatMap((three) => three.map((i) => all[i]!));
}

/** The bounds of all faces, and the real corners between walls. */
function edgesOf(part: ScenePart): readonly number[] {
  const { caps, arrises } = part.faces;
  return [
    ...caps.flatMap(({ depth, region }) =>
      [region.outer, ...region.holes].flatMap(({ vertices }) =>
        vertices.flatMap((a, i) => {
          const b = vertices[(i + 1) % vertices.length]!;
          return [...inCase(part, a.x, a.y, depth), ...inCase(part, b.x, b.y, depth)];
        }),
      ),
    ),
    ...arrises.flatMap(({ isSharp, at, from, to }) =>
      isSharp ? [...inCase(part, at.x, at.y, from), ...inCase(part, at.x, at.y, to)] : [],
    ),
  ];
}

function roundArrises(part: ScenePart) {
  return part.faces.arrises.flatMap(({ isSharp, at, from, to, before, after }) =>
    isSharp
      ? []
      : [
          {
            before: vector(onPanel(part, before.x, before.y)),
            after: vector(onPanel(part, after.x, after.y)),
            ends: [...inCase(part, at.x, at.y, from), ...inCase(part, at.x, at.y, to)],
          },
        ],
  );
}

function linesFrom(ends: readonly number[], ink: LineMaterial): LineSegments2 {
  const lines = new LineSegments2(new LineSegmentsGeometry(), ink);
  lines.frustumCulled = false;
  redraw(lines, ends);
  return lines;
}

function redraw(lines: LineSegments2, ends: readonly number[]): void {
  lines.geometry.dispose();
  lines.visible = ends.length > 0;
  if (ends.length === 0) return;
  lines.geometry = new LineSegmentsGeometry();
  lines.geometry.setPositions(new Float32Array(ends));
}

/** Paper, a little darker on faces that look sideways, hatched on floors; `bold` tints what is spoken of. */
function faceInk(bold: number): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1.5,
    polygonOffsetUnits: 4,
    uniforms: {
      paper: { value: new Vector3() },
      ink: { value: new Vector3() },
      recess: { value: new Vector3() },
      path: { value: new Vector3() },
      bold: { value: bold },
    },
    vertexShader: `
      attribute vec3 place;
      varying vec3 vNormal;
      varying vec3 vPlace;
      void main() {
        vNormal = normal;
        vPlace = place;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: `
      uniform vec3 paper, ink, recess, path;
      uniform float bold;
      varying vec3 vNormal;
      varying vec3 vPlace;
      void main() {
        float shade = 0.02 + 0.05 * abs(vNormal.y) + 0.10 * abs(vNormal.x) + 0.03 * max(0.0, -vNormal.z);
        vec3 colour = mix(mix(paper, path, 0.35 * bold), ink, shade);
        float along = (vPlace.x + vPlace.y) / 5.0;
        float width = fwidth(along);
        float line = 1.0 - smoothstep(0.5 * width, 1.5 * width, abs(fract(along) - 0.5));
        gl_FragColor = vec4(mix(colour, recess, vPlace.z * line * clamp(1.6 - 4.0 * width, 0.0, 1.0)), 1.0);
      }`,
  });
}

/** Crossed lines over everything: wood in wood. */
function clashInk(): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide,
    depthTest: false,
    uniforms: { ink: { value: new Vector3() }, paper: { value: new Vector3() } },
    vertexShader: "void main() { gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }",
    fragmentShader: `
      uniform vec3 ink, paper;
      void main() {
        vec2 d = vec2(gl_FragCoord.x + gl_FragCoord.y, gl_FragCoord.x - gl_FragCoord.y) / 7.0;
        vec2 on = step(abs(fract(d) - 0.5), vec2(0.14));
        gl_FragColor = vec4(mix(paper, ink, max(on.x, on.y)), 1.0);
      }`,
  });
}

/** Less than this is drawn as large, mm of the case: a clash of a tenth must be seen. */
const LEAST_CLASH_MM = 6;

function clashMarks({ min, max }: Box3, ink: ShaderMaterial, line: LineMaterial): readonly Mesh[] {
  const size = new Vector3(max.x - min.x, max.y - min.y, max.z - min.z).max(
    new Vector3(LEAST_CLASH_MM, LEAST_CLASH_MM, LEAST_CLASH_MM),
  );
  const block = new BoxGeometry(size.x, size.y, size.z);
  block.translate((min.x + max.x) / 2, (min.y + max.y) / 2, (min.z + max.z) / 2);
  const mesh = new Mesh(block, ink);
  const p = block.getAttribute("position");
  const ends: number[] = [];
  for (let face = 0; face < 6; face++)
    for (const [a, b] of [
      [0, 1],
      [1, 3],
      [3, 2],
      [2, 0],
    ] as const)
      for (const i of [4 * face + a, 4 * face + b]) ends.push(p.getX(i), p.getY(i), p.getZ(i));
  const edges = linesFrom(ends, line);
  mesh.renderOrder = 1;
  edges.renderOrder = 2;
  return [mesh, edges];
}

function inCase(
  { frame: { origin, x, y, into } }: ScenePart,
  px: number,
  py: number,
  depth: number,
): [number, number, number] {
  return [
    origin.x + px * x.x + py * y.x + depth * into.x,
    origin.y + px * x.y + py * y.y + depth * into.y,
    origin.z + px * x.z + py * y.z + depth * into.z,
  ];
}

function onPanel({ frame: { x, y } }: ScenePart, nx: number, ny: number): Point3 {
  return { x: nx * x.x + ny * y.x, y: nx * x.y + ny * y.y, z: nx * x.z + ny * y.z };
}

function scaled({ x, y, z }: Point3, by: number): Point3 {
  return { x: x * by, y: y * by, z: z * by };
}

function vector({ x, y, z }: Point3): Vector3 {
  return new Vector3(x, y, z);
}

/** "#1C2B39" as shares of red, green and blue, as the screen has them. */
function rgbOf(colour: string): [number, number, number] {
  const at = (i: number): number => Number.parseInt(colour.slice(i, i + 2), 16) / 255;
  return [at(1), at(3), at(5)];
}

/** The same as the line's own shader wants them, which turns them back to the screen's. */
function linear(colour: string): [number, number, number] {
  return rgbOf(colour).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ];
}
