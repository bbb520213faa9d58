/** Motifs as they come out of a drawing program: in pieces, and not yet one line from edge to edge. */
import { type Drawing, rights } from './drawing.js';
import { cut, part, penOutline, startingLater, sunk } from './edits.js';
import { entities, type Flavour, filled, inches, nested, plain, points, prefixed, used } from './flavours.js';
import { drawn } from './formula.js';
import { breakers } from './motifs/breakers.js';
import { gullWing } from './motifs/gull-wing.js';
import { kelp } from './motifs/kelp.js';
import { sail } from './motifs/sail.js';
import { swell } from './motifs/swell.js';
import { through } from './spline.js';
import { arcTo, at, endOf, joined, lineTo, reversed, type Stroke, shifted } from './stroke.js';

interface Piecework {
  readonly title: string;
  readonly description: string;
  readonly flavour: Flavour;
  readonly strokes: readonly Stroke[];
}

const gapsMm = [0.1, 0.8, 0.3, 0.5, 0.2];

function shuffledSwell(): Stroke[] {
  const pieces = cut(swell.stroke, 1, 3, 5, 6, 8).map((piece, i) =>
    i === 0 ? piece : startingLater(piece, gapsMm[i - 1]),
  );
  return [3, 0, 5, 2, 4, 1].map((i, place) => (place % 2 === 0 ? pieces[i] : reversed(pieces[i])));
}

/** A closed circle of 0.3 mm across: a click of the pen. */
const dot = (x: number, y: number): Stroke => ({
  from: at(x, y),
  segments: [arcTo(0.15, true, x + 0.3, y), arcTo(0.15, true, x, y)],
});

function copiedSail(): Stroke[] {
  const pieces = cut(sail.stroke, 2, 5, 12, 15);
  return [...pieces, reversed(pieces[1]), pieces[3], dot(30, -60), dot(120, -70)];
}

/** A stem with side shoots: every shoot ends in the open, so it has to be stitched out and back. */
function branch(): Stroke[] {
  const stem = through([
    [0, 0, -20],
    [40, -12],
    [84, 4],
    [128, -10],
    [180, 0, -20],
  ]);
  const [a, b, c] = stem.segments.slice(0, 3).map((segment) => segment.to);
  const shoot = (from: { x: number; y: number }, dx: number, dy: number, fromDeg: number): Stroke =>
    through([
      [from.x, from.y, fromDeg],
      [from.x + dx, from.y + dy],
    ]);
  const [up, down, long] = [shoot(a, 22, -42, -95), shoot(b, 26, 38, 85), shoot(c, 24, -50, -90)];
  const tip = long.segments[0].to;
  return [long, stem, down, up, shoot(tip, -22, -14, -120), shoot(tip, 20, -16, -40)];
}

/** A long wave, and a closed ring that winds across it. */
function eddy(): Stroke[] {
  const wave = drawn((x) => at(x, 18 * Math.cos((4 * Math.PI * x) / 200)), 0, 200, 20);
  const ring = drawn(
    (turn) => at(100 - 78 * Math.cos(turn), -(30 + 4 * Math.cos(4 * turn)) * Math.sin(turn)),
    0,
    2 * Math.PI,
    24,
  );
  return [reversed(ring), reversed(wave)];
}

/** The row of breakers, cut in the middle of a curl instead of in a trough. */
function cutInTheCurl(): Stroke[] {
  const { stroke } = breakers;
  const where = 4;
  const width = endOf(stroke).x - stroke.from.x;
  return [joined(part(stroke, where), shifted(part(stroke, 0, where), width, 0))];
}

/** A stem, and leaves as closed shapes whose stalks stand on it. */
function vine(): Stroke[] {
  const knots = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [i * 30, i % 2 === 0 ? 6 : -6] as const);
  const stem = through(knots.map(([x, y], i) => (i === 0 || i === 7 ? [x, 0, 0] : [x, y])));
  const leaves = stem.segments.slice(0, 6).map(({ to: { x, y } }, i): Stroke => {
    const side = i % 2 === 0 ? -1 : 1;
    return through([
      [x, y, side * 60],
      [x + 22, y + side * 22],
      [x + 18, y + side * 42, side * 180],
      [x - 2, y + side * 24],
      [x, y, side * -70],
    ]);
  });
  return [leaves[4], leaves[0], stem, ...[1, 2, 3, 5].map((i) => leaves[i])];
}

/** The back of a comb, and its teeth. */
function pier(): Stroke[] {
  const teeth = [20, 50, 80, 110, 140, 170].map(
    (x): Stroke => ({ from: at(x, 0), segments: [lineTo(x, 34)] }),
  );
  return [...teeth.reverse(), { from: at(190, 0), segments: [lineTo(0, 0)] }];
}

/** A wave and three rings that ride above it without touching it. */
function buoys(): Stroke[] {
  const wave = drawn((x) => at(x, 14 * Math.sin((6 * Math.PI * x) / 240)), 0, 240, 24);
  const ring = (x: number, y: number, r: number): Stroke => ({
    from: at(x, y + r),
    segments: [arcTo(r, true, x, y - r), arcTo(r, true, x, y + r)],
  });
  return [ring(20, -12, 13), wave, ring(100, -14, 15), ring(180, -10, 11)];
}

const pieces: Readonly<Record<string, Piecework>> = {
  'swell-in-six': {
    title: 'Swell',
    description: 'Six pieces out of order, some of them backwards, with small gaps.',
    flavour: inches,
    strokes: shuffledSwell(),
  },
  'sail-with-copies': {
    title: 'Sail',
    description: 'Two pieces lie there twice, and the pen left two dots.',
    flavour: points,
    strokes: copiedSail(),
  },
  driftwood: {
    title: 'Driftwood',
    description: 'A stem with shoots that end in the open.',
    flavour: plain,
    strokes: branch(),
  },
  'kelp-outlined': {
    title: 'Kelp',
    description: 'The outline of a broad pen, as a program leaves it that turns lines into shapes.',
    flavour: filled,
    strokes: [penOutline(kelp.stroke, 1.5)],
  },
  eddy: {
    title: 'Eddy',
    description: 'A wave and a closed ring that cross each other.',
    flavour: nested,
    strokes: eddy(),
  },
  'sea-vine': {
    title: 'Sea Vine',
    description: 'Leaves as closed shapes that stand on the stem.',
    flavour: used,
    strokes: vine(),
  },
  pier: {
    title: 'Pier',
    description: 'A deck and its piles: a comb.',
    flavour: entities,
    strokes: pier(),
  },
  buoys: {
    title: 'Buoys',
    description: 'Rings that float free of the wave.',
    flavour: prefixed,
    strokes: buoys(),
  },
  'breakers-cut-in-the-curl': {
    title: 'Breakers',
    description: 'The line starts in the middle of a curl, far inside the left edge.',
    flavour: plain,
    strokes: cutInTheCurl(),
  },
  'gulls-on-a-slope': {
    title: 'Gull Wing',
    description: 'Drawn on a slope: the end lies 5 mm below the start.',
    flavour: prefixed,
    strokes: cut(sunk(gullWing.stroke, 5), 3, 8),
  },
};

/** The drawings by file name, with the flavour each is saved in. */
export const pieceDrawings: readonly { name: string; flavour: Flavour; drawing: Drawing }[] = Object.entries(
  pieces,
).map(([name, { flavour, ...rest }]) => ({
  name,
  flavour,
  drawing: { ...rest, creator: 'Pearl Driftwood', rights },
}));
