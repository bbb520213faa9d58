/** The document tree: svgson's node shape, with a way up and the line of the file added. */
import type { INode } from 'svgson';

/**
 * Names of SVG elements are bare (`path`, also where the file writes `svg:path`); those of metadata carry their
 * usual prefix (`dc:title`); all other elements are `other:` something, so that they are never taken for SVG.
 * Of the attributes only the unprefixed ones, `xlink:href` and a `label` of whatever namespace are kept.
 */
export interface SvgNode extends INode {
  children: SvgNode[];
  parent: SvgNode | null;
  /** Line of the file on which the element starts, counted from 1. */
  line: number;
}

/** All text inside, in order. */
export function textOf(node: SvgNode): string {
  let text = '';
  const ahead = [node];
  for (let next = ahead.pop(); next; next = ahead.pop()) {
    if (next.type === 'text') text += next.value;
    for (let i = next.children.length - 1; i >= 0; i--) ahead.push(next.children[i]);
  }
  return text;
}

/** What an element points at with `href` (or the older `xlink:href`), without its `#`; null for anything outside the file. */
export function referenceOf(node: SvgNode): string | null {
  const href = (node.attributes.href ?? node.attributes['xlink:href'] ?? '').trim();
  return href.startsWith('#') ? href.slice(1) : null;
}
