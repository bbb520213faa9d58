/**
 * Lines as DXF, the published exchange format for drawings (Autodesk's DXF Reference, AC1015): ASCII, millimetres,
 * y up, one LWPOLYLINE a stroke, vertices only, to 0.001 mm. The tables, blocks and the dictionary that AC1015 asks
 * for are there and hold nothing else.
 *
 * All text from elsewhere goes through `dxfText`: a title with line ends in it could otherwise forge entities.
 */
import type { Motif } from '../../shared/motif.js';
import type { LinkRange } from '../../shared/plan.js';
import type { Point, Polyline } from '../../shared/plane.js';
import type { Credit } from '../../shared/provenance.js';
import { NumberSheet } from '../markup/number-sheet.js';
import { toMicron } from '../markup/number-text.js';
import { layersOf } from '../plan/line-layers.js';

export interface DxfLayer {
  /** What it holds: `stitch`, `link`. Letters, digits, `-` and `_`. */
  readonly name: string;
  /** Millimetres, y down. */
  readonly strokes: readonly Polyline[];
}

export interface DxfDrawing {
  readonly layers: readonly DxfLayer[];
  /** The place, in the coordinates of the strokes, that is 0, 0 in the file. */
  readonly origin: Point;
  /** Written as comments `linewright KEY: …`, in this order. */
  readonly comments: Readonly<Record<string, string | undefined>>;
}

/**
 * The motif on the layer `stitch`, its lower left corner at 0, 0, or its origin at `place` with y up; what is `links` on
 * the layer `link`; its credits as comments.
 */
export function writeDxf(
  { strokes, heightMm, credit }: Motif,
  place?: Point,
  links: readonly LinkRange[] = [],
): string {
  const { stitch, link } = layersOf(strokes, links);
  return dxfOf({
    layers: [
      { name: 'stitch', strokes: stitch },
      ...(link.length > 0 ? [{ name: 'link', strokes: link }] : []),
    ],
    origin: place ? { x: -place.x, y: -place.y } : { x: 0, y: toMicron(heightMm) },
    comments: creditComments(credit),
  });
}

export function creditComments(credit: Credit): Readonly<Record<string, string | undefined>> {
  return { ...credit };
}

/** The text of a DXF file. */
export function dxfOf({ layers, origin, comments }: DxfDrawing): string {
  const file = new Tags();
  for (const [key, value] of Object.entries(comments)) {
    if (value !== undefined)
      for (const part of parts(dxfText(value))) file.add(999, `linewright ${key}: ${part}`);
  }
  file.section('HEADER', () => {
    file.add(9, '$ACADVER', 1, 'AC1015', 9, '$INSUNITS', 70, 4, 9, '$MEASUREMENT', 70, 1);
    file.add(9, '$HANDSEED', 5, 'FFFFFFFF');
  });
  file.section('CLASSES', () => undefined);
  file.section('TABLES', () => tables(file, layers));
  file.section('BLOCKS', () => {
    for (const [name, record] of spaces) block(file, name, record);
  });
  file.section('ENTITIES', () => {
    for (const { name, strokes } of layers)
      for (const stroke of strokes) polyline(file, name, stroke, origin);
  });
  file.section('OBJECTS', () => {
    file.add(0, 'DICTIONARY', 5, file.handle(), 330, '0', 100, 'AcDbDictionary', 281, 1);
  });
  file.add(0, 'EOF');
  return file.text();
}

/** Text as one line of ASCII: everything else as `\U+XXXX`, and a backslash that could be taken for one of these. */
export function dxfText(text: string): string {
  return text.replace(/[^ -~]|\\(?=U\+)/g, (unit) => escaped(unit)).replace(/^ | $/g, escaped);
}

