import { inches } from '../flavours.js';
import { arcTo, at, joined, lineTo, type Segment, type Stroke, scaled, shifted } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const lampMm = 15;
const reachMm = 54;
const beams = 12;
const seaMm = 4;

/** Every second beam is a little shorter. */
const reach = (edge: number) => (edge % 4 === 3 ? reachMm - 10 : reachMm);

/** Rays in and out round a lamp at (0, 0), from the horizon on the left to the horizon on the right. */
function light(): Stroke {
  const ray = (edge: number, radius: number): [number, number] => {
    const angle = Math.PI * (1 + edge / (beams - 1));
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  };
  const segments: Segment[] = [];
  for (let edge = 0; edge < beams - 1; edge++) {
    const inwards = edge % 2 === 0;
    const radius = inwards ? lampMm : Math.min(reach(edge), reach(edge + 1));
    segments.push(lineTo(...ray(edge, radius)), arcTo(radius, true, ...ray(edge + 1, radius)));
  }
  segments.push(lineTo(reachMm + seaMm, 0));
  return { from: at(-reachMm - seaMm, 0), segments };
}

const far = 0.76;

export const lighthouse: MotifDrawing = {
  name: 'lighthouse',
  title: 'Lighthouse',
  creator: 'Wilhelmina Quayside',
  description: 'Two lights on the horizon, one of them far away.',
  flavour: inches,
  stroke: joined(light(), shifted(scaled(light(), far), (reachMm + seaMm) * (1 + far), 0)),
};
