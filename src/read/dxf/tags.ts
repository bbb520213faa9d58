/**
 * DXF text into tags, two lines each: a group code and its value (Autodesk, DXF Reference, "Group codes"). The
 * cursor looks at one tag at a time and keeps nothing, so a file of 64 MB costs no more than its text. Comments (999)
 * are handed aside. Linear in the text.
 */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';

const comment = 999;

export class Tags {
  code = 0;
  /** As it stands in its line, spaces too. */
  value = '';
  /** The line of the value, counted from 1. */
  line = 0;
  private at = 0;

  constructor(
    private readonly text: string,
    private readonly file: string,
    private readonly onComment: (text: string) => void,
  ) {}

  /**
   * The next tag; false where the text has ended.
   *
   * @throws Refusal where a line that should hold a group code does not
   */
  next(): boolean {
    for (;;) {
      const codeEnd = this.text.indexOf('\n', this.at);
      // A code without a line after it is a file cut short: what was being read is not whole.
      if (codeEnd < 0) return false;
      const code = this.codeIn(this.at, codeEnd);
      const found = this.text.indexOf('\n', codeEnd + 1);
      const end = found < 0 ? this.text.length : found;
      this.value = this.text.slice(codeEnd + 1, this.text.charCodeAt(end - 1) === 13 ? end - 1 : end);
      this.at = end + 1;
      this.line += 2;
      if (code === null) {
        // Blank lines after the end of the drawing.
        if (this.value.trim() === '' && this.text.slice(this.at).trim() === '') return false;
        throw new Refusal(
          `${this.file}, line ${grouped(this.line - 1)}: a DXF group code should stand here; the file is damaged.`,
        );
      }
      if (code === comment) this.onComment(this.value);
      else {
        this.code = code;
        return true;
      }
    }
  }

  /** The sections of definitions that begin after the place reached, each from its beginning; comments in them are not told. */
  sectionsAfter(): Tags[] {
    const found: Tags[] = [];
    let [line, counted] = [this.line, this.at];
    for (let at = this.text.indexOf('SECTION', this.at); at >= 0; at = this.text.indexOf('SECTION', at + 7)) {
      if (
        !/^SECTION[ \t]*\r?\n[ \t]*2[ \t]*\r?\n[ \t]*(?:HEADER|TABLES|BLOCKS)[ \t]*\r?\n/i.test(
          this.text.slice(at, at + 200),
        )
      )
        continue;
      const valueStart = this.text.lastIndexOf('\n', at) + 1;
      const start = this.text.lastIndexOf('\n', valueStart - 2) + 1;
      if (this.text.slice(start, at).trim() !== '0') continue;
      const section = new Tags(this.text, this.file, () => undefined);
      section.at = start;
      line += linesBetween(this.text, counted, start);
      counted = start;
      section.line = line;
      found.push(section);
    }
    return found;
  }

  /** The whole number between `from` and `end`, spaces round it; null where there is none. */
  private codeIn(from: number, end: number): number | null {
    let code = 0;
    let digits = 0;
    for (let i = from; i < end; i++) {
      const sign = this.text.charCodeAt(i);
      if (sign >= 48 && sign <= 57) {
        if (++digits > 5) return null;
        code = 10 * code + sign - 48;
      } else if (sign > 32 && !(sign === 45 && digits === 0)) return null;
    }
    return digits === 0 ? null : code;
  }
}

function linesBetween(text: string, from: number, to: number): number {
  let lines = 0;
  for (let at = text.indexOf('\n', from); at >= 0 && at < to; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}
