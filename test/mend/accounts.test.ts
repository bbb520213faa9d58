/** What each mend says it did, where and how much, on drawings whose answer is worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { MendName } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { type MendChoice, mendMotif } from '../../src/mend/index.js';
import { smooth } from '../../src/mend/smooth.js';
import { quarterTurned, runsDown, turn } from '../../src/mend/turn.js';
import { motifOf } from '../../src/size/motif-of.js';
import { line } from './drawings.js';

const setup = { ...defaultSetup, unit: 'mm' } as const;

function told(strokes: readonly Polyline[] | Motif, mend: MendName, choice: MendChoice = {}) {
  const motif = 'strokes' in strokes ? strokes : motifOf(strokes);
  return mendMotif(motif, setup, { only: [mend], ...choice });
}

const account = (strokes: readonly Polyline[] | Motif, mend: MendName, choice?: MendChoice) =>
  told(strokes, mend, choice).accounts[0];

const rounded = (places: readonly Point[]) =>
  places.map(({ x, y }) => [x, y].map((v) => Math.round(1000 * v) / 1000));

/** A wave of straight lines, 100 wide from (0, 0). */
const zigzag = line(0, 0, 25, 20, 75, -20, 100, 0);
const note = (kind: string, what: string, count = 1, places: Point[] = []) =>
  ({ kind, what, count, places }) as Motif['notes'][number];

describe('drop', () => {
  test('counts dots, copies and what was left out on reading, each by its name', () => {
    const dot = (x: number) => line(x, 0, x + 0.2, 0);
    const notes = [
      note('text', 'text', 2, [{ x: 7, y: 8 }]),
      note('fill', 'filled shape'),
      note('hidden', 'no paint'),
    ];
    const { strokes } = motifOf([zigzag, dot(40)]);
    expect(account([zigzag, dot(40)], 'drop')).toMatchObject({
      mend: 'drop',
      message: 'Left out 1 dot.',
      movedMm: 0,
      added: [],
    });
    const many = { ...motifOf([zigzag, dot(40), zigzag, dot(50), zigzag]), notes };
    const dropped = account(many, 'drop');
    expect(dropped.message).toBe('Left out 2 dots, 2 copies of a stroke, 2 texts and 1 filled shape.');
    // Dots in their middle, copies halfway along them, which is the middle of the zigzag, and the text where it was.
    expect(rounded(dropped.places)).toEqual([
      [40.1, 20],
      [50.1, 20],
      [50, 20],
      [50, 20],
      [7, 8],
    ]);
    expect(account({ ...motifOf([zigzag]), notes: notes.slice(0, 1) }, 'drop').message).toBe(
      'Left out 2 texts.',
    );
    // Those in the drawing and those that were left out on reading are told together.
    expect(account({ ...motifOf([zigzag, dot(40)]), notes: [note('dot', 'dot')] }, 'drop').message).toBe(
      `Left out ${1 + note('dot', 'dot').count} dots.`,
    );
    expect(strokes).toHaveLength(2);
    expect(account([zigzag, zigzag], 'drop').message).toBe('Left out 1 copy of a stroke.');
  });

  test('tells registration marks and frames apart', () => {
    const frame = line(-30, -40, 130, -40, 130, 40, -30, 40, -30, -40);
    const cross = (x: number) => [line(x, 30, x + 3, 30), line(x + 1.5, 28.5, x + 1.5, 31.5)];
    const both = account([zigzag, ...cross(-20), ...cross(115), frame], 'drop', { reshape: true });
    expect(both.message).toBe('Left out 2 registration marks and 1 frame.');
    // In the coordinates of what is left, whose box begins at (0, -20).
    expect(rounded(both.places)).toEqual([
      [-18.5, 50],
      [116.5, 50],
      [50, 20],
    ]);
    expect(account([zigzag, ...cross(-20)], 'drop', { reshape: true }).message).toBe(
      'Left out 1 registration mark.',
    );
  });

  test('leaves the last stroke, be it a dot', () => {
    expect(told([line(0, 0, 0.1, 0.1)], 'drop').accounts).toEqual([]);
    expect(told([zigzag], 'drop').accounts).toEqual([]);
  });

  test('takes the places of the scan along that belong to what is dropped, and no others', () => {
    const at = (x: number, y: number) => ({ x, y });
    const scan = {
      dotsPerInch: [200, 200] as const,
      penMm: 1,
      coveredShare: 1,
      onInkShare: 1,
      // On the zigzag, beside the dot, halfway between.
      uncovered: [at(25, 40), at(40.1, 48), at(90, 12)],
      offInk: [at(40, 51), at(75, 1)],
      pale: null,
    };
    const motif = { ...motifOf([zigzag, line(40, 30, 40.2, 30)]), scan };
    const { motif: left } = told(motif, 'drop');
    expect(left.scan).toMatchObject({ uncovered: [at(25, 40), at(90, 12)], offInk: [at(75, 1)] });
    // Where only a text was left out all of them stay.
    const texts = { ...motifOf([zigzag]), scan, notes: [note('text', 'text')] };
    expect(told(texts, 'drop').motif.scan).toEqual(scan);
    expect(told(motif, 'drop').motif.scan!.penMm).toBe(1);
    expect('scan' in told([zigzag, line(40, 30, 40.2, 30)], 'drop').motif).toBe(false);
  });
});

