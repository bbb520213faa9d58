/**
 * What is seen and what is hidden: CSS Cascade Level 4 (6), Selectors Level 4 (17), SVG 2 (painting, 13). The small
 * cases compare most of this with the reference; here is what the reference does not know, and what is said of
 * lines left out.
 */
import { describe, expect, it } from 'vitest';
import { corners, inMm, notesOf, read } from './read.js';

/** Heights at which a line is drawn, of those at 10, 20 and 30. */
async function drawn(inner: string): Promise<number[]> {
  const artwork = await read(inMm(inner, 'style="stroke:none"'), { take: 'lines' });
  return corners(artwork).map((line) => line[0][1]);
}

const three =
  '<path class="a" d="M0 10h9"/><path class="a b" id="k" d="M0 20h9"/><path class="c" d="M0 30h9"/>';

describe('selectors', () => {
  it.each([
    ['path:not(.a)', [30]],
    ['path:last-child', [30]],
    [':nth-child(2n)', [10, 30]],
    ['.a ~ .c', [30]],
    ['svg > .b', [20]],
    ['[class~="b"]', [20]],
    ['[class$="c"]', [30]],
    ['.a:hover', []],
    ['.a::before', []],
    ['PATH', []],
  ])('%s', async (selector, expected) => {
    expect(await drawn(`<style>${selector}{stroke:red}</style>${three}`)).toEqual(expected);
  });

  it.each([
    ['an id over many classes', '#k{stroke:none}.a.b.a.b{stroke:red}', [10, 30]],
    ['a class over many types', '.c{stroke:none}svg path{stroke:red}', [10, 20]],
    [':where() weighs nothing', ':where(#k){stroke:none}path{stroke:red}', [10, 20, 30]],
    [':is() weighs as its heaviest', ':is(#k,path){stroke:none}.c{stroke:red}.b{stroke:red}', []],
    ['the later of equals', 'path{stroke:red}path{stroke:none}', []],
    ['!important over an id', '#k{stroke:none}path{stroke:red!important}', [10, 20, 30]],
  ])('%s', async (_, sheet, expected) => {
    expect(await drawn(`<style>path{stroke:red}${sheet}</style>${three}`)).toEqual(expected);
  });

  it('a colour with the same in a colour profile after it is a colour (SVG 1.1, 11.2)', async () => {
    expect(await drawn(`<style>.c{stroke:none}.c{stroke:#f00 icc-color(inks,0,1)}</style>${three}`)).toEqual([
      30,
    ]);
  });

  it('takes what @media says for screens, and fetches nothing', async () => {
    const sheet =
      '@import url("http://example.org/x.css");@media print{path{stroke:none}}@media screen and (min-width:1px){path{stroke:red}}';
    expect(await drawn(`<style>${sheet}</style>${three}`)).toEqual([10, 20, 30]);
  });
});

it('geometry may stand in style sheets (SVG 2, 9.3.2 and chapter 10)', async () => {
  const artwork = await read(
    inMm(`<style>path{d:path("M1 2h3")}rect{x:1cm;width:20px;height:5px}</style><path d="M9 9h9"/><rect/>`),
  );
  expect(corners(artwork)[0]).toEqual([
    [1, 2],
    [4, 2],
  ]);
  expect(corners(artwork)[1][0][0]).toBeCloseTo(10 / (25.4 / 96), 3);
});

describe('lines that the file hides', () => {
  it.each([
    ['not displayed', '<g display="none"><path d="M5 6h9"/></g>'],
    ['not displayed', '<g transform="scale(0)"><path d="M5 6h9"/></g>'],
    ['invisible', '<path visibility="hidden" d="M5 6h9"/>'],
    ['transparent', '<g opacity="0"><path d="M5 6h9"/></g>'],
    ['transparent', '<path stroke="#0000" d="M5 6h9"/>'],
    ['transparent', '<path stroke="rgb(0 0 0 / 0%)" d="M5 6h9"/>'],
    ['no paint', '<path stroke="none" d="M5 6h9"/>'],
    ['no paint', '<path stroke-width="0" d="M5 6h9"/>'],
  ])('are noted as %s: %s', async (what, inner) => {
    const artwork = await read(inMm(`${inner}<path d="M0 0h5"/>`));
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [5, 0],
      ],
    ]);
    expect(notesOf(artwork, 'hidden').map((note) => [note.what, note.count])).toEqual([[what, 1]]);
  });

  it('are gathered: one note, the count, twenty places', async () => {
    const artwork = await read(inMm('<path stroke="none" d="M5 6h9"/>'.repeat(50)));
    expect(notesOf(artwork, 'hidden')).toHaveLength(1);
    expect(artwork.notes[0].count).toBe(50);
    expect(artwork.notes[0].places).toHaveLength(20);
    expect(artwork.notes[0].places[0]).toEqual({ x: 5, y: 6 });
  });

  it('unused definitions are none', async () => {
    const artwork = await read(
      inMm('<defs><path d="M0 0h5"/></defs><symbol><path d="M0 0h5"/></symbol><path d="M0 0h5"/>'),
    );
    expect(artwork.notes).toEqual([]);
  });
});

