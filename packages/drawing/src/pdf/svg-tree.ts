/** An element of a drawing of ours: what our own `el` writes, and no other markup. */
export interface SvgNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly SvgNode[];
  /** Its words, where it has no elements inside. */
  readonly text: string;
}

/** Reads markup that `el` wrote. Errors: RangeError where it is not closed as it was opened. */
export function svgTree(markup: string): SvgNode {
  const open: { node: Growing }[] = [];
  let root: Growing | null = null;
  let end = 0;
  for (const tag of markup.matchAll(TAG)) {
    const [whole, closing, name, inside, empty] = tag as unknown as [string, string, string, string, string];
    const words = markup.slice(end, tag.index);
    end = tag.index + whole.length;
    const parent = open.at(-1)?.node;
    if (parent) parent.text += unescaped(words);
    if (closing) {
      if (open.pop()?.node.name !== name) throw new RangeError(`</${name}> closes what was not opened`);
      continue;
    }
    const node: Growing = { name, attributes: attributesIn(inside), children: [], text: "" };
    parent?.children.push(node);
    root ??= node;
    if (!empty) open.push({ node });
  }
  if (root === null || open.length > 0) throw new RangeError("a drawing's markup is not closed");
  return root;
}

interface Growing {
  name: string;
  attributes: Record<string, string>;
  children: Growing[];
  text: string;
}

const TAG = /<(\/?)([A-Za-z]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>/g;

function attributesIn(text: string): Record<string, string> {
  return Object.fromEntries(
    [...text.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, name, value]) => [name!, unescaped(value!)]),
  );
}

function unescaped(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&");
}
