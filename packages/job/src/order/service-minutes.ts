import type { TimeEntry } from "@dryfit/drawing";
import { areaOf, lengthOf } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Service } from "./service.ts";

/** What a service reckons its price by. m of cuts (recesses among them), contours, min of its machine. */
export interface ServiceCutting {
  readonly metres: number;
  readonly contours: number;
  readonly minutes: number;
}

/** At the speed that the service's file tells, or one of common practice. */
export function serviceCutting(parts: readonly Part[], service: Service): ServiceCutting {
  const features = parts.flatMap((part) => part.features);
  const through = [
    ...parts.map(({ outline }) => lengthOf(outline)),
    ...features.map((f) =>
      f.kind === "opening" ? lengthOf(f.loop) : f.kind === "bore" ? Math.PI * f.diameter : 0,
    ),
  ];
  // A recess is cleared in strips of half the cutter.
  const cleared = features.map((f) =>
    f.kind === "recess" ? areaOf([f.region]) / Math.max(service.kerf.width / 2, 1) : 0,
  );
  const metres = [...through, ...cleared].reduce((sum, mm) => sum + mm, 0) / 1000;
  const contours = parts.length + features.length;
  const { metresPerMinute, secondsPerContour } = speedOf(service);
  return {
    metres: Number(metres.toFixed(1)),
    contours,
    minutes: Math.ceil(metres / metresPerMinute + (contours * secondsPerContour) / 60),
  };
}

/** Of a beam in thin plywood, and of a router with all its passes: common practice, no source. */
const BEAM = { metresPerMinute: 0.8, secondsPerContour: 2 };
const ROUTER = { metresPerMinute: 1.2, secondsPerContour: 5 };

function speedOf({ speed, cuts }: Service): NonNullable<Service["speed"]> {
  return speed ?? (cuts === "through" ? BEAM : ROUTER);
}

/** What an order's build sheet says of the time. */
export function orderTime(cutting: ServiceCutting, service: Service, parts: number): readonly TimeEntry[] {
  const { metresPerMinute, secondsPerContour } = speedOf(service);
  return [
    {
      what: `Cutting, about ${cutting.minutes} min of the service's machine`,
      minutes: 0,
      waitingHours: 0,
      by: `${cutting.metres} m in ${cutting.contours} contours at ${metresPerMinute} m a minute and ${secondsPerContour} s a start; ${
        service.speed ? "as its file says" : "speed: in its file says otherwise"
      }. Its days of delivery come on top`,
    },
    {
      what: "Counting and measuring what comes",
      minutes: UNPACKING * parts,
      waitingHours: 0,
      by: `${UNPACKING} min for each part`,
    },
  ];
}

/** Common practice, no source. */
const UNPACKING = 2;