describe('which lines are taken', () => {
  const drawing = inMm('<path d="M0 0h9"/><path stroke="none" fill="red" d="M0 10h9v9"/>');

  it('lines: stroked ones only, fills noted', async () => {
    const artwork = await read(drawing, { take: 'lines' });
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
    expect(notesOf(artwork, 'fill').map(({ count, places }) => [count, places])).toEqual([
      [1, [{ x: 0, y: 10 }]],
    ]);
  });

  it('shapes: all by their outline, an open fill left open', async () => {
    const artwork = await read(drawing, { take: 'shapes' });
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
      [
        [0, 10],
        [9, 10],
        [9, 19],
      ],
    ]);
    // A shape without a line is said to be read so, and how it is left out where a line is left then.
    expect(artwork.notes).toEqual([
      {
        kind: 'outlines',
        what: 'filled shape',
        count: 1,
        places: [{ x: 0, y: 10 }],
        remedy: '--take lines',
      },
    ]);
  });

  it('auto: lines where there are any, else shapes', async () => {
    expect(corners(await read(drawing))).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
    const filled = inMm('<path stroke="none" fill="red" d="M0 10h9v9"/>');
    expect(corners(await read(filled))).toEqual([
      [
        [0, 10],
        [9, 10],
        [9, 19],
      ],
    ]);
  });
});

describe('what is drawn but no line', () => {
  it('is named: text, pictures, pages, markers', async () => {
    const artwork = await read(
      inMm(`<text x="5" y="6">row</text><image x="7" y="8"/><foreignObject/>
        <marker id="m"><path d="M0 0h5"/></marker><path marker-end="url(#m)" d="M0 0h5"/><text display="none">x</text>`),
    );
    expect(artwork.notes.map(({ kind, what, count }) => [kind, what, count])).toEqual([
      ['text', 'text', 1],
      ['image', 'picture', 1],
      ['other', 'embedded page', 1],
      ['other', 'marker', 1],
    ]);
    expect(artwork.notes[0].places).toEqual([{ x: 5, y: 6 }]);
  });

  it('dots: paths of one point', async () => {
    const artwork = await read(
      inMm('<path d="M1 2z"/><path d="M3 4"/><path d="M5 6l0 0"/><path d="M0 0h9M7 8"/>'),
    );
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
    expect(notesOf(artwork, 'dot')[0].places).toEqual([
      { x: 1, y: 2 },
      { x: 3, y: 4 },
      { x: 5, y: 6 },
    ]);
  });

  it('copies of nothing and of themselves', async () => {
    const artwork = await read(
      inMm('<use href="#x"/><use href="a.svg#y"/><g id="g"><path d="M0 0h9"/><use href="#g"/></g>'),
    );
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
    expect(notesOf(artwork, 'missing').map(({ what }) => what)).toEqual(["'#x'", "'a.svg#y'", "'#g'"]);
  });
});

describe('clips and masks', () => {
  it.each([
    [
      'a clip round all of it',
      '<clipPath id="c"><rect width="200" height="100"/></clipPath>',
      'clip-path="url(#c)"',
      [],
    ],
    [
      'a round clip round all of it',
      '<clipPath id="c"><circle r="90"/></clipPath>',
      'clip-path="url(#c)"',
      [],
    ],
    [
      'a clip through it',
      '<clipPath id="c"><rect width="30" height="50"/></clipPath>',
      'clip-path="url(#c)"',
      ["clip 'c'"],
    ],
    [
      'a round clip through it',
      '<clipPath id="c"><circle r="40"/></clipPath>',
      'clip-path="url(#c)"',
      ["clip 'c'"],
    ],
    ['a clip of nothing', '<clipPath id="c"/>', 'clip-path="url(#c)"', ["clip 'c'"]],
    [
      'a mask through it',
      '<mask id="m"><rect width="30" height="50" fill="#fff"/></mask>',
      'mask="url(#m)"',
      ["mask 'm'"],
    ],
    ['a clip that is not there', '', 'clip-path="url(#c)"', []],
  ])('%s', async (_, definition, attribute, expected) => {
    const artwork = await read(inMm(`${definition}<g ${attribute}><path d="M0 0h50v20"/></g>`));
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [50, 0],
        [50, 20],
      ],
    ]);
    expect(notesOf(artwork, 'cut').map(({ what }) => what)).toEqual(expected);
  });

  it('the edge of a nested drawing cuts what lies beyond it, unless it overflows', async () => {
    const nested = (more: string) =>
      inMm(`<svg id="in" width="30" height="30" ${more}><path d="M0 0h50"/></svg>`);
    expect(notesOf(await read(nested('')), 'cut').map(({ what }) => what)).toEqual(["edge of 'in'"]);
    expect((await read(nested('overflow="visible"'))).notes).toEqual([]);
  });
});
