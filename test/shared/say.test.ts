/** Counted things. The plurals are those a dictionary of English gives for the first noun of each phrase. */
import { expect, it } from 'vitest';
import { sayIn } from '../../shared/say.js';

const say = sayIn('in');

it.each([
  // Guides, as they are named by colour and layer.
  ['straight line in the colour #0000ff', 'straight lines in the colour #0000ff'],
  ['straight line in the layer "Frame of in"', 'straight lines in the layer "Frame of in"'],
  // Kinds of DXF entity, and of SVG elements that draw no line.
  ['mesh', 'meshes'],
  ['body', 'bodies'],
  ['helix', 'helixes'],
  ['entity without a kind', 'entities without a kind'],
  ['hatching', 'hatchings'],
  ['canvas', 'canvases'],
  ['copy of a stroke', 'copies of a stroke'],
  ['other like it', 'others like it'],
  ['stretch', 'stretches'],
  ['pass', 'passes'],
  ['day', 'days'],
  ['dark picture edge', 'dark picture edges'],
])('%s: 2 %s', (one, many) => {
  expect([1, 2, 1250].map((n) => say.count(n, one))).toEqual([`1 ${one}`, `2 ${many}`, `1,250 ${many}`]);
});