describe('join', () => {
  test('tells gaps that it closed by the widest, and places where ends met already', () => {
    // Gaps of 0.5 and 0.3, and two pieces that meet at (80, 0).
    const pieces = [line(0, 0, 30, 0), line(30.5, 0, 60, 0), line(60.3, 0, 80, 0), line(80, 0, 80, 40)];
    const { message, places, addedMm, movedMm, added } = account(pieces, 'join');
    expect(message).toBe(
      'Closed 2 gaps of up to 0.5 mm (0.02 in) and joined ends that met already at 1 place.',
    );
    expect(rounded(places)).toEqual([
      [30.25, 0],
      [60.15, 0],
      [80, 0],
    ]);
    expect(addedMm).toBeCloseTo(0.8, 9);
    expect(movedMm).toBeCloseTo(0.25, 9);
    expect(added.map((each) => [...each].map((v) => Math.round(1000 * v) / 1000))).toEqual([
      [30, 0, 30.5, 0],
      [60, 0, 60.3, 0],
    ]);
    expect(account(pieces.slice(0, 2), 'join').message).toBe('Closed 1 gap of up to 0.5 mm (0.02 in).');
    expect(account(pieces.slice(2), 'join').message).toBe('Joined ends that met already at 1 place.');
  });

  test('finds where pieces met whichever way they were drawn', () => {
    const met = (...pieces: Polyline[]) => rounded(account(pieces, 'join').places);
    const [a, b] = [line(0, 0, 40, 10), line(40, 10, 90, 0)];
    for (const pieces of [
      [a, b],
      [
        a,
        b
          .slice()
          .reverse()
          .map((_, i, all) => all[i ^ 1]),
      ],
      [
        a
          .slice()
          .reverse()
          .map((_, i, all) => all[i ^ 1]),
        b,
      ],
    ])
      expect(met(...pieces)).toEqual([[40, 10]]);
  });

  test('keeps dots and copies, in their order, behind what it joined', () => {
    const dots = [line(5, 20, 5.1, 20), line(9, 20, 9.1, 20)];
    const { motif } = told([dots[0], line(0, 0, 30, 0), dots[1], line(30.5, 0, 60, 0)], 'join');
    expect(motif.strokes.map((stroke) => stroke[0])).toEqual([0, 5, 9]);
    expect(told([dots[0]], 'join').accounts).toEqual([]);
    const far = line(0, 50, 80, 50);
    const { motif: kept } = told([far, far, dots[1], line(0, 0, 30, 0), line(30.5, 0, 60, 0)], 'join');
    expect(kept.strokes.slice(2).map((stroke) => [...stroke])).toEqual([[...far], [...dots[1]]]);
  });

  test('says nothing of gaps that it leaves open', () => {
    const { message, places, added } = account(
      [line(0, 0, 30, 0), line(30.5, 0, 60, 0), line(70, 0, 100, 0)],
      'join',
    );
    expect(message).toBe('Closed 1 gap of up to 0.5 mm (0.02 in).');
    expect([places, added].map((each) => each.length)).toEqual([1, 1]);
  });

  test('leaves out points that overshot, but none that the line needs', () => {
    const drawn = (...first: number[]) => [
      ...told([line(...first), line(50.4, 0.1, 100, 0)], 'join').motif.strokes[0],
    ];
    // The gap is 0.8 wide and its middle at (50.8, 0.1): points up to 0.8 from the end go where the line stays within
    // 0.4 of it.
    const hook = [0, 0, 50, 0, 50.6, 0.1, 51.2, 0.1];
    expect(drawn(...hook)).toEqual([0, 0, 50, 0, 50.8, 0.1, 100, 0]);
    // A corner beside the end stays, though it is near.
    const corner = [0, 0, 51.2, 0.7, 51.2, 0.1];
    expect(drawn(...corner).slice(0, 4)).toEqual([0, 0, 51.2, 0.7]);
  });
});

