/** What a DXF drawing's layers, blocks, flags and units mean: the DXF Reference, group by group. */
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../shared/setup.js';
import { readArtwork } from '../../../src/read/index.js';
import { corners, notesOf, read, refusal } from '../read.js';
import { block, dxf, insert, layer, line, section, tagged } from './text.js';

const kinds = async (text: string) =>
  (await read(text)).notes.map(({ kind, what, count }) => `${kind} ${what} ${count}`);

describe('a DXF drawing is known by what it holds', () => {
  const drawing = dxf(line(0, 0, 10, 5));
  it.each([
    ['plain', drawing],
    ['with a mark first', `\ufeff${drawing}`],
    ['with line ends of two characters', drawing.replaceAll('\n', '\r\n')],
    ['with line ends of old', drawing.replaceAll('\n', '\r')],
    ['with comments first', tagged([999, 'by the studio'], [999, '0']) + drawing],
    ['with a very long comment first', tagged([999, 'x'.repeat(200_000)]) + drawing],
    ['with codes set to the right', drawing.replace(/^(\d+)$/gm, '   $1')],
    ['without its end', drawing.slice(0, -'0\nEOF\n'.length)],
  ])('%s', async (_, text) => {
    const artwork = await read(text);
    expect(corners(artwork)).toEqual([
      [
        [0, 0],
        [10, -5],
      ],
    ]);
    expect(artwork).toMatchObject({ assumedSize: false, notes: [], name: 'swell' });
  });
});

describe('units', () => {
  it.each([
    // The international inch and foot of 1959; the survey foot is 1200/3937 m; the astronomical unit is of 2012.
    [1, 25.4],
    [2, 304.8],
    [8, 25.4e-6],
    [9, 0.0254],
    [10, 914.4],
    [21, 1_200_000 / 3937],
    [22, 100_000 / 3937],
    [23, 3_600_000 / 3937],
  ])('%d is %d mm', async (code, mm) => {
    const [[, [x]]] = (
      await read(dxf(line(0, 0, 1, 0), { header: tagged([9, '$INSUNITS'], [70, code]) }))
    ).lines.map(({ coords }) => [coords.slice(0, 2), coords.slice(2)]);
    expect(x).toBeCloseTo(mm, 9);
  });

  it.each([
    ['nothing', '', 1, '1 mm to the unit'],
    ['0', tagged([9, '$INSUNITS'], [70, 0]), 1, '1 mm to the unit'],
    ['what nobody knows', tagged([9, '$INSUNITS'], [70, 99]), 1, '1 mm to the unit'],
    ['only inches', tagged([9, '$MEASUREMENT'], [70, 0]), 25.4, '1 inch to the unit'],
    ['only metric', tagged([9, '$MEASUREMENT'], [70, 1]), 1, '1 mm to the unit'],
  ])('are assumed where the file says %s', async (_, header, mm, taken) => {
    const artwork = await read(dxf(line(0, 0, 4, 0), { header }));
    expect(artwork).toMatchObject({ assumedSize: true, assumedScale: { taken } });
    expect(artwork.lines[0].coords[2]).toBe(4 * mm);
  });
});

describe('sections in another order', () => {
  const header = section('HEADER', tagged([9, '$INSUNITS'], [70, 1]));
  const tables = section('TABLES', layer('Guides', 1));
  const blocks = section('BLOCKS', block('Buoy', line(0, 0, 1, 0)));
  const entities = section(
    'ENTITIES',
    insert('buoy') + line(0, 0, 5, 5).replace('8\n0\n', '8\nguides\n') + tagged([0, 'TEXT'], [1, 'SECTION']),
  );
  const end = tagged([0, 'EOF']);

  it('say the same, and each is read once', async () => {
    const usual = await read(header + tables + blocks + entities + end);
    expect(usual.lines[0].coords[2]).toBeCloseTo(25.4);
    for (const order of [
      [entities, header, tables, blocks],
      [blocks, entities, tables, header],
      [entities, blocks, tables, header, blocks],
    ]) {
      const other = await read(order.join('') + end);
      expect(corners(other)).toEqual(corners(usual));
      const told = (artwork: typeof usual) =>
        artwork.notes.map(({ kind, what, count }) => [kind, what, count]);
      expect(told(other)).toEqual(told(usual));
      expect(other.assumedSize).toBe(false);
      // With the line ends of another system.
      expect(corners(await read((order.join('') + end).replaceAll('\n', '\r\n')))).toEqual(corners(usual));
    }
  });

  it('are found where a hundred thousand of them never end', async () => {
    const open = tagged([0, 'SECTION'], [2, 'BLOCKS'], [0, 'BLOCK'], [2, 'b']).repeat(100_000);
    expect((await read(section('ENTITIES', line(0, 0, 1, 1)) + open)).lines).toHaveLength(1);
  });

  it('are told by their line where they are damaged', async () => {
    const text = entities + blocks.replace('BLOCK\n2\nBuoy\n', 'BLOCK\n2\nBuoy\nadrift\n0\n') + end;
    const at = text.split('\n').indexOf('adrift') + 1;
    expect(await refusal(text)).toContain(`line ${at}:`);
  });
});

