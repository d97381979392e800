import { type Shown, screwsOf } from "@dryfit/job";
import { useEffect, useState } from "preact/hooks";

/** Found after the sheet has been drawn: they take a moment. */
export function useScrews(shown: Shown): ReturnType<typeof screwsOf> | null {
  const [found, setFound] = useState<{
    readonly of: Shown;
    readonly screws: ReturnType<typeof screwsOf>;
  } | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setFound({ of: shown, screws: screwsOf(shown) }), 50);
    return () => clearTimeout(timer);
  }, [shown]);
  return found?.of === shown ? found.screws : null;
}
