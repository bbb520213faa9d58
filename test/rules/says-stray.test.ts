/** What is said of all that is in a file beside the line to be stitched: each kind by its count, and what to do. */
import { describe, expect, test } from 'vitest';
import { here, judge, noting, there, yonder } from './judge.js';

const counted = (measured: number) => ({ measured, limit: 0, unit: 'count' });
/** Notes of kinds that this rule has nothing to say about. */
const others = [
  { kind: 'hidden', what: 'invisible', count: 5, places: [yonder] },
  { kind: 'broken-path', what: 'path', count: 5, places: [yonder] },
] as const;

function told(notes: object[], facts: object = {}) {
  const motif = noting(...others, ...notes);
  return judge('stray-artwork', { motif, dots: [], marks: [], outline: null, ...facts });
}

describe('stray-artwork', () => {
  test('says nothing where nothing of it is in the file', () => {
    expect(told([])).toEqual([]);
  });

  test('text, pictures and all that is no line are counted together', () => {
    expect(
      told([
        { kind: 'text', what: 'text', count: 2, places: [here] },
        { kind: 'image', what: 'picture', places: [there] },
        { kind: 'other', what: 'embedded page', count: 3 },
      ]),
    ).toEqual([
      {
        at: [here, there],
        ...counted(6),
        message:
          'The drawing holds more than lines, and this was left out: 2 texts, 1 picture and 3 embedded pages. If any of it should be stitched, redraw it as a line.',
      },
    ]);
  });

  test('filled shapes can be read by their outline', () => {
    expect(
      told([
        { kind: 'fill', what: 'filled shape' },
        { kind: 'text', what: 'text' },
      ]).map(({ message }) => message),
    ).toEqual([
      'The drawing holds more than lines, and this was left out: 1 filled shape and 1 text. If any of it should be stitched, redraw it as a line, or read the shapes with --take shapes.',
    ]);
  });

  test('of a scan it says how paler marks count as ink', () => {
    const motif = { ...noting({ kind: 'other', what: 'speck', count: 4 }), scan: {} };
    expect(judge('stray-artwork', { motif, dots: [], marks: [], outline: null })).toMatchObject([
      {
        message:
          'The scan holds more than the line, and this was left out: 4 specks. If any of it should be stitched, draw it with the same pen; --ink 30% takes paler marks for ink, too.',
      },
    ]);
  });

  test('shapes read by their outline: how they are left out, where that can be, and else what to draw', () => {
    const notes = (remedy?: string) => [
      { kind: 'outlines', what: 'filled shape', count: 3, places: [here], remedy },
    ];
    expect(told(notes('--take lines'))).toEqual([
      {
        at: [here],
        ...counted(3),
        mend: null,
        message:
          '3 filled shapes without a line were read by their outline: lettering and shapes come out as the line round them. If they are not meant, --take lines leaves them out.',
      },
    ]);
    expect(told([{ kind: 'outlines', what: 'filled shape' }])[0].message).toBe(
      '1 filled shape without a line was read by its outline: lettering and shapes come out as the line round them. If the line should run through their middle, draw it there in your drawing program.',
    );
    // One of them that can be left out is enough.
    expect(told([...notes(), ...notes('--take lines')])[0].message).toContain('--take lines leaves them out');
    // Where it is the outline of a pen, that rule has more to say.
    expect(told(notes(), { outline: { penMm: 1, at: here, strokes: [] } })).toEqual([]);
  });

  test('each kind of guide with the option that leaves it out', () => {
    expect(
      told([
        { kind: 'guide', what: 'dashed line', count: 2, places: [here], remedy: '--skip-dashed' },
        { kind: 'guide', what: "line of layer 'Grid'", places: [there], remedy: "--layer 'Motif'" },
        { kind: 'guide', what: 'straight line in the layer "A"', count: 3, places: [here] },
      ]),
    ).toEqual([
      {
        at: [here],
        ...counted(2),
        mend: null,
        message:
          '2 dashed lines look like a guide and would be stitched. Leave them out with --skip-dashed, or delete them in your drawing program.',
      },
      {
        at: [there],
        ...counted(1),
        mend: null,
        message:
          "1 line of layer 'Grid' looks like a guide and would be stitched. Leave it out with --layer 'Motif', or delete it in your drawing program.",
      },
      {
        at: [here],
        ...counted(3),
        mend: null,
        message:
          '3 straight lines in the layer "A" look like a guide and would be stitched. If so, delete them in your drawing program.',
      },
    ]);
  });

  test('dots of the line and of the file are counted together', () => {
    expect(told([{ kind: 'dot', what: 'dot', count: 4, places: [yonder] }], { dots: [here] })).toEqual([
      {
        at: [here, yonder],
        ...counted(5),
        message: 'The drawing holds 5 stray dots, too small to stitch. Mending drops them.',
      },
    ]);
    expect(told([], { dots: [here] })[0].message).toBe(
      'The drawing holds 1 stray dot, too small to stitch. Mending drops it.',
    );
  });

  test('marks and frames, which would be stitched, are told apart', () => {
    const mark = { kind: 'mark', at: here, strokes: [1] };
    const frame = { kind: 'frame', at: there, strokes: [2] };
    expect(told([], { marks: [frame, mark, { ...mark, at: yonder }] })).toEqual([
      {
        at: [here, yonder],
        ...counted(2),
        message:
          'The drawing holds 2 marks apart from the motif, such as registration crosses, which would be stitched. Delete them, or let linewright mend --reshape drop them.',
      },
      {
        at: [there],
        ...counted(1),
        message:
          'The drawing holds 1 frame round the motif, which would be stitched. Delete it, or let linewright mend --reshape drop it.',
      },
    ]);
  });

  test('what is cut off, not flat, or not in the file is told with its names', () => {
    expect(
      told([
        { kind: 'cut', what: "clip 'page'", places: [here] },
        { kind: 'cut', what: "mask 'edge'", count: 2, places: [there] },
        { kind: 'not-flat', what: 'line', count: 2, places: [here] },
        { kind: 'missing', what: "'#leaf'", count: 3, places: [yonder] },
        { kind: 'missing', what: "'#stem'" },
      ]),
    ).toEqual([
      {
        at: [here, there],
        ...counted(3),
        mend: null,
        message:
          "Part of the drawing is cut off on the screen (clip 'page' and mask 'edge' (2 times)), but the line was read whole. If it should end at the cut, cut the line itself in your drawing program.",
      },
      {
        at: [here],
        ...counted(2),
        mend: null,
        message:
          'The drawing is not flat: 2 lines rise out of the plane and were taken as seen from above. Check the picture, and flatten the drawing in your drawing program.',
      },
      {
        at: [yonder],
        ...counted(4),
        mend: null,
        message:
          "Part of the drawing is not in the file: '#leaf' (3 times) and '#stem'. Open it in the program that drew it and save it whole.",
      },
    ]);
    expect(told([{ kind: 'not-flat', what: 'line' }])[0].message).toBe(
      'The drawing is not flat: 1 line rises out of the plane and was taken as seen from above. Check the picture, and flatten the drawing in your drawing program.',
    );
  });
});
