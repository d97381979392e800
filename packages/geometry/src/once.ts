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

/** The same for a thing with more that is asked besides: numbers by their value, other things by being the same one. */
export function onceWith<Thing extends object, More extends readonly unknown[], Answer>(
  work: (thing: Thing, ...more: More) => Answer,
): (thing: Thing, ...more: More) => Answer {
  const asked = once((_: Thing): { readonly more: More; readonly answer: Answer }[] => []);
  return (thing, ...more) => {
    const before = asked(thing);
    const known = before.find((one) => one.more.every((each, i) => each === more[i]));
    if (known) return known.answer;
    const answer = work(thing, ...more);
    before.push({ more, answer });
    return answer;
  };
}
