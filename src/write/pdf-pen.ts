/**
 * What is drawn on a page of a PDF: the operators of its content (ISO 32000-1, annex A), written in millimetres with y
 * down. As bytes from the start: a line of millions of points is never a text or an object for each.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { NumberSheet } from '../markup/number-sheet.js';

export const pointsPerMm = 72 / 25.4;
/** What a page may measure: 14,400 points (ISO 32000-1, annex C). */
export const mostPageMm = 14_400 / pointsPerMm;

export type PdfFont = 'plain' | 'bold';

/** A drawing that is placed many times and stands in the file once. */
export interface PdfForm {
  /** As the content calls it. */
  readonly name: string;
}

/** x' = a x + c y + e, y' = b x + d y + f. */
export type PdfMap = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export interface PdfStroke {
  readonly widthMm: number;
  /** `#rrggbb` */
  readonly colour: string;
  /** Dash and gap, mm. */
  readonly dashMm?: readonly number[];
}

export interface PdfText {
  readonly sizeMm: number;
  readonly font?: PdfFont;
  readonly colour?: string;
}

/** Longer lines are drawn in parts that meet under the round ends of the pen: printers are known to choke on them. */
const mostPoints = 1000;

/** So that a place 100 m off is right to a thousandth of a millimetre. */
const mapDigits = 9;

export class PdfPen {
  private readonly content = new NumberSheet();

  /** `encode` makes the text of a font into hexadecimal codes. */
  constructor(private readonly encode: (text: string, font: PdfFont) => string) {}

  bytes(): Uint8Array {
    return this.content.asBytes();
  }

  /** What `draw` sets (map, clip, pens) ends with it. */
  within(draw: () => void): void {
    this.put('q');
    draw();
    this.put('Q');
  }

  map(map: PdfMap): void {
    this.put(...map.map((value) => value.toFixed(mapDigits)), 'cm');
  }

  clip(x: number, y: number, width: number, height: number): void {
    this.put(x, y, width, height, 're W n');
  }

  stroke({ widthMm, colour, dashMm = [] }: PdfStroke): void {
    this.put(widthMm, 'w', ...rgb(colour), 'RG 1 J 1 j [', ...dashMm, '] 0 d');
  }

  fill(colour: string): void {
    this.put(...rgb(colour), 'rg');
  }

  line(line: Polyline): void {
    for (let from = 0; from + 2 < line.length; from += 2 * (mostPoints - 1)) {
      const part = line.subarray(from, from + 2 * mostPoints);
      this.way(part);
      this.put('S');
    }
  }

  /** The inside of a closed line. */
  area(corners: readonly Point[]): void {
    this.way(Float64Array.from(corners.flatMap(({ x, y }) => [x, y])));
    this.put('f');
  }

  box(x: number, y: number, width: number, height: number, how: 'stroke' | 'fill'): void {
    this.put(x, y, width, height, how === 'stroke' ? 're S' : 're f');
  }

  place({ name }: PdfForm): void {
    this.put(`/${name} Do`);
  }

  /** Its left end stands on the line at (x, y). */
  text(text: string, x: number, y: number, { sizeMm, font = 'plain', colour = '#000000' }: PdfText): void {
    this.put('BT', ...rgb(colour), `rg /${font}`, sizeMm, 'Tf 1 0 0 -1', x, y);
    this.put(`Tm <${this.encode(text, font)}> Tj ET`);
  }

  private way(line: Polyline): void {
    for (let i = 0; i < line.length; i += 2) this.put(line[i], line[i + 1], i === 0 ? 'm' : 'l');
  }

  private put(...words: readonly (number | string)[]): void {
    for (const word of words) {
      if (typeof word === 'number') this.content.number(word);
      else this.content.text(word);
      this.content.text(' ');
    }
  }
}

function rgb(colour: string): number[] {
  return [1, 3, 5].map((from) => Number.parseInt(colour.slice(from, from + 2), 16) / 255);
}
