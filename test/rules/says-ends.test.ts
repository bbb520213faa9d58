/** What is said of the ends of a line and of repeats in a row, at each limit and on either side. */
import { describe, expect, test } from 'vitest';
import { here, judge, plain, there, yonder } from './judge.js';

const end = (x: number, y: number, leftMm: number, rightMm: number) => ({ at: { x, y }, leftMm, rightMm });
const repeat = { dx: 192, dy: 0, assumed: false };
/** From edge to edge, level. */
const line = {
  isOneStroke: true,
  runsLeft: false,
  widthMm: 200,
  heightMm: 100,
  start: end(0, 50, 0, 200),
  end: end(200, 50, 200, 0),
  repeat,
};
const meeting = (leastMm: number, crossings: object[] = [], lyingMm = 0, more = false) => ({
  repeatMeeting: (withinMm: number) =>
    withinMm === 0.8 ? { leastMm, lyingMm, at: here, crossings, more } : null,
});
const clear = meeting(Infinity);
const inVain = plain('reach');

describe('opposite-edges', () => {
  const told = (facts: object, say = plain()) =>
    judge('opposite-edges', { ...line, ...clear, ...copied(0), ...facts }, say);
  const copied = (count: number) => ({
    copies: (withinMm: number) => ({ places: Array(withinMm === 0.8 ? count : 9).fill({}), more: false }),
  });
  const assumed = { repeat: { dx: 200, dy: 0, assumed: true } };

  test('ends on their edges, and up to a millimetre inside, are well', () => {
    expect(told({})).toEqual([]);
    expect(told({ start: end(1, 50, 1, 199), end: end(199, 50, 199, 1) })).toEqual([]);
  });

  test('a line that does not get half across says how far it gets; one that runs down is turned', () => {
    const back = { ...assumed, start: end(0, 20, 0, 200), end: end(60, 70, 60, 140) };
    expect(told(back)).toEqual([
      {
        at: [
          { x: 60, y: 70 },
          { x: 0, y: 20 },
        ],
        measured: 60,
        limit: 100,
        unit: 'mm',
        message:
          "The line ends only 60 mm across from where it starts, less than the 100 mm that are half the motif's width, so repeats cannot be joined into a row. Lead it from edge to edge, or let linewright mend --reshape do it.",
      },
    ]);
    expect(told(back, inVain)[0].message).toMatch(/Lead it from edge to edge\.$/);
    const down = { ...assumed, start: end(100, 0, 100, 100), end: end(90, 100, 90, 110) };
    expect(told(down)).toEqual([
      {
        at: [
          { x: 90, y: 100 },
          { x: 100, y: 0 },
        ],
        measured: 10,
        limit: 100,
        unit: 'mm',
        mend: 'turn',
        message:
          'The motif runs down, not across: the line goes from the top to the bottom. Turn it by a quarter in your drawing program, or let linewright mend --reshape turn it.',
      },
    ]);
    expect(told({ ...down, isOneStroke: false })).toEqual([]);
    // A copy beside the line leads it back: of that the rules of copies tell.
    expect(told({ ...down, ...copied(1) })).toEqual([]);
    expect(told({ ...back, ...copied(1) })).toEqual([]);
    // One that runs up is the same.
    expect(told({ ...down, start: down.end, end: down.start })).toMatchObject([{ mend: 'turn' }]);
  });

  test('ends inside their edges are told deepest first, on whichever side they lie', () => {
    const inset = { start: end(8, 50, 8, 192), end: end(190, 40, 190, 10) };
    const at = [inset.end.at, inset.start.at];
    const fact = { at, measured: 10, limit: 1, unit: 'mm' };
    const where = 'The right end lies 10 mm inside its edge and the left end lies 8 mm inside its edge';
    expect(told({ ...inset, ...meeting(0.5) })).toEqual([
      {
        ...fact,
        severity: 'warning',
        message: `${where}, and neighbouring repeats run into each other. Lead the line out to the edge, or let linewright mend --reshape do it.`,
      },
    ]);
    expect(told({ ...inset, ...meeting(0.5) }, inVain)[0].message).toMatch(/out to the edge\.$/);
    expect(told(inset)).toEqual([
      {
        ...fact,
        severity: 'info',
        message: `${where}. Neighbouring repeats reach over each other there but keep clear, so nothing needs doing.`,
      },
    ]);
    // Run the other way it starts on the right.
    const turned = { ...inset, runsLeft: true, start: inset.end, end: inset.start };
    expect(told(turned)).toMatchObject([{ at, measured: 10 }]);
    expect(told({ start: inset.start })[0].message).toMatch(/^The left end lies 8 mm inside its edge\. /);
  });

  test('repeats run into each other where they cross, or come nearer than 0.8 mm', () => {
    const severity = (of: object) => told({ start: end(8, 50, 8, 192), ...of })[0].severity;
    expect(severity(meeting(0.8))).toBe('info');
    expect(severity(meeting(0.79))).toBe('warning');
    expect(severity(meeting(Infinity, [there]))).toBe('warning');
    expect(severity({ repeatMeeting: () => null })).toBe('info');
  });
});

