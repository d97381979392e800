/** What we use of it; the package brings no types of its own. */
declare module "gcode-toolpath" {
  interface Vector {
    readonly x: number;
    readonly y: number;
    readonly z: number;
  }
  interface Modal {
    readonly motion: string;
    readonly tool: number;
  }
  export default class Toolpath {
    constructor(options: {
      readonly addLine: (modal: Modal, start: Vector, end: Vector) => void;
      readonly addArcCurve: (modal: Modal, start: Vector, end: Vector, centre: Vector) => void;
    });
    loadFromStringSync(text: string): void;
  }
}
