/** What a motif looks like decides what is found in it: not where it lies, which way it faces or runs. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { moved, reversed } from '../../src/geometry/polyline.js';
import { motifOf } from '../../src/size/motif-of.js';
import { distanceTo, findingsOf, motifIn } from '../checked.js';
import { planted } from '../planted.js';

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;
const files = readdirSync(folder).filter((name) => name.endsWith('.svg'));

/** About direction: they may come and go. */
const directed = ['runs-left-to-right'];
/** Whose places are points of the drawing; a stretch may be told at another of its places. */
const pointed = ['near-gap', 'one-stroke', 'opposite-edges', 'smooth-join', 'stray-artwork', 'sharp-turn'];
/** Numbers agree to this share; what stitches cut off depends a little on which way they are laid. */
const share = (rule: string) => (rule === 'tight-curve' ? 0.1 : 0.01);

interface Change {
  readonly line: (line: Polyline) => Polyline;
  readonly place: (place: Point, motif: Motif) => Point;
}

/** Two at once, since what one of them changes the other does not put right. */
const changes: Record<string, Change> = {
  'mirrored left to right and moved': {
    line: (line) => moved(flipped(line, -1, 1), 123.456, -78.9),
    place: ({ x, y }, { widthMm }) => ({ x: widthMm - x, y }),
  },
  'mirrored top to bottom and reversed': {
    line: (line) => reversed(flipped(line, 1, -1)),
    place: ({ x, y }, { heightMm }) => ({ x, y: heightMm - y }),
  },
};

function flipped(line: Polyline, x: number, y: number): Polyline {
  return line.map((value, i) => (i % 2 === 0 ? x : y) * value);
}

function undirected(findings: readonly Finding[]): Finding[] {
  return findings.filter(({ rule }) => !directed.includes(rule));
}

/** The parts of a finding that must stay to the letter. */
function kernel({ rule, severity, mend, places }: Finding) {
  return { rule, severity, mend, places: places.length };
}

function strays(before: Finding, after: Finding, place: (place: Point) => Point): Point[] {
  const dots = before.places.map(place).map(({ x, y }) => Float64Array.of(x, y));
  return after.places.filter((at) => !dots.some((dot) => distanceTo(dot, at) <= 0.1));
}

describe.each(files)('%s', async (file) => {
  const sound = await motifIn(folder + file);
  const defects = planted(sound).map(({ name, motif }) => ({ name, motif }));

  test.each([{ name: 'nothing', motif: sound }, ...defects])('with $name planted', ({ motif }) => {
    const before = undirected(findingsOf(motif));
    for (const [name, { line, place }] of Object.entries(changes)) {
      const after = undirected(findingsOf(motifOf(motif.strokes.map(line), { flattenMm: motif.flattenMm })));
      expect(after.map(kernel), name).toEqual(before.map(kernel));
      before.forEach((finding, i) => {
        const off = Math.abs(after[i].measured! - finding.measured!);
        expect(off, `${name}: ${finding.rule}`).toBeLessThanOrEqual(share(finding.rule) * finding.measured!);
        if (pointed.includes(finding.rule))
          expect(
            strays(finding, after[i], (at) => place(at, motif)),
            `${name}: ${finding.rule}`,
          ).toEqual([]);
      });
    }
  });
});
