/**
 * Every motif of the corpus as curves: within 0.02 mm of its line, both ways (places and projection by bezier-js), of one
 * direction where curves meet but at corners, few, and the same to the check when read again.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { Bezier } from 'bezier-js';
import { describe, expect, it } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import { isCorner, turnsOf } from '../../src/curves/corners.js';
import { curvesOf } from '../../src/curves/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { writeSvg } from '../../src/write/svg.js';
import { distanceTo, findingsOf, names } from '../checked.js';

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;

interface Piece {
  readonly start: readonly [number, number];
  readonly curve: Bezier | null;
  readonly end: readonly [number, number];
}

function piecesOf({ ops, coords }: Subpath): Piece[] {
  const pieces: Piece[] = [];
  let at = 2;
  for (const op of ops) {
    const numbers = [...coords.subarray(at - 2, at + opSize[op])];
    const [start, end] = [numbers.slice(0, 2), numbers.slice(-2)] as [[number, number], [number, number]];
    pieces.push({ start, end, curve: op === Op.cubic ? new Bezier(numbers) : null });
    at += opSize[op];
  }
  return pieces;
}

/** An arc counts as one curve a quarter turn: no cubic can follow more of it. */
function artworkCurves(lines: readonly Subpath[]): number {
  let count = 0;
  for (const { ops, coords } of lines) {
    let at = 2;
    for (const op of ops) {
      count += op === Op.arc ? Math.ceil(Math.abs(coords[at + 7]) / (Math.PI / 2) - 1e-6) : 1;
      at += opSize[op];
    }
  }
  return count;
}

function direction(curve: Bezier | null, piece: Piece, t: 0 | 1): number {
  if (!curve) return Math.atan2(piece.end[1] - piece.start[1], piece.end[0] - piece.start[0]);
  const { x, y } = curve.derivative(t);
  return Math.atan2(y, x);
}

/** bezier-js projects to a thousandth of the curve, which is more than 0.02 mm of a long one: refined by golden section. */
function distanceFrom(curve: Bezier, at: { x: number; y: number }): number {
  const away = (t: number) => {
    const { x, y } = curve.get(Math.min(1, Math.max(0, t)));
    return Math.hypot(x - at.x, y - at.y);
  };
  const { t = 0 } = curve.project(at);
  let [low, high] = [t - 0.01, t + 0.01];
  for (let k = 0; k < 40; k++) {
    const part = 0.381966 * (high - low);
    if (away(low + part) < away(high - part)) high -= part;
    else low += part;
  }
  return away((low + high) / 2);
}

function cornersOf(line: Polyline): Set<string> {
  const turns = turnsOf(line);
  const corners = new Set<string>();
  for (let i = 1; i + 1 < turns.length; i++)
    if (isCorner(line, turns, i)) corners.add(`${line[2 * i]} ${line[2 * i + 1]}`);
  return corners;
}

/** A wave in steps of a fifth of a micrometre: its shape takes few curves, whatever its points. */
it('follows a line of very many points by its shape', () => {
  const line = new Float64Array(2_000_000);
  for (let i = 0; i < line.length / 2; i++) {
    const x = (200 * i) / (line.length / 2 - 1);
    line[2 * i] = x;
    line[2 * i + 1] = 30 * Math.sin((x * Math.PI) / 50);
  }
  const pieces = piecesOf(curvesOf([line])[0]);
  // Four curves to a full wave follow a sine within 0.02 mm at this size, and nothing asks for more than twice as many.
  expect(pieces.length).toBeLessThanOrEqual(32);
  // All of it in curves: where there is none, none is looked at.
  expect(pieces.filter(({ curve }) => curve === null)).toEqual([]);
  for (const { curve } of pieces)
    for (const { x, y } of curve!.getLUT(60))
      expect(Math.abs(y - 30 * Math.sin((x * Math.PI) / 50))).toBeLessThan(
        0.02 * Math.hypot(1, 0.6 * Math.PI),
      );
});

