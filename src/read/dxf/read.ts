/** Reads a DXF drawing: text, tags, records, document, walk. What came of it is in millimetres, y down. */
import type { Credit } from '../../../shared/provenance.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Drawn, ReadOptions } from '../intake/importer.js';
import { Intake } from '../intake/intake.js';
import { readDocument } from './document.js';
import { plainText, recordsIn } from './record.js';
import { Tags } from './tags.js';
import { unitsOf } from './units.js';
import { Walk } from './walk.js';

/**
 * Everything in a DXF drawing that has a line is one, so `take` changes nothing; line types are passed over, so no
 * line is dashed.
 *
 * @throws Refusal where the text is no DXF from some line on, a limit is passed, or lines are to be chosen by colour
 */
export async function readDxf(
  bytes: Uint8Array,
  file: string,
  { limits, layers = [], colours = [] }: ReadOptions,
): Promise<Drawn> {
  if (colours.length > 0)
    throw new Refusal(`${file}: lines of a DXF drawing are chosen by --layer, not by colour.`);
  const credit: Record<string, string> = {};
  const text = textOf(bytes);
  const tags = new Tags(text, file, (comment) => creditIn(comment, credit));
  const document = readDocument(recordsIn(tags), () => tags.sectionsAfter().map(recordsIn), file, limits);
  const { mm, assumed } = unitsOf(document.header);
  const intake = new Intake();
  const walk = new Walk(document, file, limits, intake, layers);
  walk.run([mm, 0, 0, 0, 0, -mm, 0, 0, 0, 0, mm, 0]);
  return {
    lines: walk.lines,
    assumedSize: assumed !== null,
    ...(assumed && { assumedScale: assumed }),
    statedSizeMm: null,
    credit: Object.fromEntries(Object.entries(credit).map(([key, text]) => [key, plainText(text)])),
    notes: intake.notes(),
  };
}

/** UTF-8 since 2007; before, the code page of the program: only names and words can differ, never a number. */
function textOf(bytes: Uint8Array): string {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    text = new TextDecoder('windows-1252').decode(bytes);
  }
  return text.includes('\n') ? text : text.replaceAll('\r', '\n');
}

const creditKeys: readonly (keyof Credit)[] = ['title', 'creator', 'rights', 'description'];

/** Credits that we wrote: `linewright title: …`, a long one in several comments. */
function creditIn(comment: string, credit: Record<string, string>): void {
  const match = /^linewright (\w+): (.*)$/s.exec(comment);
  const key = creditKeys.find((each) => each === match?.[1]);
  if (match && key) credit[key] = (credit[key] ?? '') + match[2];
}
