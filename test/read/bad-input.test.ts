/**
 * Bad input: each kind ends in one sentence or in a right result. Well-formedness after XML 1.0 (fifth edition);
 * encodings after its appendix F. Limits are the setup's, most of them set low here so that the tests stay quick.
 */
import { describe, expect, it } from 'vitest';
import { corners, inMm, notesOf, read, refusal } from './read.js';

const ns = 'xmlns="http://www.w3.org/2000/svg"';
const line = '<path stroke="#000" d="M0 0h96"/>';
const small = `<svg ${ns}>${line}</svg>`;
const inch = [
  [
    [0, 0],
    [25.4, 0],
  ],
];

function utf16(text: string, littleEndian: boolean, mark: boolean): Uint8Array {
  const all = (mark ? '\ufeff' : '') + text;
  const bytes = new DataView(new ArrayBuffer(2 * all.length));
  for (let i = 0; i < all.length; i++) bytes.setUint16(2 * i, all.charCodeAt(i), littleEndian);
  return new Uint8Array(bytes.buffer);
}

describe('encodings', () => {
  it.each([
    ['UTF-16, little end first, with a mark', utf16(small, true, true)],
    ['UTF-16, big end first, with a mark', utf16(small, false, true)],
    ['UTF-16, little end first, no mark', utf16(small, true, false)],
    ['UTF-16, big end first, no mark', utf16(small, false, false)],
    ['UTF-8 with a mark', new TextEncoder().encode(`\ufeff${small}`)],
    [
      'UTF-8 that says it is UTF-16',
      new TextEncoder().encode(`<?xml version="1.0" encoding="utf-16"?>${small}`),
    ],
    ['spaces before the root', new TextEncoder().encode(`\n  ${small}`)],
  ])('%s', async (_, bytes) => {
    expect(corners(await read(bytes))).toEqual(inch);
  });

  it('reads what the file declares', async () => {
    const text = `<?xml version="1.0" encoding="ISO-8859-1"?><svg ${ns}><title>D\u00fcne</title>${line}</svg>`;
    const { credit } = await read(Uint8Array.from(text, (c) => c.charCodeAt(0)));
    expect(credit.title).toBe('D\u00fcne');
  });

  it('refuses an encoding nobody knows, and bytes that are not what they claim', async () => {
    expect(await refusal(`<?xml version="1.0" encoding="klingon"?>${small}`)).toMatch(
      /swell\.svg, line 1.*"klingon"/,
    );
    const broken = new TextEncoder().encode(`<svg ${ns}>\n<title>x</title>${line}</svg>`);
    broken[broken.indexOf(0x78, 45)] = 0xff;
    expect(await refusal(broken)).toMatch(/swell\.svg, line 2.*utf-8/);
  });
});

describe('files of another kind are named in plain words', () => {
  it.each([
    ['a GIF picture', 'GIF89a'],
    ['a PDF document', '%PDF-1.7'],
    ['a PostScript drawing', '%!PS-Adobe-3.0'],
    ['a ZIP archive', 'PK\u0003\u0004'],
    ['a compressed file', '\u001f\u008b\u0008'],
    ['a binary DXF drawing', 'AutoCAD Binary DXF\r\n\u001a\0'],
    ['a DWG drawing', 'AC1032\0\0'],
    ['a file of unknown kind', 'ab\0\0cd'],
    ['a text file', 'stitch this'],
    ['empty', ''],
    ['blank', ' \n\t'],
  ])('%s', async (name, bytes) => {
    expect(await refusal(Uint8Array.from(bytes, (c) => c.charCodeAt(0)))).toContain(name);
  });

  it('a root that is not svg is named', async () => {
    expect(await refusal('<html><body/></html>')).toMatch(/is a web page, not an SVG drawing/);
    expect(await refusal('<!DOCTYPE html><html></html>')).toMatch(/is a web page/);
  });
});