describe('what is not to be seen', () => {
  const tables = layer('Guides', 1) + layer('OFF', 0, -3);
  const part = block('Buoy', line(0, 0, 1, 0) + line(0, 0, 2, 0, [8, 'own']), [70, 0]);

  it('is hidden by a frozen layer, one that is off, or itself, whatever the case of a name', async () => {
    const on = (name: string) => line(0, 0, 5, 5).replace('8\n0\n', `8\n${name}\n`);
    expect(
      await kinds(
        dxf(on('GUIDES') + on('off') + on('Off') + line(0, 0, 1, 1, [60, 1]) + on('stitch'), { tables }),
      ),
    ).toEqual([
      'hidden on a frozen layer 1',
      'hidden on a layer that is switched off 2',
      'hidden invisible 1',
    ]);
  });

  it('goes for all of a block on a frozen layer, for its layer 0 on one that is off', async () => {
    const blocks = part.replace('8\n0\n10\n0\n20\n0\n11\n2', '8\nown\n10\n0\n20\n0\n11\n2');
    const put = (name: string) => insert('buoy').replace('8\n0\n', `8\n${name}\n`);
    expect(await kinds(dxf(put('guides'), { tables, blocks }))).toEqual(['hidden on a frozen layer 2']);
    const off = await read(dxf(put('off'), { tables, blocks }));
    expect(corners(off)).toEqual([
      [
        [0, 0],
        [2, 0],
      ],
    ]);
    expect(notesOf(off, 'hidden')).toMatchObject([{ count: 1 }]);
    expect(await kinds(dxf(insert('buoy', [60, 1]), { blocks }))).toEqual(['hidden invisible 2']);
  });

  it('is what lies in another layer than those asked for', async () => {
    const text = dxf(line(0, 0, 1, 1) + line(0, 0, 2, 2).replace('8\n0\n', '8\nWaves\n'));
    const options = { take: 'auto', limits: defaultLimits } as const;
    const bytes = new TextEncoder().encode(text);
    const artwork = await readArtwork(bytes, 'a.dxf', { ...options, layers: ['waves'] });
    expect(artwork.lines.map(({ coords }) => coords[2])).toEqual([2]);
    expect(notesOf(artwork, 'unchosen')).toMatchObject([
      { what: 'in another layer 0', layer: '0', count: 1 },
    ]);
    await expect(readArtwork(bytes, 'a.dxf', { ...options, colours: ['red'] })).rejects.toThrow(/by --layer/);
  });

  it('looks like a guide where it is straight in a layer of its own, whichever the insert of its block gives it', async () => {
    const arch = tagged([0, 'ARC'], [8, 'Swell'], [10, 0], [20, 0], [40, 90], [50, 0], [51, 180]);
    const bars = block('Bars', line(0, 0, 9, 0) + line(0, 5, 9, 5));
    const inserted = insert('bars').replace('8\n0\n', '8\nRows\n');
    const guides = async (text: string) =>
      notesOf(await read(text), 'guide').map(({ what, count, remedy }) => [what, count, remedy]);
    expect(await guides(dxf(arch + inserted, { blocks: bars }))).toEqual([
      ['straight line in the layer "rows"', 2, '--layer "swell"'],
    ]);
    expect(await guides(dxf(arch + line(0, 0, 9, 0).replace('8\n0\n', '8\nSwell\n')))).toEqual([]);
  });

  it('is left out without a word on paper', async () => {
    expect((await read(dxf(line(0, 0, 1, 1) + line(0, 0, 9, 9, [67, 1])))).lines).toHaveLength(1);
  });
});

