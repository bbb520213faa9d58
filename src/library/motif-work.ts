/**
 * The work on one source file: read, size, mend with the default set, judge, and write motif file, SVG, PNG and
 * sheet. Whatever the file holds, the answer is an entry for the index; only where the library cannot be written to
 * is there none.
 */
import { createHash } from 'node:crypto';
import { basename, join } from 'node:path';
import { rules } from '../../rules/index.js';
import type { Finding } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import { naming, Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { readRegularFile, writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import { studyOf } from '../measure/index.js';
import { mendMotif } from '../mend/index.js';
import { motifPicture } from '../picture/index.js';
import { readArtwork } from '../read/index.js';
import { writeSheet } from '../sheet/sheet.js';
import { sheetContent } from '../sheet/sheet-content.js';
import { toMotif } from '../size/index.js';
import { writeMotif, writeSvg } from '../write/index.js';
import { writePng } from '../write/png.js';
import type { Entry, FileEntry, MotifEntry, Verdict } from './contents/index-file.js';
import { motifsFolder } from './contents/index-file.js';
import { signatureOf } from './contents/shape.js';
import { toDeskPage } from './page/to-desk.js';

export interface MotifJob {
  /** Where the source lies on disk. */
  readonly path: string;
  /** The same, as the index has it. */
  readonly source: string;
  readonly sha256: string;
  readonly setupKey: string;
  readonly name: string;
  /** The library's folder. */
  readonly folder: string;
  readonly setup: Setup;
  /** Mend what changes the look, too. */
  readonly reshape: boolean;
}

/** The last hands the motif over to the desk. */
const endings = ['.motif.json', '.svg', '.png', '.html', '.desk.htm'] as const;

/** The outputs of a motif of this name, from the library's folder. */
export function outputPaths(name: string): string[] {
  return endings.map((ending) => `${motifsFolder}/${name}${ending}`);
}

const thumbnailPx = 480;

/** @throws Refusal where an output cannot be written */
export async function workOnMotif(job: MotifJob): Promise<Entry> {
  const { path, source, setupKey, setup } = job;
  let { sha256 } = job;
  let made: Made;
  try {
    const file = await readRegularFile(path, setup.limits);
    sha256 = file.sha256;
    const artwork = await readArtwork(file.bytes, source, setup);
    const motif = naming(source, () => toMotif(artwork, setup));
    made = await mended(withSource(motif, basename(path), sha256), job);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    // What is wrong in the file is told by its source already; that it cannot be read, by its path.
    const isTold = error.message.startsWith(source);
    const reason = isTold ? error.message : error.message.replaceAll(path, source);
    return { source, sha256, setup: setupKey, status: 'unreadable', reason };
  }
  const { outputs, status, motif } = made;
  // All of them come to their end, also where one fails: none is cut off in the middle.
  const written = await Promise.allSettled(
    outputs.map(([file, data]) => writeWhole(join(job.folder, file), data, { force: true })),
  );
  for (const each of written) if (each.status === 'rejected') throw each.reason;
  return { source, sha256, setup: setupKey, status, motif };
}

/** What goes into the index, and into files, whose paths start at the library's folder. */
interface Made extends Required<Pick<Entry, 'status' | 'motif'>> {
  readonly outputs: readonly (readonly [string, string | Uint8Array])[];
}

/** A motif file tells its own source already; that one stays. */
function withSource(motif: Motif, file: string, sha256: string): Motif {
  return motif.source ? motif : { ...motif, source: { file, sha256, statedSize: motif.statedSizeMm } };
}

async function mended(original: Motif, { setup, name, reshape }: MotifJob): Promise<Made> {
  // Of two motifs of one name the second is called by its own, on its sheet as well.
  const { motif, accounts, notMended } = mendMotif({ ...original, name }, setup, { reshape });
  const study = studyOf(motif, setup);
  const findings = lint(
    study,
    rules,
    notMended.map(({ mend }) => mend),
  );
  const content = sheetContent(study, findings, [...accounts, ...notMended]);
  const [motifPath, svgPath, pngPath, sheetPath, deskPath] = outputPaths(name);
  const motifFile = writeMotif(motif);
  const outputs = [
    [motifPath, motifFile],
    [svgPath, writeSvg(motif)],
    [pngPath, await writePng(motifPicture(motif, { widthPx: thumbnailPx }), thumbnailPx)],
    [sheetPath, writeSheet(content)],
    [deskPath, toDeskPage(name, motifFile)],
  ] as const;
  const files = outputs.map(([path, data]) => fileEntry(path, data));
  return { outputs, status: verdictOf(findings), motif: motifEntry(name, study, findings, content, files) };
}

function fileEntry(path: string, data: string | Uint8Array): FileEntry {
  return { path, bytes: Buffer.byteLength(data), sha256: createHash('sha256').update(data).digest('hex') };
}

function verdictOf(findings: readonly Finding[]): Verdict {
  if (findings.some(({ severity }) => severity === 'error')) return 'errors';
  return findings.some(({ severity }) => severity === 'warning') ? 'warnings' : 'clean';
}

function motifEntry(
  name: string,
  study: Study,
  findings: readonly Finding[],
  { nestings, recommended }: Pick<ReturnType<typeof sheetContent>, 'nestings' | 'recommended'>,
  files: readonly FileEntry[],
): MotifEntry {
  const { motif, stitches } = study;
  const { title, creator, rights } = motif.credit;
  return {
    name,
    ...(title !== undefined && { title }),
    ...(creator !== undefined && { creator }),
    ...(rights !== undefined && { rights }),
    widthMm: toMicron(study.widthMm),
    heightMm: toMicron(study.heightMm),
    lengthMm: toMicron(study.lengthMm),
    assumedSize: motif.assumedSize,
    stitches: stitches.count,
    needleThreadM: toMicron(stitches.needleThreadM),
    recommended,
    rows: nestings.map(({ layout, closestSpacingMm, evenSpacingMm, even }) => ({
      layout,
      closestMm: toMicron(closestSpacingMm),
      evenMm: toMicron(evenSpacingMm),
      openMm: toMicron(even.largestOpenMm),
      evenness: toMicron(even.openness),
    })),
    findings: findings.map(({ rule, severity, message, measured, limit, unit }) => ({
      rule,
      severity,
      message,
      measured: measured === null ? null : toMicron(measured),
      limit,
      unit,
    })),
    mended: motif.mended.map(({ mend }) => mend),
    files,
    shape: signatureOf(study.strokes.length > 0 ? study.strokes : motif.strokes),
  };
}

/** The index carries numbers to three decimals. */
function toMicron(value: number): number {
  return Math.round(value * 1000) / 1000;
}
