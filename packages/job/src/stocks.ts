import { type Region, rectangle } from "@dryfit/geometry";
import type { Design } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";

/** The sheets that a design may be cut from. */
export function stocksOf(design: Design): readonly Stock[] {
  return design.sheet.sizes.map((sheet) => ({
    id: sheet.id,
    material: design.sheet.name,
    size: sheet.size,
    outline: null,
    grain: sheet.grain,
    count: sheet.count,
    price: sheet.price,
    keepOuts: sheet.avoid.map(rectangleRegion),
  }));
}

function rectangleRegion([x, y, width, height]: readonly [number, number, number, number]): Region<"sheet"> {
  return { outer: rectangle({ x, y }, { x: x + width, y: y + height }), holes: [] };
}
