/** An element of an XML file with what stands in it; `line` from 1. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  readonly line: number;
}

/** Where a text stops being XML, and why. */
export interface NotXml {
  readonly line: number;
  readonly reason: string;
}

/** The root element. Words between elements, comments and instructions are left out; entities of our own are refused. */
export function readXml(text: string): XmlElement | NotXml {
  const lineAt = lineCounter(text);
  const stack: { name: string; attributes: Record<string, string>; children: XmlElement[]; line: number }[] =
    [];
  let root: XmlElement | null = null;
  for (let at = text.indexOf("<"); at >= 0; at = text.indexOf("<", at)) {
    const skip = SKIPPED.find(([open]) => text.startsWith(open, at));
    if (skip) {
      const end = text.indexOf(skip[1], at);
      if (end < 0) return { line: lineAt(at), reason: `"${skip[0]}" is not closed` };
      if (skip[0] === "<!DOCTYPE" && text.slice(at, end).includes("["))
        return { line: lineAt(at), reason: "it declares entities of its own" };
      at = end + skip[1].length;
      continue;
    }
    TAG.lastIndex = at;
    const tag = TAG.exec(text);
    if (!tag) return { line: lineAt(at), reason: "a tag is not closed, or is no tag" };
    const [whole, closing, name, inside, empty] = tag as unknown as [string, string, string, string, string];
    at += whole.length;
    if (closing) {
      const open = stack.pop();
      if (open?.name !== name) return { line: lineAt(at), reason: `</${name}> closes what was not opened` };
      if (stack.length > 0) stack.at(-1)!.children.push(open);
      else root = open;
      continue;
    }
    const element = { name, attributes: attributesIn(inside), children: [], line: lineAt(at - whole.length) };
    if (!empty) {
      if (stack.length >= DEEPEST) return { line: element.line, reason: `elements lie over ${DEEPEST} deep` };
      stack.push(element);
    } else if (stack.length > 0) stack.at(-1)!.children.push(element);
    else root = element;
  }
  if (stack.length > 0) return { line: stack.at(-1)!.line, reason: `<${stack.at(-1)!.name}> is not closed` };
  return root ?? { line: 1, reason: "it holds no element" };
}

const DEEPEST = 200;

const SKIPPED = [
  ["<!--", "-->"],
  ["<![CDATA[", "]]>"],
  ["<?", "?>"],
  ["<!DOCTYPE", ">"],
] as const;

const TAG = /<(\/?)([A-Za-z_][\w:.-]*)((?:\s+[\w:.-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/y;

function attributesIn(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, name, double, single] of text.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g))
    found[name!] = unescaped(double ?? single ?? "");
  return found;
}

function unescaped(text: string): string {
  return text.replace(/&(lt|gt|amp|quot|apos);/g, (_, name: string) => ENTITIES[name]!);
}

const ENTITIES: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

function lineCounter(text: string): (offset: number) => number {
  let [line, seen] = [1, 0];
  return (offset) => {
    if (offset < seen) [line, seen] = [1, 0];
    for (; seen < offset; seen++) if (text[seen] === "\n") line++;
    return line;
  };
}
