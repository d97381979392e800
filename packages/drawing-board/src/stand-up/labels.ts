import type { Spot } from "./scene.ts";

/** Puts each name beside its part, none over another and none outside the paper. */
export function placedLabels(
  names: HTMLElement,
  spots: ReadonlyMap<string, Spot>,
  size: { readonly width: number; readonly height: number },
): void {
  const taken: { x: number; y: number; width: number; height: number }[] = [];
  const labels = ([...names.children] as HTMLElement[])
    .map((label) => ({ label, spot: spots.get(label.dataset.part ?? "") }))
    .sort((a, b) => (a.spot?.y ?? 0) - (b.spot?.y ?? 0));
  for (const { label, spot } of labels) {
    label.hidden = !spot;
    if (!spot) continue;
    const [width, height] = [label.offsetWidth, label.offsetHeight];
    const x = within(spot.x - width / 2, size.width - width);
    let y = within(spot.y - height / 2, size.height - height);
    for (const other of taken)
      if (
        x < other.x + other.width &&
        other.x < x + width &&
        y < other.y + other.height &&
        other.y < y + height
      )
        y = other.y + other.height;
    taken.push({ x, y, width, height });
    label.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
  }
}

function within(value: number, most: number): number {
  return Math.max(0, Math.min(value, most));
}
