/**
 * The walk through the document that draws it: structure here (groups, nested drawings, symbols, copies), one shape
 * in `shape-artist.ts`. It keeps its own stack, so nesting never exhausts the program's.
 */

import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import { type Matrix, multiply } from '../../geometry/matrix.js';
import { isChosen } from './conditions.js';
import type { Cuts } from './cut.js';
import { type Declarations, declarationsOf } from './declarations.js';
import type { Document } from './document.js';
import { type Direction, lengthIn } from './length.js';
import { referenceOf, type SvgNode } from './node.js';
import { isPaintServer } from './paint.js';
import { lengthContext, type Place, type ReferenceBox, transformed } from './place.js';
import type { Cut } from './region.js';
import type { ShapeArtist } from './shape-artist.js';
import { shapes } from './shapes.js';
import { branchHiding, contextOf, type Known, styleOf } from './style.js';
import { isSingular } from './transform.js';
import { fitted, viewBoxOf } from './viewport.js';

/** What an element without a line is called in a note. */
const undrawn: ReadonlyMap<string, readonly ['text' | 'image' | 'other', string]> = new Map([
  ['text', ['text', 'text']],
  ['image', ['image', 'picture']],
  ['foreignObject', ['other', 'embedded page']],
  ['video', ['other', 'video']],
  ['canvas', ['other', 'canvas']],
  ['iframe', ['other', 'embedded page']],
] as const);

interface Frame {
  readonly nodes: readonly SvgNode[];
  next: number;
  readonly place: Place;
}

export class Walk {
  private readonly frames: Frame[] = [];
  private visited = 0;
  private copies = 0;
  private readonly known: Known;

  constructor(
    private readonly document: Document,
    private readonly artist: ShapeArtist,
    private readonly cuts: Cuts,
  ) {
    this.known = knownIn(document.byId);
  }

  /** Draws the children of the root, which stands at `place`. */
  run(root: SvgNode, place: Place): void {
    this.enter(root.children, place);
    for (let frame = this.frames.at(-1); frame; frame = this.frames.at(-1)) {
      if (frame.next === frame.nodes.length) this.frames.pop();
      else this.visit(frame.nodes[frame.next++], frame.place);
    }
  }

  private enter(nodes: readonly SvgNode[], place: Place): void {
    const { file, limits } = this.document;
    if (nodes.length === 0) return;
    if (place.depth >= limits.nesting) {
      throw new Refusal(
        `${file}: elements, copies included, are nested more than ${grouped(limits.nesting)} deep, the limit.`,
      );
    }
    this.frames.push({ nodes, next: 0, place: { ...place, depth: place.depth + 1 } });
  }

  private visit(node: SvgNode, outer: Place): void {
    const { file, limits, byId } = this.document;
    const shape = shapes.get(node.name);
    const kind = shape ? 'shape' : kinds.get(node.name);
    if (kind === undefined) return;
    if (++this.visited > limits.elements) {
      throw new Refusal(
        `${file}: the drawing has more than ${grouped(limits.elements)} elements, copies included, the limit.`,
      );
    }
    if (!isChosen(node)) return;
    const declared = this.declared(node);
    const place = this.placeOf(declared, outer, this.referenceBox(node, declared, outer));
    if (shape) this.artist.draw(node, shape, declared, place);
    else if (kind === 'undrawn') {
      const [noteKind, what] = undrawn.get(node.name)!;
      this.artist.leaveOut(node, noteKind, what, declared, place);
    } else if (kind === 'svg') this.enterViewport(node, place, declared);
    else if (kind === 'use') this.copy(node, declared, place, byId);
    else if (kind === 'switch') this.enter(node.children.filter(isCandidate).slice(0, 1), place);
    else this.enter(node.children, inLayer(place, node));
  }

  private declared(node: SvgNode): Declarations {
    return declarationsOf(node, this.document.matchRules(node));
  }

  /** The place an element's own style and transform make; `outer` itself where they change nothing. */
  private placeOf(declared: Declarations, outer: Place, box: ReferenceBox = null): Place {
    let place = transformed(outer, declared, box);
    const style = styleOf(declared, outer.style, this.known);
    if (style !== outer.style) place = { ...place, style };
    if (place.hiding === null) {
      const flat = place.ctm !== outer.ctm && isSingular(place.ctm);
      const hiding = flat ? 'not displayed' : branchHiding(declared);
      if (hiding) place = { ...place, hiding };
    }
    return withCuts(place, this.cuts.of(declared, place));
  }