describe('untrace', () => {
  test('tells what it left out, and copies by the farthest off', () => {
    // 20 mm forth, back and forth again.
    const again = account([line(0, 0, 60, 0, 40, 0, 100, 0)], 'untrace');
    expect(again.message).toBe('Left out 40 mm (1 9/16 in) that was stitched over again without need.');
    expect(again.addedMm).toBeCloseTo(-40, 6);
    const below = (mm: number, from = 0, to = 100) => line(from, mm, to, mm);
    const one = account([below(0), below(0.5, 5, 95)], 'untrace');
    expect(one).toMatchObject({ mend: 'untrace', addedMm: -90, added: [] });
    expect(one.movedMm).toBeCloseTo(0.5, 9);
    expect(one.message).toBe('Left out 1 copy drawn up to 0.5 mm (0.02 in) beside the line.');
    expect(rounded(one.places)).toEqual([[50, 0.5]]);
    const two = account([below(0), below(0.5, 5, 45), below(-0.25, 50, 90)], 'untrace');
    expect(two).toMatchObject({ addedMm: -80 });
    expect(two.message).toBe('Left out 2 copies drawn up to 0.5 mm (0.02 in) beside the line.');
    expect(two.movedMm).toBeCloseTo(0.5, 9);
  });
});

describe('turn', () => {
  const reversed = 'Reversed the line, so that it starts on the left; what is stitched stays the same.';
  const quarter = 'Gave the motif a quarter turn, since it ran down, not across.';

  test('says what it did, and shows where the line starts now', () => {
    expect(account([line(100, 10, 50, 30, 0, 0)], 'turn')).toEqual({
      mend: 'turn',
      places: [{ x: 0, y: 0 }],
      addedMm: 0,
      movedMm: 0,
      message: reversed,
      added: [],
    });
    const down = line(10, 0, 30, 50, 0, 100);
    expect(account([down], 'turn', { reshape: true }).message).toBe(quarter);
    // One that runs up runs to the left once it is turned.
    const up = account([line(0, 100, 30, 50, 10, 0)], 'turn', { reshape: true });
    expect(up.message).toBe(`${quarter} ${reversed}`);
    expect(up.places).toEqual([{ x: 0, y: 20 }]);
  });

  test('reverses pieces of a line in their order, too', () => {
    const { motif } = told([line(100, 0, 50.5, 0), line(50, 0, 0, 0)], 'turn');
    expect(motif.strokes.map((stroke) => [...stroke])).toEqual([
      [0, 0, 50, 0],
      [50.5, 0, 100, 0],
    ]);
  });

  test('takes along what was noted, and the places told before; a spacing that was chosen no longer holds', () => {
    const motif = {
      ...motifOf([line(0, 0, 30, 50, 0, 100)]),
      notes: [note('text', 'text', 1, [{ x: 10, y: 20 }])],
      rows: { layout: 'straight', spacing: 90, clearance: 3 } as never,
    };
    // 30 wide: what lay 10 from the left and 20 down lies 20 from the left and 20 down.
    const turned = quarterTurned(motif);
    expect(turned.notes[0]).toEqual({ ...motif.notes[0], places: [{ x: 20, y: 20 }] });
    expect('rows' in turned).toBe(false);
    expect('scan' in turned).toBe(false);
    expect(turn.apply(motif, setup, true)!.place({ x: 10, y: 20 })).toEqual({ x: 20, y: 20 });
    expect(turn.apply(motif, setup, false)).toBeNull();
    const back = motifOf([line(100, 0, 0, 0)]);
    expect(turn.apply(back, setup, false)!.place({ x: 10, y: 20 })).toEqual({ x: 10, y: 20 });
  });

  test('is down where the ends are more than half the height apart and not half the width', () => {
    const runs = (...coordinates: number[]) => runsDown(motifOf([line(...coordinates)]), setup);
    expect(runs(0, 0, 40, 100, 0, 51)).toBe(true);
    expect(runs(0, 0, 40, 100, 0, 49)).toBe(false);
    expect(runs(0, 0, 40, 100, 30, 90)).toBe(false);
    expect(runsDown(motifOf([line(0, 0, 0, 40), line(0, 60, 0, 100)]), setup)).toBe(false);
  });
});

