/** Whose drawing it is: title, description and metadata, kept as plain text. */
import type { Credit } from '../../../shared/provenance.js';
import { type SvgNode, textOf } from './node.js';

/** Children of the root that say whose drawing it is. */
const places: ReadonlySet<string> = new Set(['title', 'desc', 'metadata']);

/** Spaces gathered, and control characters (terminal codes among them) left out. */
function plain(text: string): string | undefined {
  const kept = text
    .replace(/\s+/g, ' ')
    .replace(/\p{Cc}/gu, '')
    .trim();
  return kept === '' ? undefined : kept;
}

export function creditOf(root: SvgNode): Credit {
  if (!root.children.some(({ name }) => places.has(name))) return {};
  const own = (name: string) => root.children.find((child) => child.name === name);
  const metadata = root.children.filter((child) => child.name === 'metadata');
  const stated = new Map<string, SvgNode>();
  const ahead = metadata.flatMap((node) => node.children);
  ahead.reverse();
  for (let node = ahead.pop(); node; node = ahead.pop()) {
    if (/^(?:dc|cc):/.test(node.name) && !stated.has(node.name)) stated.set(node.name, node);
    // A creator's own name is a title inside: it is not the drawing's.
    if (node.name.startsWith('dc:')) continue;
    for (let i = node.children.length - 1; i >= 0; i--) ahead.push(node.children[i]);
  }
  const text = (node: SvgNode | undefined) => (node ? plain(textOf(node)) : undefined);
  const licence = stated.get('cc:license')?.attributes['rdf:resource'];
  const credit = {
    title: text(own('title')) ?? text(stated.get('dc:title')),
    creator: text(stated.get('dc:creator')),
    rights: text(stated.get('dc:rights')) ?? text(stated.get('dc:license')) ?? plain(licence ?? ''),
    description: text(own('desc')) ?? text(stated.get('dc:description')),
  };
  return Object.fromEntries(Object.entries(credit).filter(([, value]) => value !== undefined));
}
