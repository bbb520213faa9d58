/**
 * A pattern on paper: rows of a motif at full size on sheets that are put together, for machines that are guided by hand.
 * `layOnPaper` lays the sheets out, `writePaper` makes the PDF of it.
 */
import type { Study } from '../../shared/study.js';
import type { Paper } from './lay-out.js';

export { layOnPaper, type Paper, type PaperWanted, type Tile } from './lay-out.js';
export { papers, parseCount, parsePaper, usualPaper } from './size.js';

/** The bytes of the PDF, the same for the same paper. The PDF library is loaded only now. */
export async function writePaper(study: Study, paper: Paper): Promise<Uint8Array> {
  const { pdfOfPaper } = await import('./pdf-of-paper.js');
  return pdfOfPaper(study, paper);
}
