/** The same answer, worked out once for each thing and forgotten with it: things never change. */
export function once<Thing extends object, Answer>(work: (thing: Thing) => Answer): (thing: Thing) => Answer {
  const known = new WeakMap<Thing, { readonly answer: Answer }>();
  return (thing) => {
    const before = known.get(thing);
    if (before) return before.answer;
    const answer = work(thing);
    known.set(thing, { answer });
    return answer;
  };
}
