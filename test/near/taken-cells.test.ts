import fc from 'fast-check';
import { expect, test } from 'vitest';
import { TakenCells } from '../../src/near/taken-cells.js';

test('cells are taken once each, as in a set of their names', () => {
  const place = fc.integer({ min: -20, max: 20 });
  fc.assert(
    fc.property(fc.array(fc.tuple(place, fc.nat(20))), (cells) => {
      const taken = new TakenCells(cells.length);
      const names = new Set<string>();
      for (const [column, row] of cells) {
        const name = `${column} ${row}`;
        expect(taken.take(column, row)).toBe(!names.has(name));
        names.add(name);
      }
    }),
  );
});
