/**
 * Path data against the standard: grammar SVG 2, 9.3.9; error stop SVG 2, 9.5.4; arcs SVG 1.1 (second edition),
 * appendix F.6. Where the library `svg-pathdata` follows the grammar, the two must agree on random data.
 */
import fc from 'fast-check';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, it } from 'vitest';
import type { Artwork } from '../../shared/artwork.js';
import { Op } from '../../shared/subpath.js';
import { corners, inMm, notesOf, read } from './read.js';

/** The ends of all segments as text: `0,0 1,2 | 3,4 5,6` for two subpaths. */
function shown(artwork: Artwork): string {
  return corners(artwork)
    .map((line) => line.map((place) => place.join(',')).join(' '))
    .join(' | ');
}

async function ends(d: string): Promise<string> {
  return shown(await read(inMm(`<path d="${d}"/>`)));
}

async function brokenAt(d: string): Promise<number | undefined> {
  return notesOf(await read(inMm(`<path d="${d}"/>`)), 'broken-path')[0]?.offset;
}

describe('the grammar (SVG 2, 9.3.9)', () => {
  it.each([
    ['numbers run together', 'M.5.5-1-2', '0.5,0.5 -1,-2'],
    ['a number is read as far as it goes: 00 is one number', 'M00 1L007 08', '0,1 7,8'],
    ['a sign begins a number', 'M1+2L3-4', '1,2 3,-4'],
    ['exponents', 'M1e1 2E+1L300e-1 .4e2', '10,20 30,40'],
    ['pairs after a move are lines', 'M1 2 3 4m5 6 7 8', '1,2 3,4 | 8,10 15,18'],
    ['a relative move at the start is absolute', 'm1 2l3 4', '1,2 4,6'],
    ['going on after closing starts where the last one did', 'M1 1h4v4zl1 1', '1,1 5,1 5,5 1,1 | 1,1 2,2'],
    ['a move after closing is relative to the start', 'M1 1h4v4zm1 1h1', '1,1 5,1 5,5 1,1 | 2,2 3,2'],
    ['flags run together', 'M0 0a5 5 0 0110 0a5 5 0 1010 0', '0,0 10,0 20,0'],
    ['h and v repeat', 'M0 0h1 2 3v1 2', '0,0 1,0 3,0 6,0 6,1 6,3'],
    ['closed on its start: no line is added', 'M0 0h5v5L0 0z', '0,0 5,0 5,5 0,0'],
  ])('%s', async (_, d, expected) => {
    expect(await ends(d)).toEqual(expected);
    expect(await brokenAt(d)).toBeUndefined();
  });

  it('mirrors the last control point for S and T, and only after their own kind', async () => {
    const { lines } = await read(inMm('<path d="M0 0C1 2 3 4 5 5S8 8 9 9T20 20"/>'));
    expect([...lines[0].ops]).toEqual([Op.cubic, Op.cubic, Op.quadratic]);
    // The mirror image of (3, 4) at (5, 5), then no control to mirror: the pen's own place.
    expect([...lines[0].coords.slice(8, 10)]).toEqual([7, 6]);
    expect([...lines[0].coords.slice(14, 16)]).toEqual([9, 9]);
  });
});