  /** The box that `transform-box` names; of a group, which has no shape of its own, it is said that it was not read. */
  private referenceBox(node: SvgNode, declared: Declarations, outer: Place): ReferenceBox {
    const box = declared['transform-box']?.trim();
    if (box === undefined || box === 'view-box' || box === 'inherit') return null;
    const shape = shapes.get(node.name);
    if (shape) {
      const style = styleOf(declared, outer.style, this.known);
      const withStroke = box === 'stroke-box' || box === 'border-box';
      return this.artist.boxOf(shape, declared, { ...outer, style }, withStroke);
    }
    this.artist.leaveOut(node, 'other', `transform-box of a ${node.name}`, declared, outer);
    return null;
  }

  /** A nested drawing or a copied symbol; `size` overrides its width and height. */
  private enterViewport(
    node: SvgNode,
    place: Place,
    declared: Declarations,
    size: Declarations = declared,
  ): void {
    const length = (text: string | undefined, direction: Direction) =>
      text === undefined ? null : lengthIn(text, lengthContext(place), direction);
    const isSymbol = node.name === 'symbol';
    const x = isSymbol ? 0 : (length(declared.x, 'x') ?? 0);
    const y = isSymbol ? 0 : (length(declared.y, 'y') ?? 0);
    const width = length(size.width, 'x') ?? place.width;
    const height = length(size.height, 'y') ?? place.height;
    const box = viewBoxOf(node.attributes.viewBox);
    const shift: Matrix = [1, 0, 0, 1, x, y];
    const empty = !(width > 0 && height > 0) || (box !== null && !(box.width > 0 && box.height > 0));
    if (empty) {
      this.enter(node.children, { ...place, hiding: place.hiding ?? 'not displayed' });
      return;
    }
    const inner = box
      ? multiply(shift, fitted(box, width, height, node.attributes.preserveAspectRatio))
      : shift;
    const edge = this.cuts.edge(node, declared, multiply(place.ctm, shift), width, height);
    this.enter(node.children, {
      ...withCuts(place, edge),
      ctm: multiply(place.ctm, inner),
      width: box?.width ?? width,
      height: box?.height ?? height,
    });
  }

  /** `use`: its target drawn once more, moved to x and y. */
  private copy(
    node: SvgNode,
    declared: Declarations,
    place: Place,
    byId: ReadonlyMap<string, SvgNode>,
  ): void {
    const { file, limits } = this.document;
    const id = referenceOf(node);
    const target = id === null ? undefined : byId.get(id);
    if (!target || leadsBack(target, node, place)) {
      this.artist.missing(node, place);
      return;
    }
    if (++this.copies > limits.useCopies) {
      throw new Refusal(
        `${file}: the drawing makes more than ${grouped(limits.useCopies)} copies (use), the limit.`,
      );
    }
    const context = lengthContext(place);
    const x = lengthIn(declared.x ?? '0', context, 'x') ?? 0;
    const y = lengthIn(declared.y ?? '0', context, 'y') ?? 0;
    const at: Place = {
      ...place,
      ctm: multiply(place.ctm, [1, 0, 0, 1, x, y]),
      copying: { target, outer: place.copying },
      context: contextOf(place.style, place.context),
    };
    if (target.name !== 'symbol' && target.name !== 'svg') {
      this.enter([target], at);
      return;
    }
    const own = this.declared(target);
    const inside = this.placeOf(own, at);
    this.enterViewport(target, inside, own, {
      width: declared.width ?? own.width,
      height: declared.height ?? own.height,
    });
  }
}

/** What the ids of a document stand for. */
export function knownIn(byId: ReadonlyMap<string, SvgNode>): Known {
  return {
    isThere: (id) => byId.has(id),
    isPaint: (id) => {
      const node = byId.get(id);
      return node !== undefined && isPaintServer(node);
    },
  };
}

type Kind = 'group' | 'svg' | 'use' | 'switch' | 'undrawn';

const kinds: ReadonlyMap<string, Kind> = new Map<string, Kind>([
  ['g', 'group'],
  ['a', 'group'],
  ['svg', 'svg'],
  ['use', 'use'],
  ['switch', 'switch'],
  ...[...undrawn.keys()].map((name): [string, Kind] => [name, 'undrawn']),
]);

/** The first child of a `switch` that is an element and whose conditions hold is the one drawn. */
function isCandidate(node: SvgNode): boolean {
  return node.type === 'element' && isChosen(node);
}

/** Groups that have a name are layers, as drawing programs save them. */
function inLayer(place: Place, { attributes }: SvgNode): Place {
  const name = attributes['other:label'] ?? attributes.id;
  return name === undefined ? place : { ...place, layers: [...place.layers, name] };
}

function withCuts(place: Place, cuts: readonly Cut[]): Place {
  return cuts.length === 0 ? place : { ...place, cuts: [...place.cuts, ...cuts] };
}

/** Whether copying `target` here would go on for ever. */
function leadsBack(target: SvgNode, from: SvgNode, place: Place): boolean {
  for (let node: SvgNode | null = from; node; node = node.parent) if (node === target) return true;
  for (let each = place.copying; each; each = each.outer) if (each.target === target) return true;
  return false;
}
