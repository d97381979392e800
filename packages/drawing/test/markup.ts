/** Whether every element is closed where it should be, and no stray `&` or `<` stands in the text. */
export function isWellFormed(markup: string): boolean {
  const open: string[] = [];
  const tag = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|<!DOCTYPE html>/g;
  let rest = "";
  let at = 0;
  for (const found of markup.matchAll(tag)) {
    rest += markup.slice(at, found.index);
    at = found.index + found[0].length;
    const [, closing, name, , single] = found;
    if (name === undefined || single === "/" || VOID.has(name)) continue;
    if (closing !== "/") open.push(name);
    else if (open.pop() !== name) return false;
  }
  rest += markup.slice(at);
  return open.length === 0 && !/[<>]/.test(rest) && !/&(?!(amp|lt|gt|quot|#\d+);)/.test(rest);
}

const VOID = new Set(["meta", "br", "hr", "link"]);

/** The attributes of every element of this name. */
export function elements(markup: string, name: string): readonly Readonly<Record<string, string>>[] {
  return [...markup.matchAll(new RegExp(`<${name}(\\s[^>]*?)/?>`, "g"))].map((found) =>
    Object.fromEntries(
      [...found[1]!.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
    ),
  );
}

/** The words of every text element, in order. */
export function textsOf(markup: string): readonly string[] {
  return [...markup.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((found) => found[1]!);
}
