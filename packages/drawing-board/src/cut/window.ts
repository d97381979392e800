/** Which part of the sheet the paper shows: mm of the program's frame on pixels of the screen, y up. */
export interface Window {
  /** Pixels to the millimetre. */
  readonly scale: number;
  /** The program's x at the left edge, and its y at the lower edge, mm. */
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

export interface Place {
  readonly x: number;
  readonly y: number;
}

interface Sheet {
  readonly corner: readonly [number, number];
  readonly size: readonly [number, number];
}

/** The whole sheet with a margin around it. */
export function wholeSheet({ corner, size }: Sheet, width: number, height: number): Window {
  const room = Math.min(MARGIN_PX, width / 10);
  const scale = Math.max(0.01, Math.min((width - 2 * room) / size[0], (height - 2 * room) / size[1]));
  return around({ x: corner[0] + size[0] / 2, y: corner[1] + size[1] / 2 }, scale, width, height);
}

const MARGIN_PX = 30;

export function around(middle: Place, scale: number, width: number, height: number): Window {
  return { scale, left: middle.x - width / 2 / scale, bottom: middle.y - height / 2 / scale, width, height };
}

/** Nearer or farther, with what lies at a pixel staying there. Never farther than the whole sheet. */
export function zoomed(window: Window, factor: number, at: Place, sheet: Sheet): Window {
  const least = wholeSheet(sheet, window.width, window.height);
  const scale = Math.min(NEAREST_PX_PER_MM, window.scale * factor);
  if (scale <= least.scale) return least;
  const mm = toMm(window, at);
  return {
    ...window,
    scale,
    left: mm.x - at.x / scale,
    bottom: mm.y - (window.height - at.y) / scale,
  };
}

const NEAREST_PX_PER_MM = 30;

export function panned(window: Window, dx: number, dy: number): Window {
  return { ...window, left: window.left - dx / window.scale, bottom: window.bottom + dy / window.scale };
}

export function toPixel({ scale, left, bottom, height }: Window, { x, y }: Place): Place {
  return { x: (x - left) * scale, y: height - (y - bottom) * scale };
}

export function toMm({ scale, left, bottom, height }: Window, { x, y }: Place): Place {
  return { x: left + x / scale, y: bottom + (height - y) / scale };
}

/** The same look at a frame of another size; the whole sheet where it was whole, or is seen first. */
export function resized(window: Window | null, width: number, height: number, sheet: Sheet): Window {
  if (window?.width === width && window.height === height) return window;
  if (!window || window.scale <= wholeSheet(sheet, window.width, window.height).scale)
    return wholeSheet(sheet, width, height);
  return around(toMm(window, { x: window.width / 2, y: window.height / 2 }), window.scale, width, height);
}

/** Moved so that a place is seen, where it was not. */
export function showing(window: Window, place: Place): Window {
  const { x, y } = toPixel(window, place);
  const isSeen = x >= 0 && y >= 0 && x <= window.width && y <= window.height;
  return isSeen ? window : around(place, window.scale, window.width, window.height);
}