describe('what is no line', () => {
  it('is named and counted, also what nobody knows', async () => {
    const some = ['TEXT', 'MTEXT', 'HATCH', 'DIMENSION', 'IMAGE', 'SOLID', 'SOLID', 'WOBBLE'];
    const others = some.map((kind) => tagged([0, kind], [8, '0'], [10, 1], [20, 2])).join('');
    expect(await kinds(dxf(line(0, 0, 9, 0) + others))).toEqual([
      'text text 2',
      'other hatching 1',
      'other dimension 1',
      'image picture 1',
      'other solid 2',
      'other wobble 1',
    ]);
  });

  it('is a dot where it is a point, and is said where it is not flat', async () => {
    const dot = tagged([0, 'POINT'], [8, '0'], [10, 3], [20, 4]);
    const artwork = await read(
      dxf(dot + line(0, 0, 9, 0, [30, 0], [31, 0.0005]) + line(0, 1, 9, 1, [31, 2])),
    );
    expect(notesOf(artwork, 'dot')).toMatchObject([{ count: 1, places: [{ x: 3, y: -4 }] }]);
    expect(notesOf(artwork, 'not-flat')).toMatchObject([{ count: 1, places: [{ x: 0, y: -1 }] }]);
    expect(artwork.lines).toHaveLength(2);
  });

  it('is the frame of a spline: only its other points are drawn', async () => {
    const vertex = (x: number, flags: number) =>
      tagged([0, 'VERTEX'], [8, '0'], [10, x], [20, 0], [70, flags]);
    const polyline = tagged([0, 'POLYLINE'], [8, '0'], [66, 1], [70, 4]);
    const text =
      polyline + vertex(99, 16) + vertex(0, 8) + vertex(5, 8) + vertex(7, 8) + tagged([0, 'SEQEND']);
    expect(corners(await read(dxf(text)))).toEqual([
      [
        [0, 0],
        [5, 0],
        [7, 0],
      ],
    ]);
  });
});

describe('what is damaged', () => {
  const knots = [0, 0, 0, 0, 1, 1, 1, 1].map((knot) => [40, knot] as const);
  const points = [0, 1, 2, 3].flatMap((x) => [[10, x] as const, [20, x * x] as const]);
  const spline = tagged([0, 'SPLINE'], [8, '0'], [71, 3], [72, 8], [73, 4], ...knots, ...points);

  it('is left out and said: numbers that are none, counts that disagree', async () => {
    expect((await read(dxf(spline))).lines).toHaveLength(1);
    const wrong = [
      line('nonsense', 0, 1, 1),
      line('1e999', 0, 1, 1),
      tagged([0, 'LINE'], [8, '0'], [10, 0], [20, 0]),
      tagged([0, 'LWPOLYLINE'], [8, '0'], [90, 3], [10, 0], [20, 0], [10, 1], [20, 1]),
      tagged([0, 'LWPOLYLINE'], [8, '0'], [90, 2], [10, 0], [20, 0], [10, 1]),
      spline.replace('72\n8\n', '72\n9\n'),
      spline.replace('73\n4\n', '73\n5\n'),
      spline.replace('40\n1\n', ''),
      spline.replace('40\n0\n40\n1\n', '40\n5\n40\n1\n'),
      tagged([0, 'CIRCLE'], [8, '0'], [10, 0], [20, 0], [40, '']),
    ];
    const before = dxf(line(0, 0, 3, 3))
      .split('ENTITIES\n')[0]
      .split('\n').length;
    const fileLine = before + line(0, 0, 3, 3).split('\n').length - 1 + 2;
    for (const text of wrong) {
      const artwork = await read(dxf(line(0, 0, 3, 3) + text));
      expect(artwork.lines, text).toHaveLength(1);
      expect(artwork.notes, text).toMatchObject([{ kind: 'broken-path', count: 1, fileLine }]);
    }
  });

  it('is an entity that the end of the file cuts off, wherever it does', async () => {
    const start =
      section('HEADER', tagged([9, '$INSUNITS'], [70, 4])) + tagged([0, 'SECTION'], [2, 'ENTITIES']);
    const whole = start + line(0, 0, 3, 3);
    for (let cut = 1; cut < line(0, 0, 3, 3).length - 3; cut++) {
      const { lines, notes } = await read(whole + line(0, 0, 9, 9).slice(0, -cut));
      expect(lines, `${cut}`).toHaveLength(1);
      expect(notes, `${cut}`).toMatchObject([{ kind: 'broken-path', count: 1 }]);
    }
  });

  it('is a reference that leads nowhere, to itself or to another file', async () => {
    const blocks =
      block('ring', insert('chain')) +
      block('chain', insert('RING')) +
      block('far', line(0, 0, 9, 9), [70, 4]);
    expect(
      await kinds(dxf(line(0, 0, 1, 1) + insert('ring') + insert('gone') + insert('FAR'), { blocks })),
    ).toEqual(["missing block 'RING' 1", "missing block 'gone' 1", "missing block 'FAR' 1"]);
  });
});
