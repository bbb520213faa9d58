/**
 * How long reading takes beside a bare pass over the same bytes: `saxes` for the XML and `svg-pathdata` for each
 * path, which is the least any reader with these libraries does. Both in this one warmed process, taking turns, the
 * best of several rounds each.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { SVGPathData } from 'svg-pathdata';
import { defaultLimits } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import type { BenchRow } from './row.js';

const rounds = 9;

export async function readingRows(): Promise<BenchRow[]> {
  const icons = iconFiles();
  const motifs = Array.from({ length: 40 }, (_, seed) => bytesOf(curvyMotif(seed, 1500)));
  const dxfMotifs = Array.from({ length: 20 }, (_, seed) => bytesOf(curvyDxf(seed, 1500)));
  return [
    await row(`reading ${icons.length} icons`, icons),
    await row(`reading ${motifs.length} motifs of 1,500 curves`, motifs),
    await row('reading 20 DXF motifs of 1,500 curves', dxfMotifs, bareTags, 'none was set'),
  ];
}

async function row(
  work: string,
  files: readonly Uint8Array[],
  pass: (bytes: Uint8Array) => unknown = barePass,
  aim = 'at most 3 times',
): Promise<BenchRow> {
  let bare = Infinity;
  let ours = Infinity;
  for (let round = 0; round < rounds; round++) {
    bare = Math.min(bare, await timed(async () => files.forEach(pass)));
    ours = Math.min(ours, await timed(() => readAll(files)));
  }
  const ratio = (ours / bare).toFixed(2);
  return {
    work,
    measured: `${ratio} times a bare pass (${ours.toFixed(0)} ms against ${bare.toFixed(0)} ms)`,
    aim,
  };
}

async function timed(job: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await job();
  return performance.now() - start;
}

/** What any reader has to do: the text, the XML, the path data. */
function barePass(bytes: Uint8Array): number {
  let commands = 0;
  const parser = new SaxesParser({ xmlns: true });
  parser.on('opentag', (tag) => {
    const d = tag.attributes.d?.value;
    if (d !== undefined) commands += new SVGPathData(d).commands.length;
  });
  parser.write(new TextDecoder().decode(bytes)).close();
  return commands;
}

/** The least that any reader of DXF does: the text, its lines, each code and each number. */
function bareTags(bytes: Uint8Array): number {
  const lines = new TextDecoder().decode(bytes).split('\n');
  let sum = 0;
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = Number(lines[i]);
    if (code >= 10 && code < 60) sum += Number(lines[i + 1]);
  }
  return sum;
}

async function readAll(files: readonly Uint8Array[]): Promise<void> {
  for (const bytes of files) await readArtwork(bytes, 'bench.svg', { take: 'auto', limits: defaultLimits });
}

function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

function iconFiles(): Uint8Array[] {
  const folder = new URL('../../node_modules/lucide-static/icons/', import.meta.url);
  return readdirSync(folder)
    .filter((name) => name.endsWith('.svg'))
    .map((name) => readFileSync(new URL(name, folder)));
}

/** One wandering line of so many cubics, each a spline of its own. */
function curvyDxf(seed: number, curves: number): string {
  let state = seed + 1;
  const random = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  const knots = [0, 0, 0, 0, 1, 1, 1, 1].map((knot) => ` 40\n${knot}.0\n`).join('');
  let [x, y] = [0, 0];
  const point = () => ` 10\n${x.toFixed(6)}\n 20\n${y.toFixed(6)}\n 30\n0.0\n`;
  const splines = Array.from({ length: curves }, () => {
    let points = point();
    for (let i = 0; i < 3; i++) {
      x += 3 * random();
      y += 3 * (random() - 0.5);
      points += point();
    }
    return `  0\nSPLINE\n  8\n0\n 70\n8\n 71\n3\n 72\n8\n 73\n4\n${knots}${points}`;
  });
  return `  0\nSECTION\n  2\nENTITIES\n${splines.join('')}  0\nENDSEC\n  0\nEOF\n`;
}

/** One wandering line of so many cubics, as a drawing program saves it. */
function curvyMotif(seed: number, curves: number): string {
  let state = seed + 1;
  const random = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  const pair = (spread: number) =>
    `${(random() * spread).toFixed(3)},${((random() - 0.5) * spread).toFixed(3)}`;
  const parts = Array.from({ length: curves }, () => `c${pair(4)} ${pair(4)} ${pair(3)}`);
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="240mm" height="120mm" viewBox="0 0 240 120">
  <g id="motif" transform="translate(5,60)">
    <path id="line" style="fill:none;stroke:#000000;stroke-width:0.5" d="M0,0${parts.join('')}"/>
  </g>
</svg>`;
}
