/** The rules as a whole, and the size of a file without units; what each says is in the files beside this one. */
import { describe, expect, test } from 'vitest';
import { rules } from '../../rules/index.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import { messages } from './judge.js';

describe('the rules', () => {
  test('stand in the order of the documentation', () => {
    const ids = rules.map(({ id }) => id);
    expect(ids).toEqual([
      'physical-size',
      'no-namespace',
      'stray-artwork',
      'hidden-artwork',
      'broken-path',
      'traced-line',
      'outlined-line',
      'one-stroke',
      'near-gap',
      'repeated-line',
      'opposite-edges',
      'level-ends',
      'runs-left-to-right',
      'smooth-join',
      'repeat-collision',
      'tight-curve',
      'sharp-turn',
      'crowded-lines',
      'thread-pile',
      'short-steps',
      'row-nesting',
      'row-collision',
      'open-area',
      'fits-throat',
      'plausible-size',
    ]);
  });

  test('stand back only for earlier rules', () => {
    rules.forEach(({ unless = [] }, i) => {
      const earlier = rules.slice(0, i).map(({ id }) => id);
      expect(unless.filter((id) => !earlier.includes(id))).toEqual([]);
    });
  });

  test('speak in sentences', () => {
    for (const { id, what, why, remedy } of rules)
      for (const text of [what, why, remedy]) expect(`${id}: ${text}`).toMatch(/^[a-z-]+: [A-Z].*[.)]$/);
  });
});

describe('physical-size', () => {
  // 1in = 96px = 72pt (CSS Values and Units 3, 6.2): the same number of units is a third larger at 72 to the inch.
  test('says what 96 and 72 units to the inch would give', async () => {
    const page =
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path stroke="red" d="M0 0H9"/></svg>';
    const { assumedScale } = await readArtwork(new TextEncoder().encode(page), 'bare.svg', defaultSetup);
    const motif = { assumedSize: true, assumedScale, widthMm: 150, heightMm: 75 };
    expect(messages('physical-size', { motif }, sayIn('mm'))).toEqual([
      'The file does not say how large the motif is. At 96 units to the inch, as taken here, it is 150 x 75 mm (5 7/8 x 2 15/16 in); at 72 it would be 200 x 100 mm (7 7/8 x 3 15/16 in). Give its size with --height or --width.',
    ]);
    expect(messages('physical-size', { motif: { ...motif, assumedSize: false } })).toEqual([]);
  });

  test('says what another scale in use would give, where the kind of file has one', () => {
    const assumedScale = { taken: 'inches', other: 'millimetres', timesAsLarge: 1 / 25.4 };
    const motif = { assumedSize: true, assumedScale, widthMm: 254, heightMm: 127 };
    expect(messages('physical-size', { motif })).toEqual([
      'The file does not say how large the motif is. At inches, as taken here, it is 254 x 127 mm; at millimetres it would be 10 x 5 mm. Give its size with --height or --width.',
    ]);
  });
});