/** Loops with ripples on them, some so tight that after a long curve not even one leg can be followed closely. */
it('follows a line of loops and ripples', () => {
  const line = new Float64Array(6000);
  for (let i = 0; i < line.length / 2; i++) {
    const t = 0.06 * i;
    line[2 * i] = 0.05 * i + 14 * Math.sin(0.7 * t);
    line[2 * i + 1] = 40 * Math.sin(0.31 * t) + 3 * Math.sin(2.1 * t);
  }
  const pieces = piecesOf(curvesOf([line])[0]);
  for (const { curve } of pieces)
    for (const at of curve?.getLUT(20) ?? []) expect(distanceTo(line, at)).toBeLessThan(0.02);
});

it('refuses a line that it could not follow in minutes', () => {
  const zigzag = Float64Array.from({ length: 700_000 }, (_, i) =>
    i % 2 === 0 ? i / 100 : 5 * ((i >> 1) % 2),
  );
  expect(() => curvesOf([zigzag])).toThrow(/up to 150,000 points, and this motif has 350,000/);
});

describe.each(readdirSync(folder).filter((name) => name.endsWith('.svg')))('%s', async (name) => {
  const artwork = await readArtwork(readFileSync(folder + name), name, defaultSetup);
  const motif = toMotif(artwork, defaultSetup);
  const curves = curvesOf(motif.strokes);

  it('keeps within 0.02 mm of the line, ends exact', () => {
    motif.strokes.forEach((line, s) => {
      const pieces = piecesOf(curves[s]);
      expect([...pieces[0].start, ...pieces.at(-1)!.end]).toEqual([...line.slice(0, 2), ...line.slice(-2)]);
      let off = 0;
      for (const { curve } of pieces)
        if (curve) for (const { x, y } of curve.getLUT(40)) off = Math.max(off, distanceTo(line, { x, y }));
      expect(off).toBeLessThan(0.02);
      let away = 0;
      for (let i = 0; i < line.length; i += 8) {
        const at = { x: line[i], y: line[i + 1] };
        const near = (piece: Piece) =>
          piece.curve
            ? distanceFrom(piece.curve, at)
            : distanceTo(Float64Array.of(...piece.start, ...piece.end), at);
        const close = pieces.filter(({ curve, start, end }) => {
          const box = curve?.bbox() ?? {
            x: { min: Math.min(start[0], end[0]), max: Math.max(start[0], end[0]) },
          };
          return at.x > box.x.min - 0.1 && at.x < box.x.max + 0.1;
        });
        away = Math.max(away, Math.min(...close.map(near)));
      }
      expect(away).toBeLessThan(0.02);
    });
  });

  it('turns only at corners', () => {
    motif.strokes.forEach((line, s) => {
      const corners = cornersOf(line);
      const pieces = piecesOf(curves[s]);
      for (let i = 1; i < pieces.length; i++) {
        const [before, after] = [pieces[i - 1], pieces[i]];
        if (corners.has(`${after.start[0]} ${after.start[1]}`)) continue;
        const turn = direction(after.curve, after, 0) - direction(before.curve, before, 1);
        const degrees = (Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) * 180) / Math.PI;
        expect(degrees, `piece ${i} of ${pieces.length}`).toBeLessThan(1);
      }
    });
  });

  it('is few: at most half as many again as were drawn', () => {
    const drawn = artworkCurves(artwork.lines);
    const found = curves.reduce((sum, { ops }) => sum + ops.length, 0);
    expect(found).toBeLessThanOrEqual(Math.max(1.5 * drawn, drawn + 2));
  });

  it('is the same to the check when it is read again', async () => {
    const text = writeSvg(motif, undefined, true);
    const again = toMotif(
      await readArtwork(new TextEncoder().encode(text), name, defaultSetup),
      defaultSetup,
    );
    motif.strokes.forEach((line, s) => {
      const read = again.strokes[s];
      for (let i = 0; i < read.length; i += 2)
        expect(distanceTo(line, { x: read[i], y: read[i + 1] })).toBeLessThan(0.03);
    });
    expect(names(findingsOf(again))).toEqual(names(findingsOf(motif)));
  });
});
