import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { createPlayer, type Painter, type Player } from "./player.ts";
import type { Timeline } from "./timeline.ts";

/** A player for a timeline, and whether it plays. */
export function usePlayer(timeline: Timeline): readonly [Player, boolean] {
  const player = useMemo(() => createPlayer(timeline), [timeline]);
  const [isPlaying, setPlaying] = useState(false);
  useLayoutEffect(() => {
    player.onTurn(setPlaying);
    return () => player.stop();
  }, [player]);
  return [player, isPlaying];
}

/** Paints with the player, and once more whenever something else has changed. */
export function usePainter(player: Player, painter: Painter): void {
  const now = useRef(painter);
  now.current = painter;
  // Given up with the elements that it paints, before the next frame.
  useLayoutEffect(() => player.listen((shot) => now.current(shot)), [player]);
  useEffect(() => player.repaint());
}
