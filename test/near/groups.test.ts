import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Groups } from '../../src/near/groups.js';

const links = fc.array(fc.tuple(fc.integer({ min: 0, max: 29 }), fc.integer({ min: 0, max: 29 })), {
  maxLength: 40,
});

test('what is joined, also by way of others, is one group, and nothing else is', () => {
  fc.assert(
    fc.property(links, (joined) => {
      const groups = new Groups(30);
      for (const [a, b] of joined) groups.join(a, b);
      // By colouring: each link gives all of one colour the other.
      let colours = Array.from({ length: 30 }, (_, i) => i);
      for (const [a, b] of joined)
        colours = colours.map((colour) => (colour === colours[a] ? colours[b] : colour));
      for (let i = 0; i < 30; i++)
        expect(colours.map((_, k) => groups.of(i) === groups.of(k))).toEqual(
          colours.map((colour) => colour === colours[i]),
        );
      expect(
        groups
          .members()
          .flat()
          .sort((a, b) => a - b),
      ).toEqual(colours.map((_, i) => i));
    }),
    { seed: 6, numRuns: 50 },
  );
});

test('there is room for more', () => {
  const groups = new Groups();
  for (let i = 0; i < 100; i++) expect(groups.add()).toBe(i);
  groups.join(3, 99);
  expect(groups.of(3)).toBe(groups.of(99));
  expect(groups.members()).toHaveLength(99);
});
