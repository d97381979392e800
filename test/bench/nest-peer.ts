import type { Peer, Snapshot } from "@dryfit/nest";

/** Room for the shortest layout that the threads know: a lock, who left it, its length, then every item's place. */
export function sharedLayout(items: number): SharedArrayBuffer {
  const shared = new SharedArrayBuffer(HEAD + items * PER_ITEM);
  new Float64Array(shared, LENGTH_AT, 1)[0] = Number.POSITIVE_INFINITY;
  return shared;
}

const LENGTH_AT = 8;
const HEAD = 16;
const PER_ITEM = 24;

/** One thread's view of it. */
export function peerOver(shared: SharedArrayBuffer, own: number): Peer {
  const items = (shared.byteLength - HEAD) / PER_ITEM;
  const flags = new Int32Array(shared, 0, 2);
  const length = new Float64Array(shared, LENGTH_AT, 1);
  const x = new Float64Array(shared, HEAD, items);
  const y = new Float64Array(shared, HEAD + 8 * items, items);
  const shape = new Int32Array(shared, HEAD + 16 * items, items);
  const locked = <T>(use: () => T): T => {
    // Held for microseconds, so the other thread spins rather than sleeps.
    while (Atomics.compareExchange(flags, 0, 0, 1) !== 0);
    try {
      return use();
    } finally {
      Atomics.store(flags, 0, 0);
    }
  };
  return {
    share: (least, layout) =>
      locked(() => {
        if (least >= length[0]!) return;
        length[0] = least;
        flags[1] = own;
        x.set(layout.x);
        y.set(layout.y);
        shape.set(layout.shape);
      }),
    shorter: (than) =>
      locked((): Snapshot | null => {
        if (length[0]! >= than || flags[1] === own) return null;
        return {
          shape: shape.slice(),
          x: x.slice(),
          y: y.slice(),
          bin: new Int32Array(items),
          right: Float64Array.of(length[0]!),
          top: new Float64Array(0),
        };
      }),
  };
}