describe('the error stop (SVG 2, 9.5.4)', () => {
  it.each([
    ["the standard's own example", 'M 10,10 L 20,20,30', '10,10 20,20', 18],
    ['a letter that is no command', 'M1 1L2 2X3 3', '1,1 2,2', 9],
    ['a word for a number', 'M1 1L2 2L NaN 3', '1,1 2,2', 11],
    ['two commas', 'M1 1L2 2,,3 3', '1,1 2,2', 10],
    ['a comma before a command', 'M1 1L2 2,L3 3', '1,1 2,2', 10],
    ['a flag that is none', 'M1 1h1a5 5 0 2 0 9 9', '1,1 2,1', 14],
    ['numbers after closing', 'M1 1h4v4z5 5L9 9', '1,1 5,1 5,5 1,1', 10],
    ['data that does not begin with a move', 'L1 1 2 2', '', 1],
    ['data that ends early', 'M1 1h1C2 2', '1,1 2,1', 10],
    ['a lone sign', 'M1 1h1h-', '1,1 2,1', 8],
  ])('%s', async (_, d, expected, offset) => {
    expect(await ends(d)).toEqual(expected);
    expect(await brokenAt(d)).toBe(offset);
  });

  it('names the path, the line of the file and the place', async () => {
    const artwork = await read(inMm('\n\n<path id="leaf-3" d="M5 5h5 x"/>'));
    expect(notesOf(artwork, 'broken-path')).toEqual([
      {
        kind: 'broken-path',
        what: "path 'leaf-3'",
        count: 1,
        places: [{ x: 10, y: 5 }],
        fileLine: 3,
        offset: 8,
      },
    ]);
  });

  it('places the break at the last point read, also under a transform and before a shape closes', async () => {
    const placeOf = async (shape: string) => notesOf(await read(inMm(shape)), 'broken-path')[0].places;
    expect(await placeOf('<path d="M1 2L3 4 7 8C9"/>')).toEqual([{ x: 7, y: 8 }]);
    expect(await placeOf('<path transform="translate(10 20)" d="M1 2L3 4L"/>')).toEqual([{ x: 13, y: 24 }]);
    expect(await placeOf('<polygon points="1 2 3 4 5 9 7"/>')).toEqual([{ x: 5, y: 9 }]);
    expect(await placeOf('<path d="L1 1"/>')).toEqual([]);
  });

  it('stops a point list at a number without its partner (SVG 2, 10.6)', async () => {
    const artwork = await read(inMm('<polyline points="1 2 3 4 5"/>'));
    expect(shown(artwork)).toBe('1,2 3,4');
    expect(notesOf(artwork, 'broken-path')[0].offset).toBe(9);
  });
});

describe('arcs (SVG 1.1, F.6)', () => {
  const arcOf = async (d: string) => {
    const { lines } = await read(inMm(`<path d="${d}"/>`));
    expect([...lines[0].ops]).toEqual([Op.arc]);
    return [...lines[0].coords.slice(2)].map((value) => Math.round(value * 1e6) / 1e6 + 0);
  };
  const turn = (share: number) => Math.round(share * 2 * Math.PI * 1e6) / 1e6;

  it('end points to centre, the four choices of flags (F.6.5)', async () => {
    // A quarter of a circle of radius 10 from (10, 0) to (0, 10): centre (0, 0) or (10, 10).
    expect(await arcOf('M10 0A10 10 0 0 1 0 10')).toEqual([0, 0, 10, 0, 0, 10, 0, turn(0.25), 0, 10]);
    expect(await arcOf('M10 0A10 10 0 1 0 0 10')).toEqual([0, 0, 10, 0, 0, 10, 0, turn(-0.75), 0, 10]);
    expect(await arcOf('M10 0A10 10 0 0 0 0 10')).toEqual([
      10,
      10,
      10,
      0,
      0,
      10,
      turn(-0.25),
      turn(-0.25),
      0,
      10,
    ]);
    expect(await arcOf('M10 0A10 10 0 1 1 0 10')).toEqual([
      10,
      10,
      10,
      0,
      0,
      10,
      turn(-0.25),
      turn(0.75),
      0,
      10,
    ]);
  });

  it('scales radii up that are too small (F.6.6, step 3)', async () => {
    expect(await arcOf('M0 0A1 1 0 0 1 10 0')).toEqual([5, 0, 5, 0, 0, 5, turn(0.5), turn(0.5), 10, 0]);
  });

  it('takes the size of a negative radius (F.6.6, step 2)', async () => {
    expect(await arcOf('M10 0A-10 -10 0 0 1 0 10')).toEqual(await arcOf('M10 0A10 10 0 0 1 0 10'));
  });

  it('is a straight line where a radius is zero, and nothing where the ends are the same (F.6.2)', async () => {
    const flat = await read(inMm('<path d="M0 0A0 5 0 0 1 10 0"/>'));
    expect([...flat.lines[0].ops]).toEqual([Op.line]);
    const none = await read(inMm('<path d="M0 0h5A5 5 0 1 1 5 0v5"/>'));
    expect(shown(none)).toBe('0,0 5,0 5,5');
  });

  it('ends on its own end points under any radii and rotation', async () => {
    const number = fc.integer({ min: -400, max: 400 }).map((n) => n / 4);
    const flag = fc.constantFrom(0, 1);
    await fc.assert(
      fc.asyncProperty(
        number,
        number,
        number,
        flag,
        flag,
        number,
        number,
        async (rx, ry, phi, large, sweep, x, y) => {
          const { lines } = await read(
            inMm(`<path d="M3 4A${rx} ${ry} ${phi} ${large} ${sweep} ${x} ${y}"/>`),
          );
          for (const { ops, coords } of lines) {
            if (ops[0] !== Op.arc) continue;
            const [cx, cy, ux, uy, vx, vy, start, delta] = coords.slice(2);
            const at = (t: number) => [
              cx + Math.cos(t) * ux + Math.sin(t) * vx,
              cy + Math.cos(t) * uy + Math.sin(t) * vy,
            ];
            const [[x0, y0], [x1, y1]] = [at(start), at(start + delta)];
            expect(Math.hypot(x0 - 3, y0 - 4)).toBeLessThan(1e-6);
            expect(Math.hypot(x1 - x, y1 - y)).toBeLessThan(1e-6);
            expect(Math.sign(delta)).toBe(sweep ? 1 : -1);
            if (Math.abs(Math.abs(delta) - Math.PI) > 1e-6)
              expect(Math.abs(delta) > Math.PI ? 1 : 0).toBe(large);
          }
        },
      ),
      { seed: 6, numRuns: 300 },
    );
  });
});

