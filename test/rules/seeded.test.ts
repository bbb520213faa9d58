/** Every corpus motif is sound; with one defect planted, the right rule finds it, in place and in number. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../shared/finding.js';
import { pointCount } from '../../src/geometry/polyline.js';
import { distanceTo, findingsOf, flawsOf, motifIn, names } from '../checked.js';
import { type Planted, planted } from '../planted.js';

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;
const files = readdirSync(folder).filter((name) => name.endsWith('.svg'));

const placeMm = 1;
const share = 0.02;

/** What is wrong with the findings, in words; empty where they are as planted. */
function mistakes({ rule, where, measured }: Planted, findings: readonly Finding[], file: string): string[] {
  const grave = findings.filter(({ severity }) => severity === 'error');
  if (rule === null) return flawsOf(file, findings).map((name) => `unasked: ${name}`);
  const unrelated = names(grave.filter((finding) => finding.rule !== rule)).map(
    (name) => `unrelated: ${name}`,
  );
  const [found, ...more] = findings.filter((finding) => finding.rule === rule);
  if (!found) return [...unrelated, `${rule} did not fire`];
  const out = more.length > 0 ? [`${rule} fired ${more.length + 1} times`] : [];
  for (const at of found.places) {
    const off = Math.min(...where.map((line) => distanceTo(line, at)));
    if (!(off <= placeMm)) out.push(`(${at.x}, ${at.y}) is ${off} mm off`);
  }
  for (const dot of where.filter((line) => pointCount(line) === 1)) {
    const off = Math.min(...found.places.map((at) => distanceTo(dot, at)));
    if (!(off <= placeMm)) out.push(`no place near (${dot.join(', ')}): ${off} mm off`);
  }
  if (found.places.length === 0) out.push('no place');
  if (measured !== null && !(Math.abs(found.measured! - measured) <= share * measured))
    out.push(`measured ${found.measured} instead of ${measured}`);
  return [...unrelated, ...out];
}

test('there are motifs', () => expect(files.length).toBeGreaterThanOrEqual(12));

describe.each(files)('%s', async (file) => {
  const motif = await motifIn(folder + file);

  test('is clean', () => {
    expect(flawsOf(file, findingsOf(motif))).toEqual([]);
  });

  test.each(planted(motif))('with $name', (defect) => {
    expect(mistakes(defect, findingsOf(defect.motif), file)).toEqual([]);
  });
});
