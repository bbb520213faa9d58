/** What is said of a file: each finding whole, with its count, its places and what to do. */
import { describe, expect, test } from 'vitest';
import { here, judge, messages, noting, there, yonder } from './judge.js';

const counted = (measured: number) => ({ measured, limit: 0, unit: 'count' });
/** A note of another kind, which none of these rules may take for its own. */
const other = { kind: 'size', what: 'size', count: 7, places: [yonder] } as never;

describe('no-namespace', () => {
  test('is told once, and only where the file leaves it out', () => {
    expect(judge('no-namespace', { motif: noting(other, { kind: 'no-namespace' }) })).toEqual([
      {
        message:
          'The file leaves out the line that marks it as an SVG drawing. It was read all the same, but other programs may refuse it: use the SVG written by linewright convert instead.',
      },
    ]);
    expect(judge('no-namespace', { motif: noting(other) })).toEqual([]);
  });
});

describe('broken-path', () => {
  const told = (note: object) =>
    judge('broken-path', { motif: noting(other, { kind: 'broken-path', places: [here], ...note }) });

  test('where the data breaks off: at which character, on which line, and how many more do', () => {
    const note = { what: "path 'leaf'", offset: 1234 };
    const lines = [{}, { fileLine: 7 }, { fileLine: 12345, count: 2 }, { count: 3 }];
    expect(lines.map((more) => told({ ...note, ...more })[0].message)).toEqual([
      "The path 'leaf' breaks off at character 1,234 of its data. It was read up to there: check the picture, and save the drawing again or get the file anew.",
      "The path 'leaf' breaks off at character 1,234 of its data, on line 7 of the file. It was read up to there: check the picture, and save the drawing again or get the file anew.",
      "The path 'leaf' breaks off at character 1,234 of its data, on line 12,345 of the file, and so does 1 other like it. It was read up to there: check the picture, and save the drawing again or get the file anew.",
      "The path 'leaf' breaks off at character 1,234 of its data, and so do 2 others like it. It was read up to there: check the picture, and save the drawing again or get the file anew.",
    ]);
    expect(told(note)).toMatchObject([{ at: [here], measured: 1234, unit: 'count' }]);
  });

  test('what could not be read at all is counted, the first one with its line', () => {
    const lines = [{}, { fileLine: 31 }, { fileLine: 31, count: 2 }, { count: 2 }];
    expect(lines.map((more) => told({ what: 'polyline', ...more }))).toEqual(
      [
        '1 polyline could not be read and was left out.',
        '1 polyline could not be read and was left out, on line 31 of the file.',
        '2 polylines could not be read and were left out, the first on line 31 of the file.',
        '2 polylines could not be read and were left out.',
      ].map((what) => [
        {
          at: [here],
          message: `The file is damaged or cut short: ${what} Check the picture, and save the drawing again or get the file anew.`,
        },
      ]),
    );
  });
});

describe('hidden-artwork', () => {
  test('hidden lines and lines left out as asked are counted apart, by how they are', () => {
    const motif = noting(
      { kind: 'hidden', what: 'invisible', count: 1200, places: [here] },
      { kind: 'unchosen', what: "of layer 'Grid'", count: 2000, places: [there] },
      { kind: 'hidden', what: 'transparent', places: [yonder] },
      { kind: 'unchosen', what: 'dashed', count: 2, places: [here] },
      other,
    );
    expect(judge('hidden-artwork', { motif })).toEqual([
      {
        at: [there, here],
        ...counted(2002),
        message: "2,002 lines left out as asked (2,000 of layer 'Grid' and 2 dashed).",
      },
      {
        at: [here, yonder],
        ...counted(1201),
        message:
          'The file hides 1,201 lines, left out here (1,200 invisible and 1 transparent). If the motif looks whole on the picture, all is well.',
      },
    ]);
  });

  test('one is one line; none is nothing', () => {
    expect(messages('hidden-artwork', { motif: noting({ kind: 'unchosen', what: 'dashed' }) })).toEqual([
      '1 line left out as asked (1 dashed).',
    ]);
    expect(messages('hidden-artwork', { motif: noting({ kind: 'hidden', what: 'no paint' }) })).toEqual([
      'The file hides 1 line, left out here (1 no paint). If the motif looks whole on the picture, all is well.',
    ]);
    expect(judge('hidden-artwork', { motif: noting(other) })).toEqual([]);
  });
});

describe('traced-line', () => {
  const scan = (uncovered: object[], offInk: object[]) => ({ motif: { scan: { uncovered, offInk } } });

  test('ink without line and line without ink are told apart', () => {
    expect(judge('traced-line', scan([here, there], [yonder]))).toEqual([
      {
        at: [here, there],
        ...counted(2),
        message:
          "At 2 places ink of the scan lies more than a quarter of the pen's width beside the traced line. Compare the line with the scan there: a pass may be missing, or it is a blot.",
      },
      {
        at: [yonder],
        ...counted(1),
        message:
          'At 1 place the traced line runs where the scan has no ink. Compare the line with the scan there, and draw the place clearer.',
      },
    ]);
    expect(judge('traced-line', scan([here], []))).toMatchObject([counted(1)]);
    expect(judge('traced-line', scan([], [here]))).toMatchObject([{ at: [here] }]);
    for (const facts of [scan([], []), { motif: {} }]) expect(judge('traced-line', facts)).toEqual([]);
  });
});

describe('outlined-line', () => {
  test('gives the width of the pen', () => {
    expect(judge('outlined-line', { outline: { penMm: 1.5, at: here, strokes: [0] } })).toEqual([
      {
        at: [here],
        measured: 1.5,
        unit: 'mm',
        message:
          'The motif is drawn as the outline of a pen stroke 1.5 mm wide: it would be stitched twice, side by side. Let linewright mend --reshape put the line in the middle.',
      },
    ]);
    expect(judge('outlined-line', { outline: null })).toEqual([]);
  });
});
