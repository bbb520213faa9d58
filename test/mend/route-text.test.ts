/** What is said of a route, for each thing that it may have to stitch twice or to draw anew. */
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { routeText } from '../../src/mend/route-text.js';
import type { Route } from '../../src/route/plan.js';
import { line } from './drawings.js';

const setup = { ...defaultSetup, unit: 'mm' } as const;
const level = (mm: number) => line(0, 0, mm, 0);

function told(facts: Partial<Route>, strokes = 3, cut = 0, laps = 0): string {
  const plain: Route = {
    line: level(100),
    movedMm: 0,
    retraced: [],
    retracedMm: 0,
    atLeastMm: 0,
    exact: true,
    links: [],
    linkedMm: 0,
    linksTwice: 0,
    shortcuts: [],
    leads: [],
  };
  return routeText({ ...plain, ...facts }, { strokes, cut, laps }, setup);
}

describe('a route', () => {
  test('with nothing twice, through strokes or along one line', () => {
    expect(told({})).toBe('Found one line through 3 strokes: nothing is stitched twice.');
    expect(told({}, 1)).toBe('Found a better way along the line: nothing is stitched twice.');
  });

  test('says how many ends were cut off', () => {
    expect(told({}, 2, 1)).toBe(
      'Found one line through 2 strokes: nothing is stitched twice. 1 end that went past the line by less than a stitch is cut off there.',
    );
    expect(told({}, 2, 3)).toContain(
      '3 ends that went past the line by less than a stitch are cut off there.',
    );
    expect(told({}, 2, 0, 2)).toBe(
      'Found one line through 2 strokes: nothing is stitched twice. At 2 places two ends that overlapped are cut back to one line.',
    );
  });

  test('says of what is stitched twice whether it is the least', () => {
    expect(told({ retracedMm: 25.4 })).toBe(
      'Found one line through 3 strokes: 25.4 mm (1 in) of it is stitched twice, the least that these ends allow.',
    );
    expect(told({ retracedMm: 50.8, atLeastMm: 25.4, exact: false })).toBe(
      'Found one line through 3 strokes: 50.8 mm (2 in) of it is stitched twice, near the least: with so many branches the very least was not worked out, but it is not under 25.4 mm (1 in) (this is 2.00 times that).',
    );
  });

  test('tells links by their length, and those that are gone both ways', () => {
    const links = (count: number, linksTwice: number) =>
      told({
        links: Array.from({ length: count }, () => level(12.7)),
        linkedMm: count * 12.7,
        linksTwice,
        retracedMm: 25.4,
      }).replace(/^.* twice, /, '');
    expect(links(1, 0)).toBe(
      'the least that these ends and links allow. 1 link between parts that did not touch is 12.7 mm (1/2 in) long.',
    );
    expect(links(2, 0)).toBe(
      'the least that these ends and links allow. 2 links between parts that did not touch are 25.4 mm (1 in) long in all.',
    );
    const back = (which: string) =>
      `; the line goes there and back over ${which}, and the way back counts as stitched twice.`;
    expect(links(1, 1)).toContain(`12.7 mm (1/2 in) long${back('it')}`);
    expect(links(2, 2)).toContain(`25.4 mm (1 in) long in all${back('them')}`);
    expect(links(2, 1)).toContain(`25.4 mm (1 in) long in all${back('1 of them')}`);
  });

  test('says from which number of parts on a shorter way may exist', () => {
    const links = (count: number) =>
      told({ links: Array.from({ length: count }, () => level(1)), linkedMm: count });
    // Up to 24 parts are searched: 23 links join them.
    expect(links(23)).toMatch(/long in all\.$/);
    expect(links(24)).toMatch(/long in all; with so many parts a shorter way may exist\.$/);
  });

  test('tells new line that saves stitching twice, and leads', () => {
    expect(told({ shortcuts: [level(12.7)] })).toBe(
      'Found one line through 3 strokes: nothing is stitched twice. 1 stretch of new line, 12.7 mm (1/2 in) long, saves stitching more twice.',
    );
    const leads = [level(12.7), level(12.7)];
    expect(told({ shortcuts: [level(12.7), level(38.1)], leads, links: [level(25.4)], linkedMm: 25.4 })).toBe(
      'Found one line through 3 strokes: nothing is stitched twice. 2 stretches of new line, 50.8 mm (2 in) long in all, save stitching more twice. 1 link between parts that did not touch is 25.4 mm (1 in) long. Leads of 12.7 mm (1/2 in) before the start and after the end are the two halves of a link to the next repeat, which keeps repeats as far apart as parts.',
    );
  });
});
