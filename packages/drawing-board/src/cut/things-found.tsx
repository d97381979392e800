import type { JSX } from "preact";
import { Balloon } from "../notes/balloon.tsx";
import type { Noted } from "./noted.ts";

interface FoundProps {
  readonly noted: readonly Noted[];
  /** What to say where nothing was found. */
  readonly fine: string;
  readonly onLine: (line: number) => void;
}

/** The verdict in a sentence, and what was found, each at its line. */
export function ThingsFound({ noted, fine, onLine }: FoundProps): JSX.Element {
  const errors = noted.filter(({ finding }) => finding.severity === "error").length;
  return (
    <section class="cut-found" aria-label="What was found">
      <p class="cut-verdict" role="status">
        {errors > 0
          ? `Not fit to cut: ${errors} thing${errors === 1 ? "" : "s"} to mend.`
          : noted.length > 0
            ? `Nothing stands against it; ${noted.length} thing${noted.length === 1 ? "" : "s"} to know.`
            : fine}
      </p>
      <ol>
        {noted.slice(0, SHOWN_MAX).map(({ number, finding, line }) => (
          <li key={number}>
            <Balloon note={{ ...finding, number, wayOut: finding.wayOut ?? null, where: null }} />
            <div>
              <p>{finding.message}</p>
              {finding.wayOut && <p class="way-out">{finding.wayOut}</p>}
              {line > 0 && (
                <button type="button" class="lettered" onClick={() => onLine(line)}>
                  line {line}
                </button>
              )}
            </div>
          </li>
        ))}
      </ol>
      {noted.length > SHOWN_MAX && <p>…and {noted.length - SHOWN_MAX} more. Mend these first.</p>}
    </section>
  );
}

/** More than this nobody reads at once. */
const SHOWN_MAX = 30;
