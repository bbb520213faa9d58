/**
 * What each kind of entity draws (Autodesk, DXF Reference, "Entities section"). A new kind is a function and a line in
 * `drawings`. ARC, CIRCLE, LWPOLYLINE and flat POLYLINEs lie in the system of their extrusion direction, the others do
 * not.
 */
import { type Figure, FigurePen } from './figure.js';
import { curvesThrough } from './fit-points.js';
import { broken, type DxfRecord, neededNumber, numberOf, numbersOf, pointsOf } from './record.js';
import { cross, type Map3, systemOf, unit, type Vector } from './space.js';
import { drawSpline } from './spline.js';

/** Beyond this a spline is no drawing, and its rounding would show. */
const highestDegree = 50;
const turn = 2 * Math.PI;
/** A sweep that passes a whole turn by less, in radians, was rounded when it was written. */
const roundedTurn = 1e-4;
/** Under this bulge an arc leaves its chord by less than 5e-8 of it: it is straight. */
const straightBulge = 1e-7;

/** Throws `broken` where the record's numbers are not what the entity needs. */
type Draw = (record: DxfRecord) => Figure;

export const drawings: ReadonlyMap<string, Draw> = new Map<string, Draw>([
  ['LINE', line],
  ['POINT', point],
  ['ARC', arc],
  ['CIRCLE', circle],
  ['ELLIPSE', ellipse],
  ['LWPOLYLINE', lightPolyline],
  ['SPLINE', spline],
]);

function line(record: DxfRecord): Figure {
  const pen = new FigurePen();
  pen.moveTo(...pointOf(record, 10));
  pen.lineTo(...pointOf(record, 11));
  return pen.done();
}

function point(record: DxfRecord): Figure {
  const pen = new FigurePen();
  const at = pointOf(record, 10);
  pen.moveTo(...at);
  pen.lineTo(...at);
  return pen.done();
}

function arc(record: DxfRecord): Figure {
  const start = (neededNumber(record, 50) * Math.PI) / 180;
  return round(record, start, sweepTo(start, (neededNumber(record, 51) * Math.PI) / 180));
}

function circle(record: DxfRecord): Figure {
  return round(record, 0, turn);
}

function round(record: DxfRecord, start: number, sweep: number): Figure {
  const pen = new FigurePen(systemFor(record));
  const radius = neededNumber(record, 40);
  drawArc(pen, pointOf(record, 10), [radius, 0, 0], [0, radius, 0], start, sweep);
  return pen.done();
}

/** Its points are no part of the system of its extrusion direction, which only says which way round it goes. */
function ellipse(record: DxfRecord): Figure {
  const pen = new FigurePen();
  const u = pointOf(record, 11);
  const ratio = neededNumber(record, 40);
  const length = Math.hypot(...u) * ratio;
  const [vx, vy, vz] = unit(cross(unit(extrusionOf(record)), unit(u)));
  const start = numberOf(record, 41, 0);
  const sweep = sweepTo(start, numberOf(record, 42, turn));
  drawArc(pen, pointOf(record, 10), u, [vx * length, vy * length, vz * length], start, sweep);
  return pen.done();
}

function drawArc(pen: FigurePen, centre: Vector, u: Vector, v: Vector, start: number, sweep: number): void {
  const at = (angle: number): Vector => {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    return [0, 1, 2].map((i) => centre[i] + cos * u[i] + sin * v[i]) as unknown as Vector;
  };
  const isWhole = sweep === turn;
  const from = at(start);
  pen.moveTo(...from);
  pen.arcTo(centre, u, v, start, sweep, isWhole ? from : at(start + sweep));
  if (isWhole) pen.close();
}

/** Counter-clockwise from `start` to `end`, radians; a whole turn where they are the same. */
function sweepTo(start: number, end: number): number {
  const apart = end - start;
  if (Math.abs(apart) >= turn && Math.abs(apart) < turn + roundedTurn) return turn;
  const sweep = apart % turn;
  return sweep > 0 ? sweep : sweep + turn;
}

function lightPolyline(record: DxfRecord): Figure {
  const { codes, numbers } = record;
  const vertices: number[] = [];
  let hasY = true;
  for (let i = 0; i < codes.length; i++) {
    if (codes[i] === 10) {
      if (!hasY) throw broken;
      vertices.push(numbers[i], 0, 0);
      hasY = false;
    } else if (codes[i] === 20 && !hasY) {
      vertices[vertices.length - 2] = numbers[i];
      hasY = true;
    } else if (codes[i] === 42 && vertices.length > 0) vertices[vertices.length - 1] = numbers[i];
  }
  const count = vertices.length / 3;
  if (!hasY || count === 0 || count !== numberOf(record, 90, count)) throw broken;
  const pen = new FigurePen(systemFor(record));
  drawBulges(pen, vertices, numberOf(record, 38, 0), (numberOf(record, 70, 0) & 1) === 1);
  return pen.done();
}

