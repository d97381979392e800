import { explodedDrawing } from "@dryfit/drawing";
import type { Shown } from "@dryfit/job";
import type { JSX } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { FROM, nameOf, offsetsAt, stepsOf, stepWords } from "./assembly-steps.ts";
import { volumeText } from "./joint-figure.ts";
import { JointView } from "./joint-view.tsx";
import { JointsTable, jointTitle, titlesOf } from "./joints-table.tsx";
import { LidSlider } from "./lid-slider.tsx";
import { scenePartsOf } from "./scene-model.ts";
import "./stand-up.css";
import { StandingFigure } from "./standing-figure.tsx";
import { lidAir } from "./swing-air.ts";

/** The parts as cut, standing as the case. */
export function StandUpSheet({ board, set }: SheetProps): JSX.Element {
  const shown = board.made?.made.shown;
  if (shown?.proof && shown.proof.cutParts.length > 0)
    return (
      <div class={`stand-up-sheet${isStale(board) ? " older" : ""}`}>
        {isStale(board) && (
          <p class="whole" role="status">
            This is the case before the last change; the new one is being cut.
          </p>
        )}
        <Standing shown={shown} proof={shown.proof} board={board} set={set} />
      </div>
    );
  return (
    <>
      <p class="waiting">{board.run.at === "making" ? "The parts are being cut…" : NOTHING}</p>
      {board.drawable && (
        <div class="flat" dangerouslySetInnerHTML={{ __html: explodedDrawing(board.drawable.assembly) }} />
      )}
    </>
  );
}

const NOTHING =
  "No part is cut yet, so none can be stood up: the notes on Case say what is to be mended. Drawn are the parts as designed.";

type ShownProof = NonNullable<Shown["proof"]>;