describe('level-ends', () => {
  const told = (dy: number, facts: object = {}, say = plain()) =>
    judge('level-ends', { ...line, repeat: { ...repeat, dy }, ...facts }, say);

  test('says on which side of the left end the right one lies, and what that does to a row', () => {
    expect(told(6)).toEqual([
      {
        at: [{ x: 200, y: 50 }],
        measured: 6,
        limit: 0.5,
        unit: 'mm',
        message:
          'The right end lies 6 mm below the left one, so a row of repeats would sink by that much at each. Level the ends, or let linewright mend --reshape do it.',
      },
    ]);
    expect(told(-6, {}, inVain)).toMatchObject([
      {
        measured: 6,
        message:
          'The right end lies 6 mm above the left one, so a row of repeats would climb by that much at each. Level the ends.',
      },
    ]);
    // Of a line that runs to the left the right end is its start.
    expect(told(6, { runsLeft: true })).toMatchObject([{ at: [{ x: 0, y: 50 }] }]);
  });

  test('up to half a millimetre is level, and nothing is said of a repeat that is only assumed, or of pieces', () => {
    expect(told(0.5)).toEqual([]);
    expect(told(0.51)).toHaveLength(1);
    expect(told(6, { isOneStroke: false })).toEqual([]);
    expect(told(6, { repeat: { dx: 192, dy: 6, assumed: true } })).toEqual([]);
  });
});

describe('runs-left-to-right', () => {
  test('shows where the line starts', () => {
    expect(judge('runs-left-to-right', { ...line, runsLeft: true })).toEqual([
      {
        at: [{ x: 0, y: 50 }],
        message:
          'The line starts on the right and runs to the left. Mending reverses it; the stitched line stays the same.',
      },
    ]);
    expect(judge('runs-left-to-right', line)).toEqual([]);
    expect(judge('runs-left-to-right', { ...line, runsLeft: true, isOneStroke: false })).toEqual([]);
  });
});

describe('smooth-join', () => {
  const told = (joinTurnDeg: number | null, facts: object = {}) =>
    judge('smooth-join', { ...line, joinTurnDeg, ...facts });

  test('shows the right end and then the left, where the next repeat begins', () => {
    const [left, right] = [
      { x: 0, y: 50 },
      { x: 200, y: 50 },
    ];
    expect(told(90)).toEqual([
      {
        at: [right, left],
        measured: 90,
        limit: 45,
        unit: 'deg',
        message:
          'The line turns by 90 degrees where one repeat meets the next; up to 45 degrees looks smooth. Let both ends run in the same direction.',
      },
    ]);
    expect(told(90, { runsLeft: true, start: line.end, end: line.start })).toMatchObject([
      { at: [right, left] },
    ]);
    expect(told(45)).toEqual([]);
    expect(told(46)).toHaveLength(1);
    expect(told(null)).toEqual([]);
    expect(told(90, { isOneStroke: false })).toEqual([]);
  });

  test('a point, sharper than a sharp turn is, is told as one', () => {
    expect(told(161)[0]).toMatchObject({
      measured: 161,
      message:
        'The line turns right round where one repeat meets the next, in a point. Leave it if the motif has such points within it, as shells have; otherwise let both ends run in the same direction.',
    });
    expect(told(160)[0].message).toContain('turns by 160 degrees');
  });
});

describe('repeat-collision', () => {
  const told = (of: object) => judge('repeat-collision', { ...line, ...of });
  const places = (count: number) => Array.from({ length: count }, () => there);
  const fact = { limit: 0.8, unit: 'mm', atLeast: false };

  test('where more meets than was looked at, it is at least so much', () => {
    const [lying] = told(meeting(0, [there], 60, true));
    expect(lying).toMatchObject({ atLeast: true });
    expect(lying.message).toMatch(/^At least 60 mm of each repeat lies/);
    expect(told(meeting(0, places(8), 0, true))[0].message).toMatch(
      /meets the next at 8 places at least beside/,
    );
    expect(told(meeting(0, places(9), 0, true))[0].message).toMatch(/they cross at 9 places at least\./);
  });

  test('repeats that lie on each other: how much of them', () => {
    expect(told(meeting(0, [there, yonder], 60))).toEqual([
      {
        ...fact,
        at: [there, yonder],
        measured: 0,
        message:
          '60 mm of each repeat lies on the next one, beside their join. Lead the ends farther out, so that the repeats stand farther apart, or leave out on one side what both have there.',
      },
    ]);
  });

  test('repeats that cross: at up to eight places beside their join, at more they are laid over each other', () => {
    expect(told(meeting(0, [there]))).toEqual([
      {
        ...fact,
        at: [there],
        measured: 0,
        message:
          'Each repeat meets the next at 1 place beside their join. Lead the ends farther out, or draw what overhangs them smaller.',
      },
    ]);
    expect(told(meeting(0, places(8)))[0].message).toMatch(/^Each repeat meets the next at 8 places/);
    expect(told(meeting(0, places(9)))).toEqual([
      {
        ...fact,
        at: places(9),
        measured: 0,
        severity: 'error',
        message:
          'Each repeat is laid over the next: they cross at 9 places. Lead the ends out to the edges, so that the repeats stand farther apart.',
      },
    ]);
  });

  test('repeats that come near each other: how near, and where', () => {
    expect(told(meeting(0.5))).toEqual([
      {
        ...fact,
        at: [here],
        measured: 0.5,
        message:
          'Each repeat comes as near as 0.5 mm to the next, nearer than 0.8 mm. Lead the ends farther out, or draw what overhangs them smaller.',
      },
    ]);
    expect(told(meeting(0.8))).toEqual([]);
    expect(told({ repeatMeeting: () => null })).toEqual([]);
    expect(told({ ...meeting(0), isOneStroke: false })).toEqual([]);
  });
});