describe('XML', () => {
  it.each([
    ['a tag left open', `<svg ${ns}>\n<g>\n${line}</svg>`, 3],
    ['a file cut off', `<svg ${ns}>\n${line}`, 2],
    ['an attribute without quotes', `<svg ${ns}>\n<path d=M0 /></svg>`, 2],
    ['an attribute twice', `<svg ${ns}>\n<path d="" d=""/></svg>`, 2],
    ['an entity that nobody declared', `<svg ${ns}>\n&nbsp;</svg>`, 2],
    ['a prefix that nobody declared', `<svg ${ns}>\n\n<x:g/></svg>`, 3],
    ['a character that XML forbids', `<svg ${ns}>\n\u0001</svg>`, 2],
    ['text after the end', `${small}\ntail`, 2],
  ])('%s: file, line and column', async (_, text, fileLine) => {
    expect(await refusal(text)).toMatch(
      new RegExp(`^folder/swell\\.svg, line ${fileLine}, column \\d+: .*well-formed`),
    );
  });

  it('a root without the namespace, or with a wrong one, is read and noted', async () => {
    for (const root of ['<svg>', '<svg xmlns="http://www.w3.org/2000/SVG">']) {
      const artwork = await read(`${root}${line}</svg>`);
      expect(corners(artwork)).toEqual(inch);
      expect(notesOf(artwork, 'no-namespace')).toHaveLength(1);
    }
  });
});

describe('entities', () => {
  const withSubset = (subset: string, inner: string) => `<!DOCTYPE svg [${subset}]><svg ${ns}>${inner}</svg>`;

  it('are written out in attributes, text and styles; quotes in them stay text', async () => {
    const artwork = await read(
      withSubset(
        `<!ENTITY d 'M0 0h96'><!ENTITY who "Rope &#38;amp; &q;"><!ENTITY q '"it&#39;s"'>`,
        '<title>&who;</title><path stroke="#000" d="&d;" id="a &q; b"/>',
      ),
    );
    expect(corners(artwork)).toEqual(inch);
    expect(artwork.credit.title).toBe('Rope & "it\'s"');
  });

  it('keep the lines of the file in complaints', async () => {
    expect(await refusal(withSubset('<!ENTITY a "x\n\n\nx">', '<title>&a;</title>\n<g>'))).toMatch(
      /line 5, /,
    );
  });

  it('of other files are left out, never fetched', async () => {
    const artwork = await read(
      withSubset('<!ENTITY e SYSTEM "file:///etc/passwd">', `<title>a&e;b</title>${line}`),
    );
    expect(artwork.credit.title).toBe('ab');
  });

  it('in comments and CDATA are left alone', async () => {
    const artwork = await read(
      withSubset('<!ENTITY e "x">', `<!-- &e; --><title><![CDATA[&e;]]></title>${line}`),
    );
    expect(artwork.credit.title).toBe('&e;');
  });

  it.each([
    [
      'a bomb',
      Array.from({ length: 60 }, (_, i) => `<!ENTITY a${i + 1} "&a${i};&a${i};">`).join('') +
        '<!ENTITY a0 "ha">',
    ],
    ['many of one large one', `<!ENTITY a60 "${'x'.repeat(3_000_000)}">`],
  ])('%s stops at the limit', async (_, subset) => {
    expect(await refusal(withSubset(subset, `<title>${'&a60;'.repeat(5)}</title>`))).toMatch(
      /entities.*10,485,760/,
    );
  });

  it('that contain themselves are refused', async () => {
    expect(await refusal(withSubset('<!ENTITY a "&b;"><!ENTITY b "&a;">', '<g>&a;</g>'))).toMatch(
      /contains itself/,
    );
  });
});