function Standing({ shown, proof, board }: SheetProps & { shown: Shown; proof: ShownProof }): JSX.Element {
  const { assembly } = shown;
  const { units } = board;
  const parts = useMemo(() => scenePartsOf(assembly, proof.cutParts), [assembly, proof]);
  const steps = useMemo(
    () =>
      stepsOf(
        proof.order,
        proof.ways,
        Object.fromEntries(parts.map(({ part, box }) => [part, box])),
        assembly.glued,
      ),
    [assembly, proof, parts],
  );
  const air = useMemo(
    () => assembly.hinge && lidAir(assembly, assembly.hinge, proof.cutParts),
    [assembly, proof],
  );
  const titleOf = useMemo(() => titlesOf(assembly), [assembly]);
  const [at, setAt] = useState(0);
  const [lidDeg, setLidDeg] = useState(0);
  const [chosen, setChosen] = useState<string | null>(null);
  const last = Math.max(0, steps.length - 1);
  const slide = useSlide(at, setAt);
  const isClosed = at >= last;
  const goTo = (step: number): void => {
    slide.stop();
    setLidDeg(0);
    setAt(Math.min(last, Math.max(0, step)));
  };

  const offsets = useMemo(() => offsetsAt(steps, at), [steps, at]);
  const moving = at > 0 && !isClosed ? steps[Math.ceil(at)] : undefined;
  const jointProof = proof.joints.find(({ id }) => id === chosen) ?? proof.joints[0];
  const joint = assembly.joints.find(({ id }) => id === jointProof?.id);
  const bold =
    chosen && joint
      ? [joint.tongue.part, joint.housing.part, ...(joint.housing.behind ?? [])]
      : moving
        ? moving.parts
        : [];
  const named = steps.flatMap(({ parts: own }, i) =>
    (i === 0 ? at === 0 : at < i) || own.some((part) => bold.includes(part)) ? own : [],
  );
  const swing =
    assembly.hinge && air && lidDeg > 0
      ? { parts: assembly.hinge.parts, axis: assembly.hinge.axis, deg: air.lift * lidDeg }
      : null;
  const binds = proof.swing?.bindsAtDeg ?? null;
  const clashes = [
    ...(isClosed && lidDeg === 0 ? proof.overlaps.map(({ box }) => box) : []),
    ...(proof.swing?.overlap && binds !== null && lidDeg >= binds ? [proof.swing.overlap.box] : []),
  ];
  const words = stepWords(steps, at, titleOf);

  return (
    <>
      <section class="standing-place" aria-label="The parts as cut">
        <StandingFigure
          assembly={assembly}
          parts={parts}
          look={{ offsets, swing, bold, clashes }}
          named={named}
          titleOf={titleOf}
          words={lidDeg > 0 ? `Lid open ${lidDeg}°.` : words}
        />
        <div class="slide">
          <label class="slider">
            apart
            <input
              type="range"
              min={0}
              max={last}
              step={0.05}
              value={at}
              aria-label="From apart to closed, in the order of assembly"
              aria-valuetext={words}
              onInput={(event) => goTo(Number(event.currentTarget.value))}
              onKeyDown={(event) => {
                const to = {
                  ArrowRight: Math.floor(at) + 1,
                  ArrowUp: Math.floor(at) + 1,
                  ArrowLeft: Math.ceil(at) - 1,
                  ArrowDown: Math.ceil(at) - 1,
                }[event.key];
                if (to === undefined) return;
                event.preventDefault();
                goTo(to);
              }}
            />
            closed
          </label>
          <button
            type="button"
            class="lettered"
            onClick={() => {
              setLidDeg(0);
              slide.to(isClosed ? 0 : last);
            }}
          >
            {isClosed ? "take it apart" : "put it together"}
          </button>
        </div>
        <p class="step-words">{words}</p>
        {proof.overlaps.map(({ parts: [a, b], volume }) => (
          <p key={`${a}/${b}`} class="clash-words">
            {titleOf(a)} and {titleOf(b).toLowerCase()}: {volumeText(volume, units)} of wood in wood, crossed
            on the closed case.
          </p>
        ))}
        {assembly.hinge && air && proof.swing && (
          <LidSlider
            air={air}
            swing={proof.swing}
            most={assembly.hinge.swingDeg}
            deg={lidDeg}
            titleOf={titleOf}
            units={units}
            onTurn={(deg) => {
              slide.stop();
              setAt(last);
              setLidDeg(deg);
            }}
          />
        )}
      </section>
      <section class="order" aria-labelledby="order-title">
        <h2 id="order-title">Order of assembly</h2>
        <ol>
          {steps.map((step, i) => (
            <li key={step.part} aria-current={i === Math.ceil(at) && at > 0 ? "step" : undefined}>
              <button type="button" class="lettered" onClick={() => goTo(i)}>
                {nameOf(step, titleOf)}
              </button>{" "}
              {step.out ? FROM[step.out] : "stands on the bench"}
            </li>
          ))}
        </ol>
        {proof.order.length < proof.cutParts.length && (
          <p class="clash-words">The other parts hold each other: none goes straight home.</p>
        )}
      </section>
      <section class="joints-place" aria-label="Joints">
        <JointsTable
          joints={proof.joints}
          chosen={jointProof?.id ?? null}
          titleOf={titleOf}
          units={units}
          onChoose={(id) => setChosen(id)}
        />
        {joint && jointProof && (
          <JointView
            key={joint.id}
            assembly={assembly}
            cutParts={proof.cutParts}
            joint={joint}
            proof={jointProof}
            title={jointTitle(jointProof, proof.joints, titleOf)}
            units={units}
          />
        )}
      </section>
    </>
  );
}

/** Moves the slider by itself to a place and then rests; those who want less motion see it there at once. */
function useSlide(
  at: number,
  setAt: (at: number) => void,
): { readonly to: (end: number) => void; readonly stop: () => void } {
  const frame = useRef(0);
  const stop = (): void => cancelAnimationFrame(frame.current);
  useEffect(() => stop, []);
  return {
    stop,
    to(end) {
      stop();
      if (matchMedia("(prefers-reduced-motion: reduce)").matches) return setAt(end);
      const from = at;
      const started = performance.now();
      const step = (now: number): void => {
        const gone = ((now - started) / MS_PER_STEP) * Math.sign(end - from);
        const next = Math.abs(gone) >= Math.abs(end - from) ? end : from + gone;
        setAt(next);
        if (next !== end) frame.current = requestAnimationFrame(step);
      };
      frame.current = requestAnimationFrame(step);
    },
  };
}

const MS_PER_STEP = 700;
