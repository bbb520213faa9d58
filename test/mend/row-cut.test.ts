/** Where an upright line meets the endless row once: worked out by hand from which stretches lie above one another. */
import { describe, expect, test } from 'vitest';
import { lengthOf } from '../../src/geometry/polyline.js';
import { cutAt, onlyMeeting, placeAfterCut } from '../../src/mend/row-cut.js';
import { line } from './drawings.js';

// One repeat is 100. The stretches wrap to 20-30, 0-30, 0-60 and 60-100 with 0-20: only 30 to 100 is passed once.
const curl = line(20, 0, 30, 10, 0, 20, 60, 30, 120, 0);
const alongMm = lengthOf(line(20, 0, 30, 10, 0, 20, 60, 30, 65, 27.5));

describe('the only meeting', () => {
  const found = (...coordinates: number[]) => {
    const cut = onlyMeeting(line(...coordinates));
    return cut && [cut.at.x, cut.at.y, cut.alongMm].map((v) => Math.round(1e6 * v) / 1e6);
  };

  test('is in the middle of the widest window', () => {
    expect(onlyMeeting(curl)!.at).toEqual({ x: 65, y: 27.5 });
    expect(onlyMeeting(curl)!.alongMm).toBeCloseTo(alongMm, 9);
    // Windows 10-30 and 60-100, passed thrice between them.
    expect(found(0, 0, 10, 0, 0, 5, 60, 5, 30, 10, 100, 10)?.slice(0, 2)).toEqual([80, 10]);
    // The first of them may be the widest.
    expect(found(0, 0, 10, 0, 0, 5, 90, 5, 70, 10, 100, 10)?.slice(0, 2)).toEqual([40, 5]);
  });

  test('may be anywhere on a line that only goes on', () => {
    expect(found(0, 0, 100, 10)).toEqual([50, 5, Math.round(1e6 * Math.hypot(50, 5)) / 1e6]);
    // Wherever it begins: then in the middle of a repeat counted from 0.
    expect(found(-20, 0, 80, 10)?.slice(0, 2)).toEqual([50, 7]);
    expect(found(480, 0, 530, 20, 580, 10)?.slice(0, 2)).toEqual([550, 16]);
  });

  test('may lie in a window that reaches over the edge of the repeat', () => {
    // Passed once from 50 to 70 and from 90 over the edge to 50.
    expect(found(50, 0, 90, 10, 70, 20, 150, 30)?.slice(0, 2)).toEqual([130, 27.5]);
  });

  test('is the same on a line drawn in small steps', () => {
    const fine = (from: number, to: number, y: number) =>
      Array.from({ length: 101 }, (_, i) => [from + (i / 100) * (to - from), y + i / 10]).flat();
    const drawn = [...fine(20, 30, 0), ...fine(30, 0, 10), ...fine(0, 60, 20), ...fine(60, 120, 30)];
    expect(found(...drawn)?.[0]).toBeCloseTo(65, 6);
  });

  test('lies beside upright stretches, which are met all along', () => {
    expect(found(0, 0, 0, 20, 50, 20, 50, 40, 100, 40)?.slice(0, 2)).toEqual([25, 20]);
    expect(found(0, 0, 60, 20, 60, 40, 100, 40)?.slice(0, 2)).toEqual(
      [10, 10 / 3].map((v) => Math.round(1e6 * v) / 1e6),
    );
  });

  test('is none where every upright line meets the row more often', () => {
    expect(found(50, 0, 120, 30, -20, 40, 170, 50, 120, 15, 150, 0)).toBeNull();
    // Once round more than it goes on: twice over 0-50, never once.
    expect(found(0, 0, 250, 10, 100, 20)).toBeNull();
    expect(found(0, 0, 150, 10, 50, 20, 100, 30)).toBeNull();
  });

  test('is none in a window too narrow to clear what is beside it', () => {
    const window = (mm: number) => found(0, 0, 50, 10, 0, 20, 100, 30, 50 + mm, 40, 100, 50);
    expect(window(0.19)).toBeNull();
    expect(window(0.22)?.[0]).toBeCloseTo(50.11, 6);
    // Nor is there a row where one repeat is that narrow.
    expect(found(0, 0, 10, 5, 0.2, 10)).toBeNull();
    expect(found(0, 0, 0.21, 10)?.[0]).toBeCloseTo(0.105, 6);
  });
});

describe('the row cut there', () => {
  test('begins at the cut and ends one repeat on, through all that lay before it', () => {
    const made = cutAt(curl, alongMm);
    const wanted = [65, 27.5, 120, 0, 130, 10, 100, 20, 160, 30, 165, 27.5];
    expect(made.length).toBe(wanted.length);
    wanted.forEach((v, i) => {
      expect(made[i]).toBeCloseTo(v, 9);
    });
  });

  test('takes places before the cut one repeat on, and leaves the others', () => {
    const place = placeAfterCut(line(0, 0, 50, 20, 100, 6), 60);
    expect(place({ x: 25, y: 10 })).toEqual({ x: 125, y: 16 });
    expect(place({ x: 75, y: 13 })).toEqual({ x: 75, y: 13 });
  });
});
