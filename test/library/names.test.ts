import fc from 'fast-check';
import { expect, it } from 'vitest';
import { namesFor } from '../../src/library/names.js';

it('gives every source its own name, also where upper and lower case are one, and keeps those it has', () => {
  const word = fc.constantFrom('swell', 'Swell', 'kelp', 'kelp-2', 'sail');
  fc.assert(
    fc.property(fc.array(word, { maxLength: 12 }), fc.integer({ min: 0, max: 12 }), (wishes, first) => {
      const sources = wishes.map((_, i) => `folder-${i}/file`);
      const wish = (source: string) => wishes[sources.indexOf(source)];
      const before = namesFor(sources.slice(0, first), new Map(), wish);
      const names = namesFor(sources, before, wish);
      expect(names.size).toBe(sources.length);
      expect(new Set([...names.values()].map((name) => name.toLowerCase())).size).toBe(sources.length);
      for (const [source, name] of before) expect(names.get(source)).toBe(name);
    }),
    { seed: 3 },
  );
});

it('numbers the second of two alike, the way outputs of one run are numbered', () => {
  const names = namesFor(['a/swell.svg', 'b/swell.svg'], new Map(), () => 'swell');
  expect([...names.values()]).toEqual(['swell', 'swell-2']);
});
