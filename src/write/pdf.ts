/**
 * PDF: pages drawn in millimetres, drawings that are placed many times, text in fonts that every reader of PDF has. Knows
 * nothing of what is drawn. The library (`@cantoo/pdf-lib`) keeps the objects and writes the file; what stands on a page
 * is made by `PdfPen`. The same calls give the same bytes: no date, nothing at random.
 */
import {
  PDFCatalog,
  PDFContext,
  PDFHexString,
  PDFName,
  PDFPageLeaf,
  PDFPageTree,
  type PDFRef,
  PDFWriter,
  StandardFontEmbedder,
} from '@cantoo/pdf-lib';
import type { Box } from '../../shared/plane.js';
import { type PdfFont, type PdfForm, PdfPen, pointsPerMm } from './pdf-pen.js';

/** For the file's properties. */
export interface PdfAbout {
  readonly title: string;
  readonly author?: string;
  readonly subject?: string;
}

type FontName = Parameters<typeof StandardFontEmbedder.for>[0];
const objectsAtATime = 5000;
/** Of each property: more than any reader shows. */
const mostSigns = 1_000_000;

export class PdfFile {
  private readonly context = PDFContext.create();
  private readonly tree = PDFPageTree.withContext(this.context);
  private readonly treeRef = this.context.register(this.tree);
  private readonly fonts = {
    plain: StandardFontEmbedder.for('Helvetica' as FontName),
    bold: StandardFontEmbedder.for('Helvetica-Bold' as FontName),
  };
  private readonly placed: Record<string, PDFRef> = {};
  private readonly resources = this.context.nextRef();

  constructor(private readonly about: PdfAbout) {}

  /** `draw` must keep within `box`. */
  form(box: Box, draw: (pen: PdfPen) => void): PdfForm {
    const name = `Form${Object.keys(this.placed).length + 1}`;
    const { minX, minY, maxX, maxY } = box;
    this.placed[name] = this.context.register(
      this.context.flateStream(this.drawn(draw), {
        Type: 'XObject',
        Subtype: 'Form',
        BBox: [minX, minY, maxX, maxY],
      }),
    );
    return { name };
  }

  page(widthMm: number, heightMm: number, draw: (pen: PdfPen) => void): void {
    const [width, height] = [widthMm, heightMm].map((mm) => Number((mm * pointsPerMm).toFixed(3)));
    const content = this.drawn((pen) => {
      // From here on in millimetres, y down.
      pen.map([pointsPerMm, 0, 0, -pointsPerMm, 0, height]);
      draw(pen);
    });
    const page = PDFPageLeaf.withContextAndParent(this.context, this.treeRef);
    const { context } = this;
    page.set(PDFName.of('MediaBox'), context.obj([0, 0, width, height]));
    page.set(PDFName.of('Resources'), this.resources);
    page.set(PDFName.of('Contents'), context.register(context.flateStream(content)));
    this.tree.pushLeafNode(context.register(page));
  }

  /** Of text as it is drawn. */
  widthMm(text: string, sizeMm: number, font: PdfFont = 'plain'): number {
    return this.fonts[font].widthOfTextAtSize(inFont(text), sizeMm);
  }

  bytes(): Promise<Uint8Array> {
    const { context, about } = this;
    const font = Object.fromEntries(
      Object.entries(this.fonts).map(([key, embedder]) => [key, embedder.embedIntoContext(context)]),
    );
    context.assign(this.resources, context.obj({ Font: font, XObject: { ...this.placed } }));
    const catalog = PDFCatalog.withContextAndPages(context, this.treeRef);
    // Full size, and not fitted to the paper, unless somebody chooses otherwise.
    catalog.set(
      PDFName.of('ViewerPreferences'),
      context.obj({ PrintScaling: 'None', DisplayDocTitle: true }),
    );
    context.trailerInfo.Root = context.register(catalog);
    const { title, author, subject } = about;
    const info = { Title: title, Author: author, Subject: subject, Producer: 'Linewright' };
    context.trailerInfo.Info = context.register(
      context.obj(
        Object.fromEntries(
          Object.entries(info).flatMap(([key, value]) =>
            value === undefined ? [] : [[key, PDFHexString.fromText(value.slice(0, mostSigns))]],
          ),
        ),
      ),
    );
    return PDFWriter.forContext(context, objectsAtATime).serializeToBuffer();
  }

  private drawn(draw: (pen: PdfPen) => void): Uint8Array {
    const pen = new PdfPen((text, font) => this.fonts[font].encodeText(inFont(text)).asString());
    draw(pen);
    return pen.bytes();
  }
}

/**
 * The text in letters that the fonts have: accents that they lack go, other signs become a question mark (by the library),
 * what cannot be seen becomes a space.
 */
function inFont(text: string): string {
  return [...text.normalize('NFC')].map(sign).join('');
}

const latin =
  /^[\u0020-\u007e\u00a1-\u00ac\u00ae-\u00ff\u2013\u2014\u2018-\u201a\u201c-\u201e\u2020-\u2022\u2026\u2030\u20ac\u2122]$/;

function sign(letter: string): string {
  if (latin.test(letter)) return letter;
  if (/^[\p{C}\p{Z}]$/u.test(letter)) return ' ';
  const plain = letter
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replaceAll('\u2044', '/')
    .replaceAll('\u2033', '"')
    .replaceAll('\u2032', "'");
  return [...plain].map((each) => (latin.test(each) ? each : '?')).join('') || '?';
}
