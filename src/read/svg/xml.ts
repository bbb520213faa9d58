/** XML to the document tree. The parser is `saxes`, strict and aware of namespaces; nothing is ever fetched. */
import { SaxesParser, type SaxesTagNS } from 'saxes';
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Limits } from '../../../shared/setup.js';
import type { SvgNode } from './node.js';

const svgNamespace = 'http://www.w3.org/2000/svg';
const xlinkNamespace = 'http://www.w3.org/1999/xlink';
const rdfNamespace = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#';
const metadataPrefixes: ReadonlyMap<string, string> = new Map([
  ['http://purl.org/dc/elements/1.1/', 'dc:'],
  ['http://purl.org/dc/terms/', 'dc:'],
  ['http://creativecommons.org/ns#', 'cc:'],
  ['http://web.resource.org/cc/', 'cc:'],
  [rdfNamespace, 'rdf:'],
]);

/** From here down each element repeats the namespace it is in, so that looking it up never climbs far. */
const deep = 16;

/** Shared by all elements without children; replaced, never filled. */
const none: SvgNode[] = [];

export interface XmlDocument {
  readonly root: SvgNode;
  /** Elements by their id; of two the first. */
  readonly byId: ReadonlyMap<string, SvgNode>;
  /** Style elements, in the order of the file. */
  readonly styles: readonly SvgNode[];
  /** True where the root is `svg` but not in the SVG namespace. */
  readonly withoutNamespace: boolean;
}

/** Throws a Refusal with file, line and column for what is not well-formed, and for a root that is not `svg`. */
export function parseXml(text: string, file: string, limits: Limits): XmlDocument {
  const parser = new SaxesParser({ xmlns: true, additionalNamespaces: { xlink: xlinkNamespace } });
  let root: SvgNode | null = null;
  let rootNamespace = svgNamespace;
  let current: SvgNode | null = null;
  let depth = 0;
  let elements = 0;
  let line = 1;
  let kept: Record<string, string> = {};
  let prefixed = false;
  const byId = new Map<string, SvgNode>();
  const styles: SvgNode[] = [];

  const where = () => `${file}, line ${parser.line}, column ${parser.column + 1}`;

  function nameOf(tag: SaxesTagNS): string {
    if (tag.uri === svgNamespace || tag.uri === rootNamespace) return tag.local;
    return `${metadataPrefixes.get(tag.uri) ?? 'other:'}${tag.local}`;
  }

  /** Takes the prefixed attributes that matter; the others were taken as they came. */
  function addPrefixed(attributes: SaxesTagNS['attributes']): void {
    for (const name in attributes) {
      const { uri, local, value } = attributes[name];
      if (uri === xlinkNamespace && local === 'href') kept['xlink:href'] = value;
      else if (uri === rdfNamespace && local === 'resource') kept['rdf:resource'] = value;
      else if (local === 'label') kept['other:label'] = value;
    }
  }

  function append(node: SvgNode): void {
    if (!current) return;
    if (current.children === none) current.children = [node];
    else current.children.push(node);
  }

  parser.on('error', (error) => {
    const problem = error.message.replace(/^\d*:\d+: /, '').replace(/\.$/, '');
    throw new Refusal(`${where()}: this is not well-formed XML (${problem}).`);
  });
  parser.on('opentagstart', () => {
    line = parser.line;
    kept = {};
    prefixed = false;
  });
  parser.on('attribute', ({ name, prefix, value }) => {
    if (prefix === '') kept[name] = value;
    else prefixed ||= prefix !== 'xmlns';
  });
  parser.on('opentag', (tag) => {
    if (!root) {
      if (tag.local !== 'svg') {
        throw new Refusal(`${file} is no SVG drawing: its root element is "${tag.name}", not "svg".`);
      }
      rootNamespace = tag.uri;
    }
    if (++elements > limits.elements) {
      throw new Refusal(
        `${where()}: the file has more than ${grouped(limits.elements)} elements, the limit.`,
      );
    }
    if (++depth > limits.nesting) {
      throw new Refusal(
        `${where()}: elements are nested more than ${grouped(limits.nesting)} deep, the limit.`,
      );
    }
    if (depth > deep) tag.ns[tag.prefix] = tag.uri;
    if (prefixed) addPrefixed(tag.attributes);
    const node: SvgNode = {
      name: nameOf(tag),
      type: 'element',
      value: '',
      attributes: kept,
      children: none,
      parent: current,
      line,
    };
    append(node);
    root ??= node;
    current = node;
    const { id } = kept;
    if (id !== undefined && !byId.has(id)) byId.set(id, node);
    if (node.name === 'style') styles.push(node);
  });
  parser.on('closetag', () => {
    depth--;
    current = current?.parent ?? null;
  });
  const onText = (value: string) => {
    if (!current || !/\S/.test(value)) return;
    append({
      name: '',
      type: 'text',
      value,
      attributes: {},
      children: none,
      parent: current,
      line: parser.line,
    });
  };
  parser.on('text', onText);
  parser.on('cdata', onText);
  parser.write(text).close();
  if (!root) throw new Refusal(`${where()}: the file has no root element.`);
  return { root, byId, styles, withoutNamespace: rootNamespace !== svgNamespace };
}