describe('limits: one sentence that names it', () => {
  it('nesting, however deep', async () => {
    expect(await refusal(`<svg ${ns}>${'<g>'.repeat(100_000)}`)).toMatch(/line 1, .* 1,000 deep/);
    const deep = `<svg ${ns}>${'<g>'.repeat(998)}${line}${'</g>'.repeat(998)}</svg>`;
    expect(corners(await read(deep))).toEqual(inch);
  });

  it('nesting through copies', async () => {
    const chain = Array.from({ length: 600 }, (_, i) => `<g id="a${i}"><use href="#a${i + 1}"/></g>`).join(
      '',
    );
    expect(await refusal(`<svg ${ns}>${chain}<path id="a600"/></svg>`)).toMatch(/1,000 deep/);
  });

  it('elements, in the file and copied', async () => {
    const limits = { elements: 1000 };
    expect(await refusal(`<svg ${ns}>${'<g/>'.repeat(1000)}</svg>`, { limits })).toMatch(/1,000 elements/);
    const copied = `<svg ${ns}><defs><g id="a">${'<g/>'.repeat(100)}</g></defs>${'<use href="#a"/>'.repeat(20)}</svg>`;
    expect(await refusal(copied, { limits })).toMatch(/1,000 elements, copies included/);
  });

  it('copies', async () => {
    const doubled = Array.from(
      { length: 40 },
      (_, i) => `<g id="a${i + 1}">${`<use href="#a${i}"/>`.repeat(2)}</g>`,
    );
    const bomb = `<svg ${ns}><g id="a0"/>${doubled.join('')}</svg>`;
    expect(await refusal(bomb, { limits: { useCopies: 5000 } })).toMatch(/5,000 copies/);
  });

  it('points', async () => {
    const limits = { points: 1000 };
    expect(await refusal(inMm(`<path d="M0 0${'h1'.repeat(1001)}"/>`), { limits })).toMatch(/1,000 points/);
    expect(corners(await read(inMm(`<path d="M0 0${'h1'.repeat(1000)}"/>`), { limits }))[0]).toHaveLength(
      1001,
    );
  });

  it('separate lines', async () => {
    const limits = { lines: 1000 };
    const dashes = (count: number) => inMm(`<path d="${'M0 0h1'.repeat(count)}"/>`);
    expect(await refusal(dashes(1001), { limits })).toMatch(/1,000 separate lines/);
    expect(corners(await read(dashes(1000), { limits }))).toHaveLength(1000);
    const motif = (count: number) =>
      JSON.stringify({
        format: 'linewright-motif',
        version: 1,
        unit: 'mm',
        strokes: Array.from({ length: count }, (_, k) => [
          [0, k],
          [9, k],
        ]),
      });
    expect(await refusal(motif(1001), { limits })).toMatch(/1,001 lines; at most 1,000 are read/);
    expect(corners(await read(motif(1000), { limits }))).toHaveLength(1000);
  });

  it('style rules', async () => {
    const rules = `[a]{stroke:red}`.repeat(3000);
    const paths = '<path a="" d="M0 0h1"/>'.repeat(2500);
    expect(await refusal(inMm(`<style>${rules}</style>${paths}`))).toMatch(/style rules take too long/);
  }, 20_000);
});

describe('numbers', () => {
  it.each(['M0 0L1e308 1e308', 'M0 0L1e999 1', 'M0 0A1e308 1e308 0 1 1 10 10', 'M1e9 1e9h1'])(
    'too large to be drawn: %s',
    async (d) => {
      expect(await refusal(inMm(`\n<path id="k" d="${d}"/>`))).toMatch(/line 2: .*path 'k' are too large/);
    },
  );

  it('too large elsewhere', async () => {
    expect(
      await refusal(`<svg ${ns} width="9mm" height="9mm" viewBox="0 0 1e-308 1e-308">${line}</svg>`),
    ).toMatch(/too large/);
    expect(
      await refusal(inMm('<g transform="scale(1e200)"><path d="M0 0h9" transform="scale(1e200)"/></g>')),
    ).toMatch(/too large/);
  });

  it('that are none count for nothing', async () => {
    const artwork = await read(
      inMm('<path transform="rotate(NaN)" stroke-width="NaN" d="M0 0h9"/><rect width="NaN" height="9"/>'),
    );
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
  });
});

describe('names that mean something to JavaScript', () => {
  it('mean nothing here', async () => {
    const artwork = await read(
      inMm(
        '<path id="__proto__" constructor="a" style="__proto__:1;constructor:2" transform="constructor(1)" d="M0 0h9"/><use href="#constructor"/><toString/>',
      ),
    );
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
    expect(notesOf(artwork, 'missing')).toHaveLength(1);
    const styled = await read(inMm('<style>[constructor]{stroke:none}</style><path d="M0 0h9"/>'));
    expect(corners(styled)).toEqual([
      [
        [0, 0],
        [9, 0],
      ],
    ]);
  });
});
