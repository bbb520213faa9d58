/** Lines that come to a place again and again and dally there, and how many passes that makes, by walking them. */
import type { Point, Polyline } from '../../shared/plane.js';
import { polylineOf } from '../../src/geometry/polyline.js';

/**
 * How many passes run through the disc about a place, by the definition: of each piece what lies in the disc is a chord, and
 * the line gets farthest from the place at its points.
 */
export function passesBy(drawn: Polyline, at: Point, radiusMm: number): number {
  let passes = 0;
  let insideMm = 0;
  let isGone = true;
  const close = () => {
    if (insideMm > 0) passes += Math.max(1, Math.floor(insideMm / (2 * radiusMm) + 1e-6));
    insideMm = 0;
  };
  for (let i = 2; i < drawn.length; i += 2) {
    const ax = drawn[i - 2] - at.x;
    const ay = drawn[i - 1] - at.y;
    const ux = drawn[i] - drawn[i - 2];
    const uy = drawn[i + 1] - drawn[i - 1];
    const mm = Math.sqrt(ux * ux + uy * uy);
    const along = -(ax * ux + ay * uy) / mm;
    const half = Math.sqrt(Math.max(0, radiusMm ** 2 - (ax * uy - ay * ux) ** 2 / mm ** 2));
    const chordMm = Math.min(mm, along + half) - Math.max(0, along - half);
    if (half > 0 && chordMm > 0) {
      if (isGone) close();
      isGone = false;
      insideMm += chordMm;
    }
    if ((ax + ux) ** 2 + (ay + uy) ** 2 > 4 * radiusMm ** 2) isGone = true;
  }
  close();
  return passes;
}

/** A line that comes to the middle again and again: straight through, round a bend, or to and fro there. */
export function dallying(random: () => number, visits: number, aboutMm: number): Polyline {
  const far = () => {
    const angle = 2 * Math.PI * random();
    return { x: 20 * Math.cos(angle), y: 20 * Math.sin(angle) };
  };
  const near = () => ({ x: aboutMm * (random() - 0.5), y: aboutMm * (random() - 0.5) });
  return polylineOf(
    Array.from({ length: visits }, () => [
      far(),
      ...Array.from({ length: Math.floor(5 * random()) }, near),
      far(),
    ]).flat(),
  );
}
