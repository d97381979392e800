/** A piece of SVG or HTML text that is already escaped. */
export type Markup = string;

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; numbers are rounded to a thousandth, absent attributes left out. */
export function el(name: string, attributes: Attributes = {}, ...children: readonly Markup[]): Markup {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? figure(value) : escaped(value!)}"`)
    .join("");
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join("")}</${name}>`;
}

/** A group with a class; nothing at all where it would be empty. */
export function group(cssClass: string, ...children: readonly Markup[]): Markup {
  return children.some((child) => child !== "") ? el("g", { class: cssClass }, ...children) : "";
}

/** Text for a reader, safe inside an element and an attribute. */
export function escaped(text: string): Markup {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

/** A paper coordinate: a thousandth of a millimetre is finer than any printer. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing coordinate is ${value}`);
  return String(Math.round(value * 1000) / 1000 + 0);
}