/** The places of a line, to 0.01; a segment that ends where it starts is none. */
function places(line: readonly (readonly number[])[]): string[] {
  return line
    .map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`.replaceAll('-0.00', '0.00'))
    .filter((place, i, all) => i === 0 || place !== all[i - 1]);
}

/** The ends of all segments as svg-pathdata has them, one list a subpath; one that never leaves its start is none. */
function walkedBy(d: string): number[][][] {
  const paths: number[][][] = [];
  let [x, y] = [0, 0];
  for (const command of new SVGPathData(d).toAbs().commands) {
    if (command.type === SVGPathData.CLOSE_PATH) {
      const [start] = paths[paths.length - 1];
      paths[paths.length - 1].push(start);
      // What follows without a move goes on from the start, as a line of its own.
      paths.push([start]);
      [x, y] = start;
      continue;
    }
    if ('x' in command) x = command.x;
    if ('y' in command) y = command.y;
    if (command.type === SVGPathData.MOVE_TO) paths.push([[x, y]]);
    else paths[paths.length - 1].push([x, y]);
  }
  return paths.filter((path) => places(path).length > 1);
}

describe('against svg-pathdata', () => {
  it('ends every segment where the library does', async () => {
    const number = fc.integer({ min: -9999, max: 9999 }).map((n) => String(n / 100));
    const numbers = (count: number) =>
      fc.array(number, { minLength: count, maxLength: count }).map((all) => all.join(' '));
    const command = (letters: string, count: number) =>
      fc.tuple(fc.constantFrom(...letters), numbers(count)).map(([letter, args]) => letter + args);
    const arc = fc
      .tuple(
        fc.constantFrom('a', 'A'),
        fc.integer({ min: 1, max: 90 }),
        number,
        fc.constantFrom('00', '01', '10', '11'),
        numbers(2),
      )
      .map(
        ([letter, r, phi, flags, to]) =>
          `${letter}${r} ${r} ${phi} ${flags}${to.startsWith('-') ? '' : ' '}${to}`,
      );
    const any = fc.oneof(
      command('lLtTmM', 2),
      command('hHvV', 1),
      command('cC', 6),
      command('sSqQ', 4),
      arc,
      fc.constantFrom('z', 'Z'),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(any, { minLength: 1, maxLength: 12 }), async (commands) => {
        const d = `M1 2${commands.join('')}`;
        const ours = corners(await read(inMm(`<path d="${d}"/>`)));
        expect(ours.map(places)).toEqual(walkedBy(d).map(places));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
