/**
 * The cases of every rule: drawings that must pass it, near misses among them, and drawings that must fail it. What
 * stands in `expected.json` was planned when the case was drawn: its places to 1 mm, its number to 2 %.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { rules } from '../../rules/index.js';
import type { Finding, Severity } from '../../shared/finding.js';
import type { Point } from '../../shared/plane.js';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { setupFrom } from '../../src/setup/index.js';
import { findingsOf, motifIn } from '../checked.js';

const corpus = new URL('../../corpus/rules/', import.meta.url).pathname;

interface Expected {
  readonly placesMm?: readonly (readonly [number, number])[];
  /** Boxes: in each lies a place, and each place in one of them. */
  readonly withinMm?: readonly (readonly [number, number, number, number])[];
  readonly measured?: number;
  readonly says?: string;
  /** Where it differs from the rule's own. */
  readonly severity?: Severity;
  /** Errors that come with the defect: a mark beside the motif is a second stroke as well. */
  readonly also?: readonly string[];
}

function jsonIn(path: string): unknown {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : null;
}

/** The settings a folder's cases are judged under, as a user would write them. */
function setupIn(folder: string): Setup {
  const file = `${folder}linewright.json`;
  const json = jsonIn(file);
  return json === null ? defaultSetup : setupFrom({}, { settingsFile: { file, json }, rules });
}

function told({ severity, rule, message }: Finding): string {
  return `${severity} ${rule}: ${message}`;
}

/** How the finding differs from what was planned; null where it does not. */
function difference(
  { places, measured, severity, message }: Finding,
  expected: Expected,
  repeatMm: number,
): string | null {
  if (expected.severity && severity !== expected.severity) return `${severity}, not ${expected.severity}`;
  if (expected.says && !message.includes(expected.says))
    return `"${message}" does not say "${expected.says}"`;
  const wanted = expected.measured;
  if (wanted !== undefined && !(Math.abs((measured ?? Number.NaN) - wanted) <= 0.02 * wanted))
    return `measured ${measured}, not ${wanted}`;
  // A place is a box of no size.
  const planned = expected.withinMm ?? expected.placesMm?.map(([x, y]) => [x, y, x, y] as const);
  if (planned === undefined) return 'it is not planned where';
  const missed = planned.filter((box) => !places.some((at) => isIn(box, at, repeatMm)));
  if (missed.length > 0) return `no place at ${JSON.stringify(missed)}`;
  const others = places.filter((at) => !planned.some((box) => isIn(box, at, repeatMm)));
  return others.length > 0 ? `places that were not planned: ${JSON.stringify(others)}` : null;
}

/** To a millimetre. What lies beyond the motif lies in its next repeat, and is told in the first. */
function isIn(
  [left, top, right, bottom]: readonly [number, number, number, number],
  at: Point,
  repeatMm: number,
): boolean {
  const far = (x: number) =>
    Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - at.y, 0, at.y - bottom));
  return far(at.x) <= 1 || far(at.x + repeatMm) <= 1;
}

describe.each(rules.map(({ id }) => id))('%s', (id) => {
  const folder = `${corpus}${id}/`;
  const files = existsSync(folder) ? readdirSync(folder).sort() : [];
  const passing = files.filter((name) => /^pass-.*\.(svg|dxf|png|motif\.json)$/.test(name));
  const failing = files.filter((name) => /^fail-.*\.(svg|dxf|png|motif\.json)$/.test(name));
  const expected = (jsonIn(`${folder}expected.json`) ?? {}) as Record<string, Expected>;

  test('has two cases each way, and plans for none but its own', () => {
    expect(passing.length).toBeGreaterThanOrEqual(2);
    expect(failing.length).toBeGreaterThanOrEqual(2);
    expect(Object.keys(expected).filter((name) => !failing.includes(name))).toEqual([]);
  });

  test.each(passing)('%s', async (name) => {
    const setup = setupIn(folder);
    const findings = findingsOf(await motifIn(folder + name, setup), setup);
    expect(findings.filter(({ rule, severity }) => rule === id || severity === 'error').map(told)).toEqual(
      [],
    );
  });

  test.each(failing)('%s', async (name) => {
    const setup = setupIn(folder);
    const motif = await motifIn(folder + name, setup);
    const findings = findingsOf(motif, setup);
    const own = findings.filter(({ rule }) => rule === id);
    const related = expected[name]?.also ?? [];
    const errors = findings.filter(({ rule, severity }) => severity === 'error' && rule !== id);
    expect(errors.filter(({ rule }) => !related.includes(rule)).map(told)).toEqual([]);
    expect(related.filter((also) => !errors.some(({ rule }) => rule === also))).toEqual([]);
    // Of every case it is planned what is found and where, not only that something is.
    expect(own.map((finding) => difference(finding, expected[name] ?? {}, motif.widthMm))).toEqual([null]);
  });
});
