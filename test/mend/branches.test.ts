/**
 * A branch that leaves its stem smoothly: no route can be shorter than the stem once and the branch twice but by the
 * stretch on which the two lie on each other, and none may be longer.
 */
import { expect, it } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf } from '../../src/geometry/polyline.js';
import { networkOf, touchMm } from '../../src/network/network.js';
import { readArtwork } from '../../src/read/index.js';
import { routeOf } from '../../src/route/plan.js';
import { toMotif } from '../../src/size/index.js';
import { randomFrom } from '../measure/lines.js';

it('is stitched there and back, and nothing more, however gently the two part', async () => {
  const random = randomFrom(31);
  for (let n = 0; n < 60; n++) {
    const x = 40 + 100 * random();
    const side = random() < 0.5 ? 1 : -1;
    const [reach, bend, height] = [10 + 60 * random(), 10 + 60 * random(), 5 + 40 * random()];
    const endX = Math.min(195, x + 20 + 80 * random());
    const endY = 50 + side * height;
    const branch = `M${x} 50C${x + reach} 50 ${endX - 0.3 * bend} ${endY - 0.3 * side * bend} ${endX} ${endY}`;
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100"><path fill="none" stroke="#000" d="M0 50H200${branch}"/></svg>`;
    const artwork = await readArtwork(new TextEncoder().encode(svg), 'branch.svg', defaultSetup);
    const motif = toMotif(artwork, defaultSetup);
    const [stem, twig] = motif.strokes.map(lengthOf);
    const line = lengthOf(routeOf(networkOf(motif.strokes, 1e6).graph, { linkWeight: 2 }).line);
    expect(line, svg).toBeLessThanOrEqual(stem + 2 * twig + touchMm);
    // The branch may come back to its stem, and then part of it is passed once; all of it is passed.
    expect(line, svg).toBeGreaterThan(stem + twig);
  }
});
