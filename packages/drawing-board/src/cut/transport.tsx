import type { Units } from "@dryfit/joinery";
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import type { Blocks, LineKind } from "./blocks.ts";
import { machineText, minuteWords } from "./lengths.ts";
import type { Player, Shot } from "./player.ts";
import { linesOn, momentPosition, type Timeline } from "./timeline.ts";
import { usePainter } from "./use-player.ts";

interface TransportProps {
  readonly player: Player;
  readonly isPlaying: boolean;
  readonly timeline: Timeline;
  readonly blocks: Blocks;
  readonly units: Units;
  readonly showsPath: boolean;
  readonly setShowsPath: (shows: boolean) => void;
}

const SPEEDS = [
  [1, "as it cuts"],
  [10, "10 times as fast"],
  [60, "60 times as fast"],
  [240, "240 times as fast"],
] as const;

/** Plays the program, and lets one go to any moment of it. */
export function Transport(props: TransportProps): JSX.Element {
  const { player, isPlaying, timeline, showsPath, setShowsPath } = props;
  const [speed, setSpeed] = useState(60);
  const slider = useRef<HTMLInputElement>(null);
  const readout = useRef<HTMLParagraphElement>(null);
  usePainter(player, (shot) => {
    const words = wordsOf(props, shot);
    readout.current!.textContent = words;
    slider.current!.value = String(shot.seconds);
    // A screen reader would read along: it is told where things stand once they do.
    if (!shot.isPlaying) slider.current!.setAttribute("aria-valuetext", words);
    return true;
  });
  return (
    <div class="cut-transport">
      <div class="row">
        <button type="button" class="cut-play" aria-pressed={isPlaying} onClick={player.toggle}>
          {isPlaying ? "pause" : "play"}
        </button>
        <label>
          <span class="heard">speed </span>
          <select
            class="figure choice"
            value={String(speed)}
            onChange={(event) => {
              const times = Number(event.currentTarget.value);
              setSpeed(times);
              player.setSpeed(times);
            }}
          >
            {SPEEDS.map(([times, words]) => (
              <option key={times} value={String(times)}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <label>
          <input
            type="checkbox"
            checked={showsPath}
            onChange={(event) => setShowsPath(event.currentTarget.checked)}
          />{" "}
          the cutter's way
        </label>
      </div>
      <input
        ref={slider}
        class="cut-slider"
        type="range"
        aria-label="Time within the program. Arrow keys go from line to line, with Shift ten at a time; the space bar plays."
        min={0}
        max={Math.max(timeline.seconds, 0.001)}
        step="any"
        onInput={(event) => player.seek(Number(event.currentTarget.value))}
        onKeyDown={(event) => stepByKey(event, player, timeline)}
      />
      <p ref={readout} class="cut-readout" />
    </div>
  );
}

function stepByKey(event: KeyboardEvent, player: Player, timeline: Timeline): void {
  const lines = event.shiftKey ? 10 : 1;
  if (event.key === " ") player.toggle();
  else if (event.key === "ArrowRight" || event.key === "ArrowUp")
    player.seek(linesOn(timeline, player.shot().seconds, lines));
  else if (event.key === "ArrowLeft" || event.key === "ArrowDown")
    player.seek(linesOn(timeline, player.shot().seconds, -lines));
  else if (event.key === "PageUp" || event.key === "PageDown")
    player.seek(player.shot().seconds + ((event.key === "PageUp" ? 1 : -1) * timeline.seconds) / 20);
  else return;
  event.preventDefault();
}

function wordsOf({ timeline, blocks, units }: TransportProps, shot: Shot): string {
  const { line, index, seconds } = shot;
  if (line === 0) return "Nothing moves in this program.";
  const { x, y, z } = momentPosition(timeline, shot);
  const motion = timeline.motions[index]!;
  const what =
    motion.kind === "rapid"
      ? "rapid"
      : `${DOING[blocks.kindOf(line)]} at ${units === "mm" ? Math.round(motion.feed) : (motion.feed / 25.4).toFixed(1)} ${units}/min`;
  const title = blocks.titleOf(line);
  const isOver = seconds >= timeline.seconds;
  return [
    `Line ${line}`,
    ...(title ? [title] : []),
    `X ${machineText(x, units)}  Y ${machineText(y, units)}  Z ${machineText(z, units)}`,
    isOver ? "done" : what,
    `${minuteWords(seconds / 60)} of ${minuteWords(timeline.seconds / 60)} at its own feeds`,
  ].join(" · ");
}

const DOING: Readonly<Record<LineKind, string>> = {
  none: "cutting",
  rapid: "cutting",
  cut: "cutting",
  entry: "going in",
  tab: "over a tab",
};
