import {
  type Document,
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
  stringify,
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

/** The file with another item at the end of a list, which is made where there is none; other bytes stay. */
export function withItem(text: string, path: string, item: object): string | null {
  const doc = parsed(text);
  if (!doc) return null;
  const keys = keysOf(path);
  const list = doc.getIn(keys, true);
  const index = isCollection(list) ? list.items.length : 0;
  const node = doc.createNode(item, { flow: true });
  const added = addedItem(text, doc, keys, stringify(item, { collectionStyle: "flow", lineWidth: 0 }).trim());
  if (isCollection(list)) doc.addIn(keys, node);
  else doc.setIn(keys, doc.createNode([item]));
  if (added !== null && isWanted(added, JSON.stringify(doc.toJS()))) return added;
  const written = doc.toString({ lineWidth: 0 });
  return parsed(written)?.hasIn([...keys, index]) ? written : null;
}

/** The file without a key or a list's item; other bytes stay. */
export function without(text: string, path: string): string | null {
  const doc = parsed(text);
  if (!doc) return null;
  const keys = keysOf(path);
  const cut = cutOut(text, doc, keys);
  doc.deleteIn(keys);
  if (cut !== null && isWanted(cut, JSON.stringify(doc.toJS()))) return cut;
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

/** Behind the last item of its list, or as the first of a list below the last key of its group. */
function addedItem(text: string, doc: Document.Parsed, keys: Keys, item: string): string | null {
  const list = doc.getIn(keys, true) as Node | undefined;
  if (isSeq(list) && list.flow && list.range) {
    const bracket = list.range[1] - 1;
    return `${text.slice(0, bracket).trimEnd()}${list.items.length > 0 ? ", " : ""}${item}${text.slice(bracket)}`;
  }
  if (isSeq(list)) {
    const [first, last] = [startOf(text, list, 0), deepestEnd(list)];
    if (first === null || last === null) return null;
    return onNewLine(text, last, `${" ".repeat(first - lineStart(text, first))}- ${item}`);
  }
  const group = doc.getIn(keys.slice(0, -1), true) as Node | undefined;
  if (list !== undefined || !isMap(group) || keys.length === 0) return null;
  const [first, last] = [group.flow ? null : startOf(text, group, 0), deepestEnd(group)];
  if (first === null || last === null) return null;
  const indent = " ".repeat(first - lineStart(text, first));
  return onNewLine(text, last, `${indent}${keys.at(-1)}:\n${indent}  - ${item}`);
}

/** Without the lines that a key or item fills with what belongs to it; null where it shares them with others. */
function cutOut(text: string, doc: Document.Parsed, keys: Keys): string | null {
  const parent = doc.getIn(keys.slice(0, -1), true) as Node | undefined;
  if (!isCollection(parent) || parent.flow) return null;
  const key = keys.at(-1);
  const index = isMap(parent)
    ? parent.items.findIndex((pair) => isScalar(pair.key) && pair.key.value === key)
    : key;
  const start = typeof index === "number" ? startOf(text, parent, index) : null;
  const node = doc.getIn(keys, true) as Node | undefined;
  const end = node && deepestEnd(node);
  if (start === null || end === undefined || end === null) return null;
  const from = lineStart(text, start);
  const lineEnd = text.indexOf("\n", end);
  if (text.slice(from, start).trim() !== "") return null;
  return text.slice(0, from) + (lineEnd === -1 ? "" : text.slice(lineEnd + 1));
}

/** Where a group's key or a list's dash stands. */
function startOf(text: string, { items }: YAMLMap | YAMLSeq, index: number): number | null {
  const item = items[index];
  if (isPair(item)) return (item.key as Node | null)?.range?.[0] ?? null;
  const range = (item as Node | undefined)?.range;
  if (!range) return null;
  const dash = text.lastIndexOf("-", range[0] - 1);
  return dash === -1 || text.slice(dash + 1, range[0]).trim() !== "" ? null : dash;
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

/** Below the line that `at` stands on. */
function onNewLine(text: string, at: number, line: string): string {
  const lineEnd = text.indexOf("\n", at);
  const end = lineEnd === -1 ? text.length : lineEnd;
  return `${text.slice(0, end)}\n${line}${text.slice(end)}`;
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
  const indent = first.range[0] - lineStart(text, first.range[0]);
  return onNewLine(text, last, `${" ".repeat(indent)}${pair}`);
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
