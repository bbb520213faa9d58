/** Cases of the rules: drawings that a rule must leave alone, and drawings in which it must find what is wrong. */
import type { Severity } from '../../../shared/finding.js';
import type { Point } from '../../../shared/plane.js';
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
  readonly measured?: number;
  /** Where it differs from the rule's own. */
  readonly severity?: Severity;
  /** What its message must say. */
  readonly says?: string;
  /** Rules that find the same thing in their own way and may find it too. */
  readonly also?: readonly string[];
}

/** A drawing of the studio, for a case. */
export function sketch(title: string, ...strokes: readonly Stroke[]): Drawing {
  return { title, creator: 'Barnaby Tidewater', rights, strokes };
}

/** What is known of the finding, with its places where they were drawn. */
export type Known = Omit<Expected, 'placesMm'> & { readonly at?: readonly Point[] };

/** The case that this drawing makes when it is saved so. */
export function caseOf(rule: string, name: string, flavour: Flavour, drawing: Drawing, known?: Known): Case {
  const text = flavour(drawing);
  if (!known) return { rule, name, text };
  const { at, ...rest } = known;
  return { rule, name, text, expected: { ...(at && { placesMm: placesIn(drawing, at) }), ...rest } };
}

/** Places of a drawing in the coordinates of its motif, whose box begins at the origin. */
export function placesIn({ strokes }: Drawing, places: readonly Point[]): (readonly [number, number])[] {
  const box = boxOf(strokes);
  const rounded = (value: number) => Math.round(value * 1000) / 1000;
  return places.map(({ x, y }) => [rounded(x - box.minX), rounded(y - box.minY)] as const);
}
