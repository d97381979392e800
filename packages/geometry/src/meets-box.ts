interface Place {
  readonly x: number;
  readonly y: number;
}

/** Whether the straight line from a to b meets the box, touching counted; the line is clipped side by side (Liang-Barsky). */
export function meetsBox(a: Place, b: Place, box: { readonly min: Place; readonly max: Place }): boolean {
  if (Math.max(a.x, b.x) < box.min.x || Math.min(a.x, b.x) > box.max.x) return false;
  if (Math.max(a.y, b.y) < box.min.y || Math.min(a.y, b.y) > box.max.y) return false;
  let [from, to] = [0, 1];
  for (const axis of ["x", "y"] as const) {
    const run = b[axis] - a[axis];
    if (run === 0) continue;
    const low = (box.min[axis] - a[axis]) / run;
    const high = (box.max[axis] - a[axis]) / run;
    from = Math.max(from, Math.min(low, high));
    to = Math.min(to, Math.max(low, high));
  }
  return from <= to;
}
