import { lettering } from "./lettering.ts";
import { boxOf, LINE_STEP, type PlacedNote } from "./notes.ts";
import { type OnPaper, spot } from "./outline.ts";
import { el, group, type Markup } from "./svg.ts";

/** A placed note: its lines, on a halo of paper, and a leader with a dot where it stands away from its place. */
export function noteMark(note: PlacedNote): Markup {
  const height = note.size * LINE_STEP;
  const lines = note.lines.map((line, i) => {
    const down = (i - (note.lines.length - 1) / 2) * height;
    const at = note.turned
      ? { x: note.middle.x + down, y: note.middle.y }
      : { x: note.middle.x, y: note.middle.y + down };
    const bold = note.named === true && i === 0;
    return lettering(at.x, at.y, line, {
      size: note.size,
      anchor: "middle",
      turned: note.turned === true,
      bold,
    });
  });
  return group("note", note.leader ? leader(note) : "", ...lines);
}

function leader(note: PlacedNote): Markup {
  const start = edgeTowards(note);
  return (
    el("path", { class: "leader", d: `M${spot(start)}L${spot(note.at)}` }) +
    el("circle", { class: "head", cx: note.at.x, cy: note.at.y, r: 0.5 })
  );
}

/** Where the line from the note's middle to its place leaves the note's box. */
function edgeTowards(note: PlacedNote): OnPaper {
  const { min, max } = boxOf(note, note.middle);
  const [dx, dy] = [note.at.x - note.middle.x, note.at.y - note.middle.y];
  const shareX = dx === 0 ? Number.POSITIVE_INFINITY : (max.x - min.x) / 2 / Math.abs(dx);
  const shareY = dy === 0 ? Number.POSITIVE_INFINITY : (max.y - min.y) / 2 / Math.abs(dy);
  const share = Math.min(shareX, shareY, 1);
  return { x: note.middle.x + dx * share, y: note.middle.y + dy * share };
}
