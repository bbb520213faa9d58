/** Transforms that the reference does not know: the CSS property (CSS Transforms Level 1, 8 and 12). */
import { describe, expect, it } from 'vitest';
import { identity } from '../../src/geometry/matrix.js';
import { parseTransform } from '../../src/read/svg/transform.js';

const context = { fontSize: 10, width: 200, height: 100 };
const [half, root] = [0.5, Math.sqrt(3) / 2];

describe('the CSS functions', () => {
  it.each([
    ['rotate(30deg)', [root, half, -half, root, 0, 0]],
    ['rotate(0.25turn)', [0, 1, -1, 0, 0, 0]],
    ['rotate(100grad)', [0, 1, -1, 0, 0, 0]],
    [`rotate(${Math.PI / 2}rad)`, [0, 1, -1, 0, 0, 0]],
    ['skew(45deg)', [1, 0, 1, 1, 0, 0]],
    ['skew(0deg, 45deg)', [1, 1, 0, 1, 0, 0]],
    ['skewX(45deg)', [1, 0, 1, 1, 0, 0]],
    ['skewY(45deg)', [1, 1, 0, 1, 0, 0]],
    ['translate(10%, 10%)', [1, 0, 0, 1, 20, 10]],
    ['translateX(1in)', [1, 0, 0, 1, 96, 0]],
    ['translateY(2em)', [1, 0, 0, 1, 0, 20]],
    ['scaleX(2)', [2, 0, 0, 1, 0, 0]],
    ['scaleY(50%)', [1, 0, 0, 0.5, 0, 0]],
    ['translate(1px, 2px) scale(3)', [3, 0, 0, 3, 1, 2]],
    ['none', identity],
  ])('%s', (text, expected) => {
    const matrix = parseTransform(text, context);
    for (const [i, value] of expected.entries()) expect(matrix?.[i]).toBeCloseTo(value, 12);
  });

  it.each([
    'rotate(1,2)',
    'scale(1',
    'matrix(1 2 3)',
    'translate(1,,2)',
    'spin(1)',
    ',scale(2)',
    'scale(2),,scale(2)',
  ])('a list in error counts for nothing: %s', (text) => expect(parseTransform(text, context)).toBeNull());
});