/** A line through vertices (x, y and bulge each), all at `level`; the last bulge belongs to the closing stretch. */
function drawBulges(pen: FigurePen, vertices: readonly number[], level: number, closed: boolean): void {
  pen.moveTo(vertices[0], vertices[1], level);
  for (let i = 3; i < vertices.length; i += 3) drawBulge(pen, vertices, i - 3, i, level);
  if (closed) {
    const last = vertices.length - 3;
    const isBack = vertices[0] === vertices[last] && vertices[1] === vertices[last + 1];
    if (!isBack) drawBulge(pen, vertices, last, 0, level);
    pen.close();
  } else if (vertices.length === 3) pen.lineTo(vertices[0], vertices[1], level);
}

/** The bulge is the tangent of a quarter of the arc's angle, counter-clockwise where positive. */
function drawBulge(
  pen: FigurePen,
  vertices: readonly number[],
  from: number,
  to: number,
  level: number,
): void {
  const [x1, y1, bulge] = vertices.slice(from, from + 3);
  const [x2, y2] = vertices.slice(to, to + 2);
  const [dx, dy] = [x2 - x1, y2 - y1];
  if (Math.abs(bulge) < straightBulge || (dx === 0 && dy === 0)) {
    pen.lineTo(x2, y2, level);
    return;
  }
  const off = (1 / bulge - bulge) / 4;
  const [cx, cy] = [(x1 + x2) / 2 - off * dy, (y1 + y2) / 2 + off * dx];
  const [ux, uy] = [x1 - cx, y1 - cy];
  pen.arcTo([cx, cy, level], [ux, uy, 0], [-uy, ux, 0], 0, 4 * Math.atan(bulge), [x2, y2, level]);
}

/** Flags of a POLYLINE. */
const polylineFlag = { closed: 1, in3d: 8, mesh: 16 | 64 } as const;

/** Whether a POLYLINE is one of the meshes that go by that name. */
export function isMesh(record: DxfRecord): boolean {
  return (numberOf(record, 70, 0) & polylineFlag.mesh) !== 0;
}

/** A POLYLINE of the vertices that follow it: x, y, z and bulge of each. */
export function polyline(record: DxfRecord, vertices: readonly number[]): Figure {
  const flags = numberOf(record, 70, 0);
  if (vertices.length === 0) throw broken;
  const closed = (flags & polylineFlag.closed) !== 0;
  if ((flags & polylineFlag.in3d) === 0) {
    const pen = new FigurePen(systemFor(record));
    const flat = vertices.filter((_, i) => i % 4 !== 2);
    drawBulges(pen, flat, numberOf(record, 30, 0), closed);
    return pen.done();
  }
  const pen = new FigurePen();
  const [x, y, z] = vertices;
  pen.moveTo(x, y, z);
  for (let i = 4; i < vertices.length; i += 4) pen.lineTo(vertices[i], vertices[i + 1], vertices[i + 2]);
  if (closed || vertices.length === 4) pen.lineTo(x, y, z);
  if (closed) pen.close();
  return pen.done();
}

function spline(record: DxfRecord): Figure {
  const pen = new FigurePen();
  const points = pointsOf(record, 10);
  const fitPoints = pointsOf(record, 11);
  const knots = numbersOf(record, 40);
  const weights = numbersOf(record, 41);
  agree(record, 73, points.length / 3);
  agree(record, 74, fitPoints.length / 3);
  if (points.length > 0) {
    agree(record, 72, knots.length);
    const degree = numberOf(record, 71, 3);
    if (degree > highestDegree) throw broken;
    drawSpline(
      { degree, knots, points, weights: weights.length > 0 ? weights : null },
      (x, y, z) => pen.moveTo(x, y, z),
      (curve) => pen.curveTo(curve),
    );
    return pen.done();
  }
  if (fitPoints.length < 6) throw broken;
  const hasEnds = record.codes.includes(12) && record.codes.includes(13);
  pen.moveTo(fitPoints[0], fitPoints[1], fitPoints[2]);
  for (const curve of curvesThrough(fitPoints, hasEnds ? [pointOf(record, 12), pointOf(record, 13)] : null))
    pen.curveTo(curve);
  return pen.done();
}

/** A count that the record states must be that of what it holds. */
function agree(record: DxfRecord, code: number, count: number): void {
  if (numberOf(record, code, count) !== count) throw broken;
}

/** x and y, which must be there, and z. */
export function pointOf(record: DxfRecord, code: number): Vector {
  return [neededNumber(record, code), neededNumber(record, code + 10), numberOf(record, code + 20, 0)];
}

function extrusionOf(record: DxfRecord): Vector {
  const given: Vector = [numberOf(record, 210, 0), numberOf(record, 220, 0), numberOf(record, 230, 0)];
  return given.every((part) => part === 0) ? [0, 0, 1] : given;
}

export function systemFor(record: DxfRecord): Map3 | null {
  return record.codes.includes(210) || record.codes.includes(230) ? systemOf(extrusionOf(record)) : null;
}
