/** A line as a pen of some width would leave it on paper: its outline, in the two ways in which programs make it. */
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import type { Polyline } from '../shared/plane.js';
import { pointsOf, polylineOf } from '../src/geometry/polyline.js';

/** Merged: the edge of the inked area, one closed ring outside and one round each hole. */
export function bufferOutline(line: Polyline, penMm: number): Polyline[] {
  const coordinates = [...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y));
  const area = BufferOp.bufferOp(new GeometryFactory().createLineString(coordinates), penMm / 2, 16);
  const rings = [area.getExteriorRing()];
  for (let i = 0; i < area.getNumInteriorRing(); i++) rings.push(area.getInteriorRingN(i));
  return rings.map((ring) => polylineOf(ring.getCoordinates()));
}

/** Walked: out along one side and back along the other, crossing itself where the line does, closed. */
export function walkedOutline(line: Polyline, penMm: number): Polyline {
  const points = [...pointsOf(line)].filter(({ x, y }, i, all) => x !== all[i - 1]?.x || y !== all[i - 1]?.y);
  const normals = points.slice(1).map((to, i) => {
    const from = points[i];
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    return { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
  });
  const side = (half: number) =>
    points.map(({ x, y }, i) => {
      const before = normals[Math.max(i - 1, 0)];
      const after = normals[Math.min(i, normals.length - 1)];
      // The mitre: as far out as both segments moved sideways by `half` meet, up to ten pens, as drawing programs limit it.
      const reach = half / Math.max(1 + before.x * after.x + before.y * after.y, 0.02);
      return { x: x + reach * (before.x + after.x), y: y + reach * (before.y + after.y) };
    });
  const out = side(penMm / 2);
  const back = side(-penMm / 2).reverse();
  return polylineOf([...out, ...back, out[0]]);
}
