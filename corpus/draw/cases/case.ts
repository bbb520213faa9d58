/** Cases of the rules: drawings that a rule must leave alone, and drawings in which it must find what is wrong. */
import type { Severity } from '../../../shared/finding.js';
import type { Box, Point } from '../../../shared/plane.js';
import { boxOf, type Drawing, rights } from '../drawing.js';
import type { Flavour } from '../flavours.js';
import type { Stroke } from '../stroke.js';

export interface Case {
  readonly rule: string;
  /** `pass-…` or `fail-…`, without the ending. */
  readonly name: string;
  readonly text: string;
  /** `.svg` where it is none other. */
  readonly ending?: string;
  readonly expected?: Expected;
}

/** What the construction of a failing case fixes beforehand. */
export interface Expected {
  /** These are the finding's places, and there are no others, in the motif's millimetres. */
  readonly placesMm?: readonly (readonly [number, number])[];
  /**
   * Where the construction leaves open at which of many places it is told: boxes [left, top, right, bottom]. In each
   * lies a place, and each place in one of them.
   */
  readonly withinMm?: readonly (readonly [number, number, number, number])[];
  readonly measured?: number;
  /** Where it differs from the rule's own. */
  readonly severity?: Severity;
  /** What its message must say. */
  readonly says?: string;
  /** Rules that find the same thing in their own way, as an error. */
  readonly also?: readonly string[];
}

/** A drawing of the studio, for a case. */
export function sketch(title: string, ...strokes: readonly Stroke[]): Drawing {
  return { title, creator: 'Barnaby Tidewater', rights, strokes };
}

/** What is known of the finding, with its places where they were drawn. */
export type Known = Omit<Expected, 'placesMm' | 'withinMm'> & {
  readonly at?: readonly Point[];
  readonly within?: readonly Box[];
};

/** The case that this drawing makes when it is saved so. */
export function caseOf(rule: string, name: string, flavour: Flavour, drawing: Drawing, known?: Known): Case {
  const text = flavour(drawing);
  if (!known) return { rule, name, text };
  const { at, within, ...rest } = known;
  const places = at && { placesMm: placesIn(drawing, at) };
  const boxes = within && { withinMm: boxesIn(drawing, within) };
  return { rule, name, text, expected: { ...places, ...boxes, ...rest } };
}

/** Places of a drawing in the coordinates of its motif, whose box begins at the origin. */
export function placesIn({ strokes }: Drawing, places: readonly Point[]): (readonly [number, number])[] {
  const box = boxOf(strokes);
  const rounded = (value: number) => Math.round(value * 1000) / 1000;
  return places.map(({ x, y }) => [rounded(x - box.minX), rounded(y - box.minY)] as const);
}

function boxesIn(drawing: Drawing, boxes: readonly Box[]): (readonly [number, number, number, number])[] {
  return boxes.map(({ minX, minY, maxX, maxY }) => {
    const [from, to] = placesIn(drawing, [
      { x: minX, y: minY },
      { x: maxX, y: maxY },
    ]);
    return [...from, ...to] as const;
  });
}

export function box(minX: number, minY: number, maxX: number, maxY: number): Box {
  return { minX, minY, maxX, maxY };
}
