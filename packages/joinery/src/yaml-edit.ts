import {
  type Document,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";

export type Plain = number | string | boolean | null;

/** A list is written on one line, in brackets. */
type Value = Plain | readonly Plain[];

type Keys = readonly (string | number)[];

/**
 * The file with one value changed and every other byte left as it stands: comments, order and spacing are the
 * maker's own. A key that is not written yet is added at the end of its group.
 *
 * Null where the text is no YAML that could be edited.
 */
export function withValue(text: string, path: string, value: Value): string | null {
  const doc = parsed(text);
  if (!doc) return null;
  const keys = keysOf(path);
  const wanted = JSON.stringify(changed(doc.toJS(), keys, value));
  const spliced = splice(text, doc, keys, value);
  if (spliced !== null && isWanted(spliced, wanted)) return spliced;
  // Anchors, block text and the like: the library writes them, at the price of its own spacing.
  doc.setIn(keys, value);
  const rewritten = doc.toString({ lineWidth: 0 });
  return isWanted(rewritten, wanted) ? rewritten : null;
}

/** The file with another item at the end of a list, which is made where there is none. */
export function withItem(text: string, path: string, item: object): string | null {
  const doc = parsed(text);
  if (!doc) return null;
  const keys = keysOf(path);
  const list = doc.getIn(keys, true);
  const index = isCollection(list) ? list.items.length : 0;
  const node = doc.createNode(item, { flow: true });
  if (isCollection(list)) doc.addIn(keys, node);
  else doc.setIn(keys, doc.createNode([item]));
  const written = doc.toString({ lineWidth: 0 });
  return parsed(written)?.hasIn([...keys, index]) ? written : null;
}

/** The file without a key or a list's item. */
export function without(text: string, path: string): string | null {
  const doc = parsed(text);
  if (!doc) return null;
  doc.deleteIn(keysOf(path));
  return doc.toString({ lineWidth: 0 });
}

/** "joint.stop" or "sheet.sizes[0][1]" as keys. */
function keysOf(path: string): Keys {
  return [...path.matchAll(/[^.[\]]+/g)].map(([key]) => (/^\d+$/.test(key) ? Number(key) : key));
}

/** The text as it stands at a path: "1/2 in" rather than 12.7. Null where it is not written. */
export function writtenAt(text: string, path: string): Plain | null {
  const value: unknown = parseDocument(text, { logLevel: "silent" }).getIn(keysOf(path));
  return typeof value === "object" ? null : (value as Plain);
}

function parsed(text: string): Document.Parsed | null {
  const doc = parseDocument(text, { logLevel: "silent" });
  return doc.errors.length === 0 && isMap(doc.contents) ? doc : null;
}

function splice(text: string, doc: Document.Parsed, keys: Keys, value: Value): string | null {
  const node = doc.getIn(keys, true) as Node | undefined;
  if ((isScalar(node) || (isSeq(node) && isFlat(node))) && node.range && !node.anchor) {
    const start = node.range[0];
    const end = deepestEnd(node) ?? node.range[1];
    const gap = start === end && text[start - 1] !== " " ? " " : "";
    return `${text.slice(0, start)}${gap}${valueText(value)}${text.slice(end)}`;
  }
  if (node !== undefined) return null;
  const known = knownDepth(doc, keys);
  const parent = doc.getIn(keys.slice(0, known), true) as Node | undefined;
  const rest = keys.slice(known);
  if (rest.some((key) => typeof key === "number")) return null;
  const nested = rest.slice(1).reduceRight<string>((inner, key) => `{ ${key}: ${inner} }`, valueText(value));
  const pair = `${rest[0]}: ${nested}`;
  if (isScalar(parent) && parent.value === null && parent.range) {
    const at = parent.range[0];
    return `${text.slice(0, at)}${text[at - 1] === " " ? "" : " "}{ ${pair} }${text.slice(at)}`;
  }
  if (!isMap(parent)) return null;
  return parent.flow ? intoFlow(text, parent, pair) : intoBlock(text, parent, pair);
}

function intoFlow(text: string, map: YAMLMap, pair: string): string | null {
  if (!map.range) return null;
  const brace = map.range[1] - 1;
  const before = text.slice(0, brace).trimEnd();
  return `${before}${map.items.length > 0 ? "," : ""} ${pair} ${text.slice(brace)}`;
}

/** On a line of its own below the group's last value, as deep as its first key. */
function intoBlock(text: string, map: YAMLMap, pair: string): string | null {
  const first = map.items[0]?.key as Node | undefined;
  const last = deepestEnd(map);
  if (!first?.range || last === null) return null;
  const indent = first.range[0] - (text.lastIndexOf("\n", first.range[0] - 1) + 1);
  const lineEnd = text.indexOf("\n", last);
  const at = lineEnd === -1 ? text.length : lineEnd;
  return `${text.slice(0, at)}\n${" ".repeat(indent)}${pair}${text.slice(at)}`;
}

/** Where the last value inside a group ends, comments behind it left out. */
function deepestEnd(node: Node): number | null {
  if (isMap(node) && !node.flow) {
    const last = node.items.at(-1);
    const value = last?.value as Node | null | undefined;
    return value ? deepestEnd(value) : ((last?.key as Node | undefined)?.range?.[1] ?? null);
  }
  if (isCollection(node) && !node.flow) {
    const last = node.items.at(-1) as Node | undefined;
    return last ? deepestEnd(last) : null;
  }
  return node.range?.[1] ?? null;
}

function knownDepth(doc: Document.Parsed, keys: Keys): number {
  let depth = keys.length - 1;
  while (depth > 0 && !doc.hasIn(keys.slice(0, depth))) depth--;
  return depth;
}

/** No comment of the maker's stands between its items. */
function isFlat({ items, flow }: YAMLSeq): boolean {
  return flow === true || items.every((item) => isScalar(item) && !item.comment && !item.commentBefore);
}

function valueText(value: Value): string {
  return isList(value) ? `[${value.map(scalar).join(", ")}]` : scalar(value);
}

function isList(value: Value): value is readonly Plain[] {
  return Array.isArray(value);
}

/** A value as YAML writes it, bare where that reads back as the same. */
function scalar(value: Plain): string {
  if (typeof value !== "string") return String(value);
  const isBare = /^[A-Za-z0-9+-][\w ./"″+-]*$/.test(value) && parseDocument(value).toJS() === value;
  return isBare ? value : JSON.stringify(value);
}

function isWanted(text: string, wanted: string): boolean {
  const doc = parsed(text);
  return doc !== null && JSON.stringify(doc.toJS()) === wanted;
}

function changed(root: unknown, [key, ...rest]: Keys, value: Value): unknown {
  if (key === undefined) return value;
  if (Array.isArray(root)) return root.map((item, i) => (i === key ? changed(item, rest, value) : item));
  const group = root !== null && typeof root === "object" ? (root as Record<string, unknown>) : {};
  return { ...group, [key]: changed(group[key], rest, value) };
}
