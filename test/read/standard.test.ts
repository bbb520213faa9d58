/**
 * What the standard says where renderers differ or the reference is silent: context paint and fallbacks (SVG 2, 13.2),
 * radii in error (SVG 2, 10.4), transforms of nested drawings (SVG 2, 5.1.4), the single transform properties and
 * transform-box (CSS Transforms Level 2, 5 and 6; Level 1, 6). Places are worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { corners, inMm, notesOf, read } from './read.js';

/** Corners of the lines drawn, rounded to a thousandth. */
async function lines(inner: string): Promise<number[][][]> {
  const artwork = await read(inMm(inner, 'style="stroke:none"'), { take: 'lines' });
  return corners(artwork).map((line) =>
    line.map((place) => place.map((value) => Math.round(value * 1000) / 1000 || 0)),
  );
}

const drawing = (attributes: string) =>
  `<defs><path id="a" d="M0 0h9" fill="none" stroke="context-stroke"/><path id="b" d="M0 1h9" fill="none" stroke="context-fill"/></defs>${attributes}`;

describe('context paint', () => {
  it.each([
    ['the stroke of the use', '<use href="#a" stroke="red"/>', 1],
    ['none, where the use has none', '<use href="#a" stroke="none"/>', 0],
    ['the fill of the use', '<use href="#b" fill="red"/>', 1],
    ['none, where it is not filled', '<use href="#b" fill="none" stroke="red"/>', 0],
    ['transparent, where it is', '<use href="#a" stroke="transparent"/>', 0],
    ['nothing outside a use', '<path d="M0 0h9" stroke="context-stroke"/>', 0],
    [
      'handed on by a use within a use',
      '<defs><use id="c" href="#a" stroke="context-fill"/></defs><use href="#c" fill="red"/>',
      1,
    ],
    [
      'none handed on',
      '<defs><use id="c" href="#a" stroke="context-fill"/></defs><use href="#c" fill="none" stroke="red"/>',
      0,
    ],
    [
      'inherited into the copy',
      '<defs><g id="c" stroke="context-stroke"><path d="M0 0h9"/></g></defs><use href="#c" stroke="red"/>',
      1,
    ],
  ])('%s', async (_, inner, count) => {
    expect(await lines(drawing(inner))).toHaveLength(count);
  });

  it('does not make a copy of itself endless', async () => {
    const inner = '<g id="g"><path d="M0 0h9" stroke="red"/><use href="#g" stroke="context-stroke"/></g>';
    expect(await lines(inner)).toHaveLength(1);
    const mutual =
      '<defs><g id="p"><use href="#q" stroke="context-stroke"/></g><g id="q"><path d="M0 0h9" stroke="context-stroke"/><use href="#p"/></g></defs><use href="#p" stroke="red"/>';
    expect(await lines(mutual)).toHaveLength(1);
  });
});

describe('a reference to what is no paint', () => {
  const rect = '<defs><rect id="r" width="5" height="5"/><linearGradient id="l"/></defs>';
  it.each([
    ['url(#r)', 0],
    ['url(#r) none', 0],
    ['url(#r) red', 1],
    ['url(#l)', 0],
    ['url(#l) red', 1],
    ['url(#nowhere) none', 0],
  ])('stroke="%s"', async (stroke, count) => {
    expect(await lines(`${rect}<path d="M0 0h9" fill="none" stroke="${stroke}"/>`)).toHaveLength(count);
  });
});

it('a negative radius of an ellipse is no radius: the other one counts', async () => {
  const [[start]] = await lines('<ellipse cx="50" cy="50" rx="-20" ry="10" stroke="red" fill="none"/>');
  expect(start).toEqual([60, 50]);
  const [[turned]] = await lines(
    '<ellipse cx="50" cy="50" rx="20" style="ry:-3px" stroke="red" fill="none"/>',
  );
  expect(turned).toEqual([70, 50]);
  expect(await lines('<ellipse cx="50" cy="50" rx="-20" ry="-10" stroke="red"/>')).toEqual([]);
});

it('a nested drawing is transformed once, before its x and y and its viewBox', async () => {
  // (1, 2) in the viewBox of 20 shown at 40 is (2, 4), at (10, 10) it is (12, 14), turned by 90 degrees (-14, 12).
  const inner =
    '<svg x="10" y="10" width="40" height="40" viewBox="0 0 20 20" overflow="visible" transform="rotate(90)"><path d="M1 2h1" stroke="red"/></svg>';
  expect(await lines(inner)).toEqual([
    [
      [-14, 12],
      [-14, 14],
    ],
  ]);
});

describe('single transform properties', () => {
  it.each([
    ['translate: 3px 4px', [4, 6]],
    ['translate: 3px', [4, 2]],
    ['scale: 2', [2, 4]],
    ['scale: 200% 3', [2, 6]],
    ['rotate: 90deg', [-2, 1]],
    ['rotate: z 0.25turn', [-2, 1]],
    // In the fixed order translate, rotate, scale, transform, however they are written: (1, 2) moved by the list to
    // (2, 2), doubled to (4, 4), turned to (-4, 4), moved to (6, 4).
    ['transform: translate(1px); scale: 2; translate: 10px; rotate: 90deg', [6, 4]],
    ['scale: 2; transform-origin: 1px 2px', [1, 2]],
    ['rotate: x 90deg', [1, 2]],
    ['translate: none; scale: wide', [1, 2]],
  ])('%s', async (style, start) => {
    expect((await lines(`<path d="M1 2h1" stroke="red" style="${style}"/>`))[0][0]).toEqual(start);
  });

  it('are no attributes', async () => {
    expect((await lines('<path d="M1 2h1" stroke="red" rotate="90deg" scale="2"/>'))[0][0]).toEqual([1, 2]);
  });
});

describe('transform-box', () => {
  // The box is from (10, 10) to (20, 30), its middle (15, 20).
  const shape = (style: string) =>
    lines(`<path d="M10 10L20 30" stroke="red" stroke-width="2" style="${style}"/>`);

  it.each([
    ['transform: rotate(180deg); transform-origin: center; transform-box: fill-box', [20, 30]],
    ['transform: scale(2); transform-box: fill-box', [10, 10]],
    ['transform: translate(50%, 10%); transform-box: fill-box', [15, 12]],
    // Half the line all round: the corner is (9, 9).
    ['transform: scale(2); transform-box: stroke-box', [11, 11]],
    ['transform: scale(2); transform-box: view-box', [20, 20]],
    ['rotate: 180deg; transform-origin: 50% 50%; transform-box: content-box', [20, 30]],
  ])('%s', async (style, start) => {
    expect((await shape(style))[0][0]).toEqual(start);
  });

  it('of a group is not read, and that is said', async () => {
    const artwork = await read(
      inMm('<g style="transform-box:fill-box;transform:scale(2)"><path d="M1 2h1" stroke="red"/></g>'),
    );
    expect(notesOf(artwork, 'other').map(({ what }) => what)).toEqual(['transform-box of a g']);
  });
});
