/** Lines chosen by layer, colour and dash, and lines that are named as guides. Colours: W3C, CSS Color Level 4, 6.1. */
import { describe, expect, test } from 'vitest';
import type { LineChoice } from '../../shared/artwork.js';
import { defaultLimits } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';

const wave = 'C30 0 60 0 100 40S170 80 200 40';
const drawing = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:d="urn:some-program" width="300mm" height="100mm" viewBox="0 0 300 100" fill="none">
  <g id="a1" d:label="Quilting" stroke="black"><path d="M0 40${wave}"/><g id="inner"><path d="M1 40${wave}"/></g></g>
  <g id="notes" stroke="red"><path d="M2 0H200"/><path d="M3 0H200" stroke="#f00"/><path d="M4 0H200" stroke="rgb(255, 0, 0)"/></g>
  <g color="#0072B2" stroke="currentColor"><path d="M5 0H200"/></g>
  <path d="M6 40${wave}" stroke="black" stroke-dasharray="4 2"/>
  <path d="M7 40${wave}" stroke="black" stroke-dasharray="4 0"/>
  <path d="M8 40${wave}" stroke="black" style="stroke-dasharray:none"/>
</svg>`;

/** The lines by the x at which they start, and the notes of some kinds. */
async function read(choice: Partial<LineChoice> = {}, svg = drawing) {
  const bytes = new TextEncoder().encode(svg);
  const { lines, notes } = await readArtwork(bytes, 'a.svg', {
    take: 'auto',
    limits: defaultLimits,
    ...choice,
  });
  return {
    starts: lines.map(({ coords }) => coords[0]),
    unchosen: notes.filter(({ kind }) => kind === 'unchosen').map(({ what, count }) => [what, count]),
    guides: notes
      .filter(({ kind }) => kind === 'guide')
      .map(({ what, count, remedy }) => [what, count, remedy]),
  };
}

describe('lines are chosen', () => {
  test('all of them where nothing is asked', async () => {
    expect(await read()).toMatchObject({ starts: [0, 1, 2, 3, 4, 5, 6, 7, 8], unchosen: [] });
  });

  test.each([
    [['quilting'], [0, 1]],
    [['a1'], []],
    [['inner'], [1]],
    [
      ['Inner', 'NOTES'],
      [1, 2, 3, 4],
    ],
  ])('by layer %j, whatever the case of its letters: %j', async (layers, starts) => {
    expect((await read({ layers })).starts).toEqual(starts);
  });

  test.each([
    ['#ff0000', [2, 3, 4]],
    ['rgb(100% 0% 0%)', [2, 3, 4]],
    ['#0072b2', [5]],
    ['Black', [0, 1, 6, 7, 8]],
  ])('by colour %s, however it is written: %j', async (colour, starts) => {
    expect((await read({ colours: [colour] })).starts).toEqual(starts);
  });

  test('without the dashed ones: a pattern without gaps is none', async () => {
    const { starts, unchosen } = await read({ skipDashed: true });
    expect(starts).toEqual([0, 1, 2, 3, 4, 5, 7, 8]);
    expect(unchosen).toEqual([['dashed', 1]]);
  });
});

describe('lines that look like guides are named with what leaves them out', () => {
  test('dashed, and straight in a colour of its own', async () => {
    expect((await read()).guides).toEqual([
      ['straight line in the colour #ff0000', 3, '--colour "#000000"'],
      ['straight line in the colour #0072b2', 1, '--colour "#000000"'],
      ['dashed line', 1, '--skip-dashed'],
    ]);
  });

  test('straight in a layer of its own', async () => {
    const layers = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="100mm" fill="none" stroke="#000">
      <g id="Line"><path d="M0 40${wave}"/></g><g id="Centre"><path d="M0 40H200"/></g></svg>`;
    expect((await read({}, layers)).guides).toEqual([
      ['straight line in the layer "Centre"', 1, '--layer "Line"'],
    ]);
  });

  const drawnIn = (inside: string) =>
    read(
      {},
      `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="100mm" fill="none" stroke="#000">${inside}</svg>`,
    );
  const bar = '<path d="M0 40H200"/>';

  test('with no option where none leaves them out and nothing else', async () => {
    const inGroup = (id: string, inside: string) => `<g id="${id}">${inside}</g>`;
    const line = `<path d="M0 40${wave}"/>`;
    const short = '<path d="M0 90C9 0 9 0 20 90"/>';
    const guide = ['straight line in the layer "Centre"', 1, undefined];
    for (const inside of [
      // The line lies in no layer; in one that the bar lies in too; in two.
      line + inGroup('Centre', bar),
      inGroup('Line', line + inGroup('Centre', bar)),
      inGroup('Line', line) + inGroup('Loop', short) + inGroup('Centre', bar),
    ])
      expect((await drawnIn(inside)).guides, inside).toEqual([guide]);
    const blue = short.replace('/>', ' stroke="blue"/>');
    expect((await drawnIn(line + blue + bar.replace('/>', ' stroke="red"/>'))).guides).toEqual([
      ['straight line in the colour #ff0000', 1, undefined],
    ]);
  });

  test('but not where they link two others, as from row to row', async () => {
    const rows = '<path d="M0 40C0 0 99 0 200 40"/><path d="M200 90C99 20 99 20 0 90"/>';
    const inLayer = (...d: string[]) => `<g id="Link">${d.map((each) => `<path d="${each}"/>`).join('')}</g>`;
    const guides = async (...d: string[]) => (await drawnIn(rows + inLayer(...d))).guides;
    expect(await guides('M200 40H210V90H200')).toEqual([]);
    const named = [['straight line in the layer "Link"', 1, undefined]];
    // From the one end of a line to its other, from a line to nothing, from nothing to nothing.
    for (const d of ['M0 40H200', 'M0 40V0', 'M5 40V0', 'M0 40V90H-5V40Z'])
      expect(await guides('M200 40V90', d), d).toEqual(named);
  });

  test('of more than twenty layers not each by its name', async () => {
    const layers = Array.from({ length: 25 }, (_, i) => `<g id="g${i}">${bar}</g>`).join('');
    const { guides } = await drawnIn(`<g id="Line"><path d="M0 40${wave}"/></g>${layers}`);
    expect(guides).toHaveLength(21);
    expect(guides.at(-1)).toEqual(['straight line in a layer of its own', 5, '--layer "Line"']);
  });

  test('a motif of straight lines, of two coloured waves, or dashed throughout has none', async () => {
    for (const inside of [
      '<path stroke="red" d="M0 0H9V9"/><path stroke="blue" d="M0 9H30V20H9"/>',
      `<path stroke="red" d="M0 40${wave}"/><path stroke="blue" d="M0 60${wave}"/>`,
      `<g stroke="red" stroke-dasharray="2"><path d="M0 40${wave}"/><path d="M0 40H200"/></g>`,
    ])
      expect(
        (await read({}, `<svg xmlns="http://www.w3.org/2000/svg" fill="none">${inside}</svg>`)).guides,
      ).toEqual([]);
  });
});
