/** Every file of the corpus that the script draws: its path under the corpus folder, and its text. */
import type { Case } from './cases/case.js';
import { dxfCases } from './cases/dxf.js';
import { endCases } from './cases/ends.js';
import { fileCases } from './cases/file.js';
import { lineCases } from './cases/line.js';
import { rowCases, rowSettings } from './cases/rows.js';
import { stitchCases } from './cases/stitching.js';
import { rights } from './drawing.js';
import { motifs } from './motifs/index.js';
import { pieceDrawings } from './pieces.js';

/** Settings that the cases of a rule are judged under. */
const settings: Readonly<Record<string, object>> = {
  'fits-throat': { throat: '8in' },
  ...rowSettings,
};

export function corpusFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const { name, flavour, stroke, ...credit } of motifs)
    files.set(`motifs/${name}.svg`, flavour({ ...credit, rights, strokes: [stroke] }));
  for (const { name, flavour, drawing } of pieceDrawings) files.set(`pieces/${name}.svg`, flavour(drawing));
  const cases = [...fileCases, ...dxfCases, ...lineCases, ...endCases, ...stitchCases, ...rowCases];
  for (const { rule, name, ending = '.svg', text } of cases)
    files.set(`rules/${rule}/${name}${ending}`, text);
  for (const [rule, known] of expectations(cases)) files.set(`rules/${rule}/expected.json`, json(known));
  for (const [rule, setting] of Object.entries(settings))
    files.set(`rules/${rule}/linewright.json`, json(setting));
  return files;
}

/** By rule, what is known beforehand of its failing cases, by file. */
function expectations(cases: readonly Case[]): ReadonlyMap<string, Record<string, object>> {
  const byRule = new Map<string, Record<string, object>>();
  for (const { rule, name, ending = '.svg', expected } of cases)
    if (expected) byRule.set(rule, { ...byRule.get(rule), [`${name}${ending}`]: expected });
  return byRule;
}

const json = (value: object) => `${JSON.stringify(value, null, 2)}\n`;
