import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/** CSS fixes 96 pixels to the inch. */
export function mmPerPixel(): number {
  return 25.4 / 96;
}

/** How wide an element is, mm of paper; null until it has been laid out. */
export function useWidthMm(ref: RefObject<HTMLElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null);
  useLayoutEffect(() => {
    const element = ref.current!;
    const look = (): void => {
      if (element.clientWidth > 0) setWidth(Math.floor(element.clientWidth * mmPerPixel()));
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return width;
}
