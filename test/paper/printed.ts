/** Pages of a PDF as poppler (pdftocairo, Debian) prints them: the outside reader. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';

/** Ten pixels to the millimetre. */
export const pxPerMm = 10;

/** Half covered by ink; the grey of marks is paler. */
const darkest = 100;

export interface Printed {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Whether ink of a line, not the grey of marks, lies at a place, mm from the upper left corner of the page. */
  dark(xMm: number, yMm: number): boolean;
  /** In square millimetres. */
  readonly darkArea: number;
}

export function saved(pdf: Uint8Array): string {
  const file = join(mkdtempSync(join(tmpdir(), 'linewright-paper-')), 'pattern.pdf');
  writeFileSync(file, pdf);
  return file;
}

export function printedPages(file: string, first = 1, last = 9999): Printed[] {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-pages-'));
  execFileSync('pdftocairo', [
    '-png',
    '-gray',
    '-f',
    String(first),
    '-l',
    String(last),
    '-r',
    String(25.4 * pxPerMm),
    file,
    join(folder, 'page'),
  ]);
  return readdirSync(folder)
    .sort()
    .map((name) => printed(PNG.sync.read(readFileSync(join(folder, name)))));
}

function printed({ width, height, data }: PNG): Printed {
  const isDark = (x: number, y: number) => data[4 * (y * width + x)] < darkest;
  let count = 0;
  for (let i = 0; i < data.length; i += 4) if (data[i] < darkest) count++;
  return {
    widthPx: width,
    heightPx: height,
    dark: (xMm, yMm) => isDark(Math.floor(xMm * pxPerMm), Math.floor(yMm * pxPerMm)),
    darkArea: count / pxPerMm ** 2,
  };
}

/** Lines of `pdfinfo`, by their names. */
export function pdfinfo(file: string): Record<string, string> {
  const text = execFileSync('pdfinfo', ['-f', '1', '-l', '9999', file], { encoding: 'utf8' });
  return Object.fromEntries(
    text.split('\n').flatMap((line) => {
      const parts = /^([^:]+):\s*(.*)$/.exec(line);
      return parts ? [[parts[1].replace(/\s+/g, ' '), parts[2].trim()]] : [];
    }),
  );
}

export function pdftotext(file: string, page: number): string {
  const text = execFileSync('pdftotext', ['-f', String(page), '-l', String(page), '-layout', file, '-'], {
    encoding: 'utf8',
  });
  return text.replace(/\s+/g, ' ');
}
