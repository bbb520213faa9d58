/**
 * Clips and masks. The line is stitched whole, so all that is asked here is whether a clip takes away any of it:
 * a drawing program often clips a page to its own edges, which cuts nothing and is not worth a word.
 */

import type { Subpath } from '../../../shared/subpath.js';
import { type Matrix, multiply } from '../../geometry/matrix.js';
import { Pen } from '../intake/pen.js';
import { type Declarations, declarationsOf } from './declarations.js';
import type { Document } from './document.js';
import { referenceOf, type SvgNode } from './node.js';
import { lengthContext, type Place, transformed } from './place.js';
import { type Cut, Region, sampled } from './region.js';
import { shapes } from './shapes.js';

/** Steps spent on looking, in all; after that every clip counts as cutting. */
const budget = 50_000_000;

export class Cuts {
  private spent = 0;
  /** The last region of each clip, with the map it was made under: neighbours mostly share it. */
  private readonly regions = new Map<SvgNode, { ctm: Matrix; region: Region | null }>();

  constructor(private readonly document: Document) {}

  /** The clip and the mask that an element at `place` has of its own. */
  of(declared: Declarations, place: Place): readonly Cut[] {
    const clip = declared['clip-path'];
    const { mask } = declared;
    if (clip === undefined && mask === undefined) return none;
    return [this.named(clip, 'clipPath', 'clip', place), this.named(mask, 'mask', 'mask', place)].filter(
      (cut) => cut !== null,
    );
  }

  /** The edge of a nested drawing or symbol, which shows nothing outside it. */
  edge(node: SvgNode, declared: Declarations, ctm: Matrix, width: number, height: number): readonly Cut[] {
    const overflow = declared.overflow?.trim();
    if (overflow === 'visible' || overflow === 'auto') return none;
    const pen = new Pen(this.document.limits, this.document.file);
    pen.begin(ctm);
    shapes.get('rect')?.({ width: String(width), height: String(height) }, pen, {
      fontSize: 0,
      width: 0,
      height: 0,
    });
    return [{ what: label('edge of', node), region: new Region(pen.end().lines) }];
  }

  /** Whether `cut` takes away any of `line`. */
  isCutting({ region }: Cut, line: Subpath): boolean {
    if (!region || this.spent > budget) return true;
    const points = sampled(line);
    this.spent += (points.length / 2) * region.corners;
    return !region.holds(points);
  }

  private named(text: string | undefined, element: string, word: string, place: Place): Cut | null {
    const id = text && /^\s*url\(\s*["']?#([^"')]*)["']?\s*\)/i.exec(text)?.[1];
    const node = id ? this.document.byId.get(id) : undefined;
    return node?.name === element ? { what: label(word, node), region: this.regionOf(node, place) } : null;
  }

  private regionOf(node: SvgNode, place: Place): Region | null {
    const known = this.regions.get(node);
    if (known?.ctm.every((value, i) => value === place.ctm[i])) return known.region;
    const region = this.drawn(node, place);
    this.regions.set(node, { ctm: place.ctm, region });
    return region;
  }

  /** Null for what is measured in shares of each line's own box, and for masks of several tones. */
  private drawn(node: SvgNode, outer: Place): Region | null {
    const { byId, matchRules, limits, file } = this.document;
    const inBoxUnits = 'clipPathUnits' in node.attributes || 'maskContentUnits' in node.attributes;
    const isShares =
      (node.attributes.clipPathUnits ?? node.attributes.maskContentUnits) === 'objectBoundingBox';
    const parts = node.children.filter(({ type }) => type === 'element');
    if ((inBoxUnits && isShares) || (node.name === 'mask' && parts.length !== 1)) return null;
    this.spent += parts.length;
    if (this.spent > budget) return null;
    const pen = new Pen(limits, file);
    const place = transformed(outer, declarationsOf(node, matchRules(node)));
    const lines: Subpath[] = [];
    for (const part of parts) {
      let at = transformed(place, declarationsOf(part, matchRules(part)));
      let shape: SvgNode | undefined = part;
      if (part.name === 'use') {
        const { x = '0', y = '0' } = part.attributes;
        at = { ...at, ctm: multiply(at.ctm, [1, 0, 0, 1, Number(x), Number(y)]) };
        shape = byId.get(referenceOf(part) ?? '');
      }
      const draw = shape && shapes.get(shape.name);
      if (!shape || !draw) continue;
      const declared = declarationsOf(shape, matchRules(shape));
      pen.begin(shape === part ? at.ctm : transformed(at, declared).ctm);
      draw(declared, pen, lengthContext(at));
      lines.push(...pen.end().lines);
    }
    const region = new Region(lines);
    this.spent += region.corners;
    return region;
  }
}

const none: readonly Cut[] = [];

function label(word: string, { attributes: { id } }: SvgNode): string {
  return id === undefined ? word : `${word} '${id}'`;
}