function escaped(unit: string): string {
  return `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Lines of a DXF file hold 255 characters: a longer text goes on in the next comment of its key. */
function parts(text: string): readonly string[] {
  return text.match(/(?:\\U\+[\dA-F]{4}|.){1,32}/g) ?? [''];
}

/** Model space and paper space, with the handles of their block records. */
const spaces = [
  ['*Model_Space', '1F'],
  ['*Paper_Space', '1E'],
] as const;
const modelSpace = spaces[0][1];

class Tags {
  private readonly sheet = new NumberSheet();
  private last = 0xff;

  /** Group codes and values in turn. */
  add(...tags: readonly (number | string)[]): void {
    for (let i = 0; i < tags.length; i += 2)
      this.sheet.text(`${String(tags[i]).padStart(3)}\r\n${tags[i + 1]}\r\n`);
  }

  vertex(x: number, y: number): void {
    this.sheet.text(' 10\r\n');
    this.sheet.number(x);
    this.sheet.text('\r\n 20\r\n');
    this.sheet.number(y);
    this.sheet.text('\r\n');
  }

  section(name: string, fill: () => void): void {
    this.add(0, 'SECTION', 2, name);
    fill();
    this.add(0, 'ENDSEC');
  }

  handle(): string {
    return (++this.last).toString(16).toUpperCase();
  }

  text(): string {
    return this.sheet.toString();
  }
}

function tables(file: Tags, layers: readonly DxfLayer[]): void {
  const table = (name: string, kind: string, entries: readonly (readonly (number | string)[])[]) => {
    const own = file.handle();
    file.add(0, 'TABLE', 2, name, 5, own, 330, '0', 100, 'AcDbSymbolTable', 70, entries.length);
    if (name === 'DIMSTYLE') file.add(100, 'AcDbDimStyleTable');
    for (const [handle, ...entry] of entries) {
      file.add(0, name, 5, handle, 330, own, 100, 'AcDbSymbolTableRecord', 100, kind, ...entry);
    }
    file.add(0, 'ENDTAB');
  };
  const lineType = (name: string) => [file.handle(), 2, name, 70, 0, 3, '', 72, 65, 73, 0, 40, 0];
  const layer = (name: string) => [file.handle(), 2, name, 70, 0, 62, 7, 6, 'Continuous'];
  table('VPORT', 'AcDbViewportTableRecord', []);
  table('LTYPE', 'AcDbLinetypeTableRecord', ['ByBlock', 'ByLayer', 'Continuous'].map(lineType));
  table('LAYER', 'AcDbLayerTableRecord', ['0', ...layers.map(({ name }) => name)].map(layer));
  table('STYLE', 'AcDbTextStyleTableRecord', [
    [file.handle(), 2, 'Standard', 70, 0, 40, 0, 41, 1, 50, 0, 71, 0, 42, 2.5, 3, 'txt', 4, ''],
  ]);
  table('VIEW', 'AcDbViewTableRecord', []);
  table('UCS', 'AcDbUCSTableRecord', []);
  table('APPID', 'AcDbRegAppTableRecord', [[file.handle(), 2, 'ACAD', 70, 0]]);
  table('DIMSTYLE', 'AcDbDimStyleTableRecord', []);
  table(
    'BLOCK_RECORD',
    'AcDbBlockTableRecord',
    spaces.map(([name, record]) => [record, 2, name]),
  );
}

function block(file: Tags, name: string, record: string): void {
  file.add(0, 'BLOCK', 5, file.handle(), 330, record, 100, 'AcDbEntity', 8, '0', 100, 'AcDbBlockBegin');
  file.add(2, name, 70, 0, 10, 0, 20, 0, 30, 0, 3, name, 1, '');
  file.add(0, 'ENDBLK', 5, file.handle(), 330, record, 100, 'AcDbEntity', 8, '0', 100, 'AcDbBlockEnd');
}

function polyline(file: Tags, layer: string, stroke: Polyline, origin: Point): void {
  file.add(0, 'LWPOLYLINE', 5, file.handle(), 330, modelSpace, 100, 'AcDbEntity', 8, layer);
  file.add(100, 'AcDbPolyline', 90, stroke.length / 2, 70, 0);
  for (let i = 0; i < stroke.length; i += 2) {
    file.vertex(stroke[i] - origin.x, origin.y - stroke[i + 1]);
  }
}
