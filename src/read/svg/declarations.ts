/**
 * What a shape is declared to be: its attributes, then the style sheets' declarations, then its own style attribute,
 * each over the one before, with `!important` ones last (CSS Cascade Level 4, section 6). Values stay text.
 */
import type { SvgNode } from './node.js';

export type Declarations = Readonly<Record<string, string | undefined>>;

export interface Declaration {
  readonly property: string;
  readonly value: string;
  readonly important: boolean;
}

/** Properties that bear on which line is drawn and where; only these may stand over an attribute of the same name. */
const properties: ReadonlySet<string> = new Set([
  'display',
  'visibility',
  'opacity',
  'stroke',
  'stroke-width',
  'stroke-opacity',
  'fill',
  'fill-opacity',
  'fill-rule',
  'color',
  'font-size',
  'transform',
  'transform-origin',
  'transform-box',
  'clip-path',
  'mask',
  'overflow',
  'marker',
  'marker-start',
  'marker-mid',
  'marker-end',
  'd',
  'x',
  'y',
  'width',
  'height',
  'cx',
  'cy',
  'r',
  'rx',
  'ry',
]);

/**
 * Properties that are no attributes (CSS Transforms Level 2, 5); attributes of these names mean something else. In
 * declarations they stand under names that no attribute has.
 */
const withoutAttribute: ReadonlySet<string> = new Set(['translate', 'rotate', 'scale']);

/** The last style attributes read: a drawing program writes the same one on line after line. */
const remembered = new Map<string, readonly Declaration[]>();
const maxRemembered = 256;
const longestRemembered = 1000;

function ownDeclarations(style: string): readonly Declaration[] {
  const known = remembered.get(style);
  if (known) return known;
  const found = parseDeclarations(style);
  if (style.length <= longestRemembered) {
    if (remembered.size >= maxRemembered) remembered.clear();
    remembered.set(style, found);
  }
  return found;
}

/** The declarations of a style attribute or of a rule's block. */
export function parseDeclarations(style: string): Declaration[] {
  const found: Declaration[] = [];
  for (const part of splitDeclarations(style)) {
    const colon = part.indexOf(':');
    if (colon < 0) continue;
    const name = part.slice(0, colon).trim().toLowerCase();
    const property = withoutAttribute.has(name) ? `style ${name}` : name;
    if (property === name && !properties.has(name)) continue;
    const value = part.slice(colon + 1).trim();
    const bang = value.lastIndexOf('!');
    const important = bang >= 0 && /^!\s*important$/i.test(value.slice(bang));
    found.push({ property, value: important ? value.slice(0, bang).trimEnd() : value, important });
  }
  return found;
}

/** Cuts at semicolons, but not inside quotes, brackets or after a backslash; comments are left out. */
function splitDeclarations(style: string): string[] {
  if (!/["'(\\/]/.test(style)) return style.split(';');
  const tokens = /\/\*|\\.|["'();]/gs;
  const parts: string[] = [];
  let part = '';
  let from = 0;
  let depth = 0;
  for (let match = tokens.exec(style); match; match = tokens.exec(style)) {
    const [token] = match;
    if (token === '/*') {
      part += style.slice(from, match.index);
      const end = style.indexOf('*/', tokens.lastIndex);
      from = tokens.lastIndex = end < 0 ? style.length : end + 2;
    } else if (token === '"' || token === "'") {
      const end = style.indexOf(token, tokens.lastIndex);
      tokens.lastIndex = end < 0 ? style.length : end + 1;
    } else if (token === '(') depth++;
    else if (token === ')') depth = Math.max(0, depth - 1);
    else if (token === ';' && depth === 0) {
      parts.push(part + style.slice(from, match.index));
      part = '';
      from = tokens.lastIndex;
    }
  }
  parts.push(part + style.slice(from));
  return parts;
}

/** All a node declares; `matched` are the style sheets' declarations for it, weakest first. */
export function declarationsOf(node: SvgNode, matched: readonly Declaration[]): Declarations {
  const { style } = node.attributes;
  if (style === undefined && matched.length === 0) return node.attributes;
  const own = style === undefined ? [] : ownDeclarations(style);
  const all: Record<string, string> = { ...node.attributes };
  for (const { property, value, important } of matched) if (!important) all[property] = value;
  for (const { property, value, important } of own) if (!important) all[property] = value;
  for (const { property, value, important } of matched) if (important) all[property] = value;
  for (const { property, value, important } of own) if (important) all[property] = value;
  return all;
}
