/**
 * The same line under another name, size, direction or mirrored: found by shape, not by bytes.
 *
 * A shape is 512 places at equal steps along all the strokes, with the centre of gravity at the origin and the mean
 * distance from it as 1. How far each place lies from the centre does not change when the drawing is moved,
 * scaled, mirrored, turned, or stitched in another order or direction; sorted into 32 quantiles that is a signature
 * which near-equal drawings share to within a small tolerance. Signatures are compared along a sorted sweep, so that
 * only near neighbours are looked at; what matches is then laid over the other drawing, in the eight ways a sheet
 * can be turned over and round by quarter turns, and must lie on it to a seventh of a per cent of its width everywhere.
 *
 * Limit: a drawing turned by another angle than a quarter turn is another drawing here.
 */

import type { Polyline } from '../../../shared/plane.js';
import { lengthOf, passesBy, placeAlong, runningLengths } from '../../geometry/polyline.js';

const samples = 512;
const quantiles = 32;
/** Signatures are stored as whole thousandths of the mean distance. */
const signatureUnit = 1000;
const signatureTolerance = 12;
/** Of the mean distance from the centre; about a seventh of a per cent of a motif's width. */
const placeTolerance = 0.006;

/** Distances from the centre in 32 quantiles, whole thousandths of the mean; the first is line length over mean. */
export type Signature = readonly number[];

/** How a drawing becomes the other one: first turned over left to right, then turned by quarter turns. */
export interface Likeness {
  readonly mirrored: boolean;
  readonly quarterTurns: 0 | 1 | 2 | 3;
  /** Size of the second over size of the first. */
  readonly scale: number;
}

interface Shape {
  /** x, y of each sample, centre at the origin, mean distance 1. */
  readonly places: Float64Array;
  readonly meanMm: number;
  readonly lengthMm: number;
}

export function signatureOf(strokes: readonly Polyline[]): Signature {
  const { places, meanMm, lengthMm } = shapeOf(strokes);
  const far = Float64Array.from({ length: samples }, (_, i) =>
    Math.hypot(places[2 * i], places[2 * i + 1]),
  ).sort();
  const signature = [Math.round((signatureUnit * lengthMm) / (meanMm || 1) / quantiles)];
  for (let q = 0; q < quantiles; q++) {
    const from = (q * samples) / quantiles;
    const mean = far.subarray(from, from + samples / quantiles).reduce((sum, value) => sum + value, 0);
    signature.push(Math.round((signatureUnit * mean * quantiles) / samples));
  }
  return signature;
}

/** Pairs of indices, lower first, whose signatures agree. Both lists may be long; only near neighbours are compared. */
export function* alikePairs(signatures: readonly Signature[]): Generator<readonly [number, number]> {
  const order = signatures.map((_, i) => i).sort((a, b) => signatures[a][0] - signatures[b][0] || a - b);
  for (let i = 0; i < order.length; i++) {
    const one = signatures[order[i]];
    for (let j = i + 1; j < order.length; j++) {
      const other = signatures[order[j]];
      // The line's length is the least steady number (facets, small joins), so it gets more room.
      if (other[0] - one[0] > 2 + one[0] * 0.01) break;
      if (one.every((value, k) => k === 0 || Math.abs(value - other[k]) <= signatureTolerance)) {
        yield order[i] < order[j] ? [order[i], order[j]] : [order[j], order[i]];
      }
    }
  }
}

/** How the second drawing is the first one over again, or null where it is not. The plainest way comes first. */
export function likenessOf(first: readonly Polyline[], second: readonly Polyline[]): Likeness | null {
  const a = shapeOf(first);
  const b = shapeOf(second);
  for (const quarterTurns of [0, 2, 1, 3] as const) {
    for (const mirrored of [false, true]) {
      const laid = laidOver(a.places, mirrored, quarterTurns);
      if (liesOn(laid, b.places) && liesOn(b.places, laid)) {
        return { mirrored, quarterTurns, scale: b.meanMm / a.meanMm };
      }
    }
  }
  return null;
}

function shapeOf(strokes: readonly Polyline[]): Shape {
  const lengths = strokes.map(lengthOf);
  const lengthMm = lengths.reduce((sum, value) => sum + value, 0);
  const places = new Float64Array(2 * samples);
  let stroke = 0;
  let before = 0;
  let run = runningLengths(strokes[0]);
  for (let i = 0; i < samples; i++) {
    const along = ((i + 0.5) / samples) * lengthMm;
    while (stroke < strokes.length - 1 && along > before + lengths[stroke]) {
      before += lengths[stroke++];
      run = runningLengths(strokes[stroke]);
    }
    const { x, y } = placeAlong(strokes[stroke], run, along - before);
    places[2 * i] = x;
    places[2 * i + 1] = y;
  }
  let cx = 0;
  let cy = 0;
  for (let i = 0; i < samples; i++) {
    cx += places[2 * i] / samples;
    cy += places[2 * i + 1] / samples;
  }
  let meanMm = 0;
  for (let i = 0; i < samples; i++) {
    meanMm += Math.hypot(places[2 * i] - cx, places[2 * i + 1] - cy) / samples;
  }
  for (let i = 0; i < samples; i++) {
    places[2 * i] = (places[2 * i] - cx) / (meanMm || 1);
    places[2 * i + 1] = (places[2 * i + 1] - cy) / (meanMm || 1);
  }
  return { places, meanMm, lengthMm };
}

function laidOver(places: Float64Array, mirrored: boolean, quarterTurns: number): Float64Array {
  const out = new Float64Array(places.length);
  for (let i = 0; i < places.length; i += 2) {
    let x = mirrored ? -places[i] : places[i];
    let y = places[i + 1];
    for (let turn = 0; turn < quarterTurns; turn++) [x, y] = [-y, x];
    out[i] = x;
    out[i + 1] = y;
  }
  return out;
}

/** True where each sample of `a` lies near the chords between `b`'s samples: the two need not fall on the same places. */
function liesOn(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i += 2) if (!passesBy(b, a[i], a[i + 1], placeTolerance)) return false;
  return true;
}
