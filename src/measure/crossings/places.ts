/**
 * From meetings of two passes to places: meetings nearer than 0.05 mm to one another (also by way of others) are
 * one place, which lies at the clearest of them, the one of the largest angle, so that places lie 0.05 mm apart and
 * more.
 */
import type { Crossing } from '../../../shared/study.js';
import { linkedWithin } from '../../near/linked.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import type { Meetings } from '../../network/meetings.js';

const placeMm = 0.05;
/** Along the line, two meetings in one place that are nearer than this are on the same pass, mm. */
const samePassMm = 2 * placeMm;

export function placesOf(meetings: Meetings, index: SegmentIndex): Crossing[] {
  const places = new Float64Array(2 * meetings.count);
  for (let k = 0; k < meetings.count; k++) {
    places[2 * k] = meetings.x(k);
    places[2 * k + 1] = meetings.y(k);
  }
  return linkedWithin(places, placeMm)
    .members()
    .map((group) => (group.length === 1 ? placeOfOne(group[0], meetings) : placeOf(group, meetings, index)));
}

function placeOfOne(k: number, meetings: Meetings): Crossing {
  return { at: { x: meetings.x(k), y: meetings.y(k) }, angleDeg: meetings.angleDeg(k), passes: 2 };
}

function placeOf(group: readonly number[], meetings: Meetings, index: SegmentIndex): Crossing {
  let clearest = group[0];
  let angleDeg = Infinity;
  for (const k of group) {
    if (meetings.angleDeg(k) >= meetings.angleDeg(clearest)) clearest = k;
    angleDeg = Math.min(angleDeg, meetings.angleDeg(k));
  }
  return {
    at: { x: meetings.x(clearest), y: meetings.y(clearest) },
    angleDeg,
    passes: passesThrough(group, meetings, index),
  };
}

/** How many stretches of the line meet in one place. */
function passesThrough(group: readonly number[], meetings: Meetings, index: SegmentIndex): number {
  const visits = new Map<number, number[]>();
  for (const k of group) {
    for (const which of [0, 1]) {
      const stroke = index.strokeOf[meetings.segment(k, which)];
      const known = visits.get(stroke);
      if (known) known.push(meetings.alongMm(k, which));
      else visits.set(stroke, [meetings.alongMm(k, which)]);
    }
  }
  let passes = 0;
  for (const [stroke, found] of visits) {
    const alongMm = Float64Array.from(found).sort();
    passes++;
    for (let i = 1; i < alongMm.length; i++) if (alongMm[i] - alongMm[i - 1] > samePassMm) passes++;
    const wentOnMm = alongMm[alongMm.length - 1] - alongMm[0];
    const isOneAround = index.closed[stroke] && index.strokeLengthMm(stroke) - wentOnMm <= samePassMm;
    if (isOneAround && wentOnMm > samePassMm) passes--;
  }
  return Math.max(2, passes);
}