describe('smooth', () => {
  const shaky = (y: number, by = 0.15) =>
    line(...Array.from({ length: 101 }, (_, i) => [i, y + (i % 2 === 0 ? by : -by)]).flat());
  const straight = line(0, 60, 100, 60);

  test('counts the strokes it made smooth and says how far the farthest place moved', () => {
    const one = smooth.apply(motifOf([shaky(0), straight]), { ...setup, smoothMm: 0.5 }, true)!.account;
    expect(one.message).toMatch(
      /^Made the line smooth; no place of it lies farther than 0\.\d+ mm \(.* in\) from where it was drawn\.$/,
    );
    expect(one.places).toHaveLength(1);
    expect(one.places[0].x).toBeCloseTo(50, -1);
    expect(one.added).toEqual([]);
    expect(one.addedMm).toBeLessThan(0);
    const { account: two, motif } = smooth.apply(
      motifOf([shaky(0), shaky(40), straight]),
      { ...setup, smoothMm: 0.5 },
      true,
    )!;
    expect(two.message).toMatch(/^Made 2 strokes smooth; /);
    expect(motif.strokes).toHaveLength(3);
    expect([...motif.strokes[2]].filter((_, i) => i % 2 === 0)).toEqual([0, 100]);
    // The farthest of both is told, whichever comes first.
    const wishes = { ...setup, smoothMm: 0.5 };
    const moved = (...strokes: Polyline[]) => smooth.apply(motifOf(strokes), wishes, true)!.account.movedMm;
    const [little, much] = [moved(shaky(0)), moved(shaky(40, 0.3))];
    expect(little).toBeLessThan(0.8 * much);
    expect(moved(shaky(0), shaky(40, 0.3))).toBeCloseTo(much, 6);
    expect(moved(shaky(0, 0.3), shaky(40))).toBeCloseTo(much, 6);
    expect(two.movedMm).toBeGreaterThan(0.05);
    expect(two.movedMm).toBeLessThanOrEqual(0.5);
    expect(smooth.apply(motifOf([straight]), { ...setup, smoothMm: 0.5 }, true)).toBeNull();
    expect(smooth.apply(motifOf([shaky(0)]), setup, true)).toBeNull();
  });
});

describe('thin', () => {
  test('says how many points of how many, and how near the line stays', () => {
    const fine = line(
      ...Array.from({ length: 1201 }, (_, i) => [i / 10, i < 600 ? 0 : (i - 600) / 20]).flat(),
    );
    const thinned = account([fine], 'thin');
    expect(thinned.message).toBe(
      'Dropped 1,198 points of 1,201 that the line does not need; it stays the same to 0.02 mm (0.0008 in).',
    );
    expect(thinned.places).toHaveLength(1198);
    expect(thinned.added).toEqual([]);
    expect(account([line(0, 0, 50, 0, 100, 0)], 'thin').message).toMatch(/^Dropped 1 point of 3 /);
  });
});
