/**
 * The small cases of `corpus/reading`, one a feature, against the reference reading. Where the two differ on purpose
 * it is said here which way, and why.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { disagreement } from './agreement.js';

const folder = new URL('../../corpus/reading/', import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith('.svg'));

/**
 * Cases that the reference does not read as the standard has it, each with the same drawing written so that it does.
 */
const differences: Readonly<Record<string, readonly [why: string, from: string | RegExp, to: string]>> = {
  'css-attribute-start.svg': [
    'the reference does not know [id^=…]',
    /<path id="b2"/,
    '<path stroke="blue" id="b2"',
  ],
  'css-transform.svg': [
    'the reference does not know transform as a CSS property (CSS Transforms 1)',
    'style="transform:rotate(20deg)"',
    'transform="rotate(20)"',
  ],
  'css-transform-list.svg': [
    'the reference does not know transform as a CSS property (CSS Transforms 1)',
    'class="a"',
    'transform="translate(20 10) scale(.5)"',
  ],
  'transform-origin.svg': [
    'the reference does not know transform-origin (CSS Transforms 1)',
    'transform="rotate(45)"',
    'transform="rotate(45 60 40)"',
  ],
  'transform-on-svg.svg': [
    'the reference applies the transform of a nested svg twice (SVG 2, 8.5)',
    /<svg transform="rotate\(10\)"(.*?)<\/svg>/,
    '<g transform="rotate(10)"><svg$1</svg></g>',
  ],
  'page-width-only.svg': [
    'the reference takes the missing height in px from the viewBox; we keep the proportion',
    'width="100mm"',
    'width="100mm" height="40mm"',
  ],
  'page-height-only.svg': [
    'the reference takes the missing width in px from the viewBox; we keep the proportion',
    'height="50mm"',
    'width="125mm" height="50mm"',
  ],
  'path-error-comma.svg': [
    'the reference reads on after a comma with no number behind it (SVG 2, 9.3.9)',
    ',h10',
    '',
  ],
  'use-loop.svg': ['the reference gives the whole file up', /<defs>.*<path/, '<path'],
  'style-important.svg': [
    'the reference knows no !important in style sheets (CSS Cascade 4, 6)',
    'class="k" style="stroke:none"',
    'stroke="red"',
  ],
};

describe('the small cases', () => {
  it.each(names)('%s agrees with the reference', async (name) => {
    const svg = readFileSync(new URL(name, folder), 'utf8');
    const [, from, to] = differences[name] ?? ['', '', ''];
    expect(await disagreement(svg, name, 'lines', svg.replace(from, to))).toBe('');
  });

  it('are one a feature, and few need another writing for the reference', () => {
    expect(names.length).toBeGreaterThan(120);
    for (const name of Object.keys(differences)) expect(names).toContain(name);
    expect(Object.keys(differences).length).toBeLessThan(names.length / 10);
  });
});
