import tidepool from "../../../../samples/tidepool.yaml?raw";
import { workIn } from "./address.ts";
import { type BoardState, boardOf, type Served } from "./board-state.ts";
import { kept, wasIntroduced } from "./keep.ts";
import type { Work } from "./work.ts";

export const SAMPLE: Work = { file: "tidepool.yaml", text: tidepool, gear: [], drawings: [] };

/** What lies on the board when the page opens: a served file, else a link's design, else the last work, else the sample. */
export function openingBoard(address: string, servedJson: string | null): BoardState {
  const introduced = wasIntroduced();
  const served = servedFrom(servedJson);
  if (served) return boardOf(served.work, { served: served.served, saved: served.work.text, introduced });
  const linked = workIn(address);
  const last = kept();
  const own = last === null || last === "stale" ? SAMPLE : last;
  if (linked === "broken") {
    const text = "The link is cut short or was changed, so its design could not be read. Ask for it again.";
    return boardOf(own, { notice: { kind: "refused", text }, introduced });
  }
  if (linked) return boardOf(linked, { introduced });
  if (last === "stale") {
    const text =
      "What this browser kept is of another version and could not be read. It was put aside, not thrown away.";
    return boardOf(own, { notice: { kind: "refused", text }, introduced });
  }
  return boardOf(own, { introduced });
}

function servedFrom(json: string | null): { readonly served: Served; readonly work: Work } | null {
  if (json === null) return null;
  const { file, url, text, drawings } = JSON.parse(json) as Pick<Work, "file" | "text" | "drawings"> & {
    url: string;
  };
  return { served: { file, url }, work: { file, text, gear: [], drawings } };
}
