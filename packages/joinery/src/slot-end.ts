/**
 * How far a square tongue's end must stay short of the end of a housing whose corners have radius r,
 * with c of air on each side of the tongue: r − √(r² − (r − c)²).
 *
 * Units: mm. With no air it is r; with air of r or more the corners no longer matter and it is 0.
 * Source: derived; a corner of the tongue, r − c from the middle line of the corner's circle, meets the circle there.
 */
export function slotEnd(radius: number, clearance: number): number {
  const reach = radius - clearance;
  return reach <= 0 ? 0 : radius - Math.sqrt(radius * radius - reach * reach);
}
