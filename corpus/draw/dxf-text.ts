/**
 * A drawing as DXF, as drawing programs save it: straight stretches and arcs as LWPOLYLINEs with bulges, curves as
 * SPLINEs (Bézier curves end to end: each knot three times), y up, the layer table with it. Written after the DXF
 * Reference, AC1015, apart from what writes DXF in the program.
 */
import { boxOf, type Drawing } from './drawing.js';
import { number } from './path-text.js';
import { at, type Segment, type Stroke, scaled, shifted } from './stroke.js';

export type Tag = readonly [code: number, value: number | string];

export interface DxfOptions {
  /** `$INSUNITS`; left out where null. */
  readonly units?: number | null;
  /** Units to the millimetre. */
  readonly perMm?: number;
  /** Rows of the layer table: flags (1: frozen) and colour (negative: off), by name. */
  readonly layers?: Readonly<Record<string, readonly [flags: number, colour: number]>>;
  /** Entities after those of the motif, in the file's units. */
  readonly after?: string;
  /** Characters left out at the end of the file. */
  readonly cut?: number;
}

export function dxfText({ strokes }: Drawing, options: DxfOptions = {}): string {
  const { units = 4, perMm = 1, layers = {}, after = '', cut = 0 } = options;
  const box = boxOf(strokes);
  const entities = strokes
    .map((stroke) => scaled(shifted(stroke, -box.minX, -box.maxY), perMm))
    .map(entitiesOf)
    .join('');
  const table = Object.entries({ 0: [0, 7] as const, ...layers }).map(([name, [flags, colour]]) =>
    tags(
      [0, 'LAYER'],
      [100, 'AcDbSymbolTableRecord'],
      [100, 'AcDbLayerTableRecord'],
      [2, name],
      [70, flags],
      [62, colour],
      [6, 'Continuous'],
    ),
  );
  const text =
    section(
      'HEADER',
      tags(
        [9, '$ACADVER'],
        [1, 'AC1015'],
        ...(units === null
          ? []
          : ([
              [9, '$INSUNITS'],
              [70, units],
            ] as const)),
      ),
    ) +
    section(
      'TABLES',
      `${tags([0, 'TABLE'], [2, 'LAYER'], [70, table.length])}${table.join('')}${tags([0, 'ENDTAB'])}`,
    ) +
    section('ENTITIES', entities + after) +
    tags([0, 'EOF']);
  return text.slice(0, text.length - cut);
}

export function tags(...all: readonly Tag[]): string {
  return all.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join('');
}

function section(name: string, body: string): string {
  return tags([0, 'SECTION'], [2, name]) + body + tags([0, 'ENDSEC']);
}

/** Runs of straight stretches and arcs, and runs of curves, in turn. */
function entitiesOf({ from, segments }: Stroke): string {
  let text = '';
  let pen = from;
  for (let i = 0; i < segments.length; ) {
    const isCurve = curves.has(segments[i].kind);
    const run: Segment[] = [];
    while (i < segments.length && curves.has(segments[i].kind) === isCurve) run.push(segments[i++]);
    text += isCurve ? spline({ from: pen, segments: run }) : polyline({ from: pen, segments: run });
    pen = run[run.length - 1].to;
  }
  return text;
}

const curves: ReadonlySet<Segment['kind']> = new Set<Segment['kind']>(['cubic', 'quadratic']);

const head = (kind: string, mark: string): Tag[] => [
  [0, kind],
  [100, 'AcDbEntity'],
  [8, '0'],
  [100, mark],
];
const up = (y: number) => number(-y, 8);

function polyline({ from, segments }: Stroke): string {
  const places = [from, ...segments.map(({ to }) => to)];
  const vertices = places.flatMap(({ x, y }, i): Tag[] => [
    [10, number(x, 8)],
    [20, up(y)],
    ...(i < segments.length && segments[i].kind === 'arc'
      ? [[42, bulge(places[i], segments[i])] as const]
      : []),
  ]);
  return tags(...head('LWPOLYLINE', 'AcDbPolyline'), [90, places.length], [70, 0], ...vertices);
}

/** The tangent of a quarter of the arc's angle; clockwise on the page is clockwise with y up, too: negative. */
function bulge(a: { x: number; y: number }, arc: Segment): number {
  if (arc.kind !== 'arc') return 0;
  const half = Math.hypot(arc.to.x - a.x, arc.to.y - a.y) / 2;
  const quarter = Math.asin(Math.min(1, half / arc.radius)) / 2;
  const tangent = Math.tan(arc.large ? Math.PI / 2 - quarter : quarter);
  return arc.clockwise ? -tangent : tangent;
}

function spline({ from, segments }: Stroke): string {
  const points = [from];
  for (const segment of segments) {
    const a = points[points.length - 1];
    if (segment.kind === 'cubic') points.push(segment.c1, segment.c2, segment.to);
    else if (segment.kind === 'quadratic') {
      const { c, to } = segment;
      const towards = (p: { x: number; y: number }) =>
        at(p.x + (2 / 3) * (c.x - p.x), p.y + (2 / 3) * (c.y - p.y));
      points.push(towards(a), towards(to), to);
    }
  }
  const last = segments.length;
  const knots = Array.from({ length: last + 1 }, (_, i) =>
    Array(i === 0 || i === last ? 4 : 3).fill(i),
  ).flat();
  return tags(
    ...head('SPLINE', 'AcDbSpline'),
    [70, 8],
    [71, 3],
    [72, knots.length],
    [73, points.length],
    [74, 0],
    ...knots.map((knot): Tag => [40, knot]),
    ...points.flatMap(({ x, y }): Tag[] => [
      [10, number(x, 8)],
      [20, up(y)],
      [30, 0],
    ]),
  );
}
