/** SVG text from nodes of svgson's shape, written by its `stringify`. */
import { type INode, stringify } from 'svgson';

export function element(
  name: string,
  attributes: Readonly<Record<string, string | number>> = {},
  children: readonly INode[] = [],
): INode {
  const texts = Object.entries(attributes).map(([key, value]) => [key, String(value)]);
  return { name, type: 'element', value: '', attributes: Object.fromEntries(texts), children: [...children] };
}

/** An element with text in it, whatever the text holds. */
export function textElement(name: string, value: string): INode {
  // `stringify` puts text with markup in it into CDATA, which `]]>` would end: it is never whole in one node.
  const parts = allowed(value).split(/(?<=\]\])(?=>)/);
  const nodes = parts.map(
    (part): INode => ({ name: '', type: 'text', value: part, attributes: {}, children: [] }),
  );
  return element(name, {}, nodes);
}

export function svgText(root: INode): string {
  return stringify(root);
}

/** Characters that XML 1.0 does not allow, halves of surrogate pairs among them, are left out: none can be read back. */
function allowed(value: string): string {
  return value.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff\ud800-\udfff]/gu,
    '',
  );
}
