/**
 * DXF in, held against ezdxf (Debian's python3-ezdxf), a writer that nobody here made: what it writes is read within
 * 0.02 mm of what it says it drew. Splines it flattens beyond their ends where these are not clamped, so theirs are
 * worked out by de Boor's algorithm in the script.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { Polyline } from '../../../shared/plane.js';
import { defaultSetup } from '../../../shared/setup.js';
import { polylineOf } from '../../../src/geometry/polyline.js';
import { readArtwork } from '../../../src/read/index.js';
import { flatten } from '../../../src/size/flatten.js';
import { GrowingLine } from '../../../src/size/growing-line.js';
import { distanceTo } from '../../checked.js';

const folder = mkdtempSync(join(tmpdir(), 'linewright-dxf-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Told {
  readonly lines: readonly (readonly (readonly [number, number])[])[];
  readonly units: number;
  readonly mm?: number;
}

const told: Record<string, Told> = JSON.parse(
  execFileSync('/usr/bin/python3', ['test/ezdxf/write.py', folder], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  }),
);
const nowhere = { minX: -Infinity, minY: -Infinity, maxX: Infinity, maxY: Infinity };

async function linesOf(name: string): Promise<Polyline[]> {
  const { lines, notes } = await readArtwork(
    readFileSync(join(folder, `${name}.dxf`)),
    `${name}.dxf`,
    defaultSetup,
  );
  const noted = notes.filter(({ kind }) => kind !== 'not-flat');
  expect(noted).toEqual([]);
  return lines.map((line) => flatten(line, nowhere, 0.01, new GrowingLine(() => undefined)));
}

/** The farthest that a point of one line lies from the other. */
function farthest(from: Polyline, to: Polyline, every = 1): number {
  let most = 0;
  for (let i = 0; i < from.length; i += 2 * every)
    most = Math.max(most, distanceTo(to, { x: from[i], y: from[i + 1] }));
  return most;
}

it.each(Object.keys(told))('%s', async (name) => {
  const { lines, mm = 1 } = told[name];
  const ours = await linesOf(name);
  expect(ours).toHaveLength(lines.length);
  lines.forEach((points, i) => {
    const theirs = polylineOf(points.map(([x, y]) => ({ x: x * mm, y: -y * mm })));
    const within = Math.max(0.02, 1e-6 * mm);
    expect(farthest(theirs, ours[i], Math.ceil(points.length / 400)), `line ${i}`).toBeLessThan(within);
    expect(farthest(ours[i], theirs), `line ${i}`).toBeLessThan(within);
  });
});

it('covers every kind of entity that is a line, and many units', () => {
  expect(Object.keys(told).length).toBeGreaterThan(30);
  expect(new Set(Object.values(told).map(({ units }) => units)).size).toBeGreaterThan(8);
});
