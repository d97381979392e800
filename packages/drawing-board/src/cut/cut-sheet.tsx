import type { BareSheet, OutFile } from "@dryfit/job";
import type { JSX } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { BareFields } from "./bare-fields.tsx";
import "./cut.css";
import { bareProgram, type CutProgram, programsOf } from "./cut-program.ts";
import { DrawingView } from "./drawing-view.tsx";
import { useJudging } from "./judging.ts";
import { type Look, ProgramView } from "./program-view.tsx";
import { worstPlace } from "./worst.ts";

/** The cut, drawn from the programs' texts: the case's own, and whatever was dropped on the page. */
export function CutSheet(props: SheetProps): JSX.Element {
  const { board } = props;
  const made = board.made?.made;
  const programs = useMemo(() => (made?.shown ? programsOf(made.shown, made.findings) : []), [made]);
  const drawings = useMemo(() => made?.files.filter(({ file }) => /^dxf\/.*\.dxf$/.test(file)) ?? [], [made]);
  const [chosen, setChosen] = useState<string | null>(null);
  const [look, setLook] = useState<Look | null>(null);
  const names = [
    ...board.dropped.map(({ file }) => file),
    ...programs.map(({ file }) => file),
    ...drawings.map(({ file }) => file),
  ];
  useEffect(() => {
    const asked = /^(.*?)(?::(\d+))?$/.exec(board.lookAt ?? "");
    if (!asked?.[1] || !names.includes(asked[1])) return;
    setChosen(asked[1]);
    setLook(asked[2] ? { line: Number(asked[2]) } : null);
  }, [board.lookAt, names.join()]);
  const name = chosen !== null && names.includes(chosen) ? chosen : (names[0] ?? null);
  const dropped = board.dropped.find(({ file }) => file === name);
  const drawing = drawings.find(({ file }) => file === name);
  const program = programs.find(({ file }) => file === name);
  return (
    <div class={`cut-sheet${isStale(board) && !dropped ? " older" : ""}`}>
      {name === null ? (
        <p class="waiting">{board.run.at === "making" ? "The programs are being written…" : NOTHING}</p>
      ) : (
        <label class="cut-choice">
          Shown:{" "}
          <select
            class="figure choice"
            value={name}
            onChange={(event) => {
              setChosen(event.currentTarget.value);
              setLook(null);
            }}
          >
            <Group label="dropped here" files={board.dropped.map(({ file }) => [file, file])} />
            <Group
              label="programs, in the order in which they are cut"
              files={programs.map(({ file, place }) => [file, `${file}: ${place}`])}
            />
            <Group label="drawings for a cutting service" files={drawings.map(({ file }) => [file, file])} />
          </select>
        </label>
      )}
      {dropped ? (
        <FromAnywhere key={dropped.file} {...props} file={dropped} look={look} />
      ) : drawing ? (
        <FromAnywhere key={drawing.file} {...props} file={drawing} look={null} />
      ) : (
        program && (
          <OfTheCase
            {...props}
            key={program.file}
            program={program}
            look={look}
            setLook={setLook}
            setChosen={setChosen}
          />
        )
      )}
    </div>
  );
}

const NOTHING =
  "There are no programs: the notes on Case say what is to be mended first. Any program (.nc) or drawing (.dxf) dropped on this page is shown here.";

function Group({
  label,
  files,
}: {
  readonly label: string;
  readonly files: readonly (readonly [file: string, words: string])[];
}): JSX.Element | null {
  if (files.length === 0) return null;
  return (
    <optgroup label={label}>
      {files.map(([file, words]) => (
        <option key={file} value={file}>
          {words}
        </option>
      ))}
    </optgroup>
  );
}

/** A program of the case, with the way to the worst place that the proof found. */
function OfTheCase({
  program,
  look,
  setLook,
  setChosen,
  ...props
}: SheetProps & {
  readonly program: CutProgram;
  readonly look: Look | null;
  readonly setLook: (look: Look) => void;
  readonly setChosen: (file: string) => void;
}): JSX.Element {
  const shown = props.board.made?.made.shown;
  const worst = shown ? worstPlace(shown, program.file) : null;
  return (
    <ProgramView {...props} program={program} look={look} fine="Proved: nothing stands against this program.">
      {worst && (
        <p>
          Worst place on all sheets: {worst.words}.{" "}
          <button
            type="button"
            class="lettered"
            onClick={() => {
              setChosen(worst.file);
              setLook({ place: worst.at });
            }}
          >
            see the worst place
          </button>
        </p>
      )}
    </ProgramView>
  );
}

/** A file from anywhere, read and judged in a worker. */
function FromAnywhere({
  file,
  look,
  ...props
}: SheetProps & { readonly file: OutFile; readonly look: Look | null }): JSX.Element {
  const [sheet, setSheet] = useState<BareSheet | null>(null);
  const judging = useJudging(file, sheet);
  const judged = judging.at === "judged" ? judging.judged : null;
  const program = useMemo(
    () => (judged?.kind === "program" ? bareProgram(file, judged.read, judged.findings, judged.sheet) : null),
    [file, judged],
  );
  if (judging.at === "failed")
    return (
      <p class="left-over" role="alert">
        {judging.why}
      </p>
    );
  if (!judged)
    return (
      <p class="waiting" role="status">
        Reading and judging {file.file}…
      </p>
    );
  if (judged.kind === "drawing") return <DrawingView {...props} file={file} {...judged} />;
  return (
    <ProgramView {...props} program={program!} look={look} fine="Nothing stands against it on this sheet.">
      <BareFields {...props} sheet={judged.sheet} isGuess={sheet === null} put={setSheet} />
    </ProgramView>
  );
}
