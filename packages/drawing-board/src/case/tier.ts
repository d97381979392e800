import { cutPatterns, el, fromRight, type Markup, sectionView } from "@dryfit/drawing";
import { type CaseOnPaper, derived, driving, scaleFor, shifted } from "./frame.ts";
import { across, leader, upright } from "./lines.ts";
import type { ViewSpec } from "./view-spec.ts";

const ROOM = { left: 24, right: 30, top: 25, bottom: 14 };

/** The tier enlarged, cut from front to back: slats, gaps, bearers and cleats. None where the case has no tier. */
export function tierView(on: CaseOnPaper, width: number): readonly ViewSpec[] {
  const { design, assembly, numbers } = on;
  const { tier, inside } = design;
  if (!tier || numbers.tierDepth === null) return [];
  const air = tier.swing > 0 ? tier.pin : tier.clearance;
  const [front, back] = [inside.depth - air - numbers.tierDepth, inside.depth - air];
  const wood = {
    from: front - 6,
    to: inside.depth + numbers.t + 4,
    low: -numbers.t,
    high: tier.height + 8,
  };
  const scale = Math.min(1, scaleFor(wood.to - wood.from, width - ROOM.left - ROOM.right));
  const view = { scale, origin: { x: ROOM.left - wood.from * scale, y: ROOM.top + wood.high * scale } };
  const at = (y: number, z: number) => ({ x: view.origin.x + y * scale, y: view.origin.y - z * scale });
  const size = {
    width: ROOM.left + (wood.to - wood.from) * scale + ROOM.right,
    height: ROOM.top + (wood.high - wood.low) * scale + ROOM.bottom,
  };
  const slat = across(at(front, tier.height), at(front + tier.slat, tier.height), -8);
  const gap =
    tier.slats > 1
      ? across(at(front + tier.slat, tier.height), at(front + tier.slat + tier.gap, tier.height), -8)
      : null;
  const depth = across(at(front, wood.low), at(back, wood.low), 9);
  const under = upright(at(front, 0), at(front, tier.height - numbers.t), -9);
  const cleat = upright(
    at(wood.to, tier.height - numbers.t),
    at(wood.to, tier.height - numbers.t - tier.cleat.height),
    15,
  );
  const last = at(back - tier.slat / 2, tier.height - numbers.t / 2);
  const count = shifted(at(back - tier.slat / 2, tier.height), 0, -11);
  return [
    {
      id: "tier",
      title: "Tier",
      size,
      scale,
      description: `The tier cut from front to back: ${tier.slats} slats on ${tier.bearers.count} bearers.`,
      body: [
        cutPatterns("tier"),
        clipped(
          "tier-clip",
          { x: at(wood.from, 0).x, y: at(0, wood.high).y },
          { width: (wood.to - wood.from) * scale, height: (wood.high - wood.low) * scale },
          sectionView(assembly, fromRight, view, inside.width / 2, "tier"),
        ),
        slat.lines,
        gap?.lines ?? "",
        depth.lines,
        under.lines,
        cleat.lines,
        leader(last, shifted(count, 0, 3)),
      ].join(""),
      figures: [
        driving("tier.slat", "Slats: width", tier.slat, slat.at),
        ...(gap ? [driving("tier.gap", "Gap between slats", tier.gap, gap.at)] : []),
        driving("tier.slats", "Number of slats", tier.slats, count, "count", "slats"),
        driving("tier.cleat.height", "Cleats: height", tier.cleat.height, cleat.at),
        ...derived(on, "tier.under", under.at),
        ...derived(on, "tier.depth", depth.at),
      ],
      handles: [],
      places: {
        tier: at(front, tier.height),
        "tier.swing": at(inside.depth, tier.height),
        "tier.bearers": at(front + tier.slat, tier.height / 3),
      },
    },
  ];
}

function clipped(
  id: string,
  { x, y }: { readonly x: number; readonly y: number },
  { width, height }: { readonly width: number; readonly height: number },
  body: Markup,
): Markup {
  return (
    el("clipPath", { id }, el("rect", { x, y, width, height })) +
    el("g", { "clip-path": `url(#${id})` }, body) +
    el("rect", { class: "detail-edge", x, y, width, height })
  );
}
