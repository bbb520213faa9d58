/**
 * Reads numbers one after the other from an attribute's text, as the grammars of SVG 2 (9.3.9 and 4.2) write them:
 * run together wherever they can be told apart (`1-2`, `.5.5`), separated by spaces and at most one comma.
 *
 * A decimal of up to fifteen digits is put together from its digits: a whole number below 2^53 times or over a
 * power of ten up to 10^22 is exact (W. Clinger, How to Read Floating Point Numbers Accurately, 1990). Any other
 * goes through `Number`.
 */
const exactPowers = Array.from({ length: 23 }, (_, i) => 10 ** i);

export class NumberScanner {
  readonly text: string;
  /** Index of the next character. */
  at = 0;

  constructor(text: string) {
    this.text = text;
  }

  get atEnd(): boolean {
    return this.at >= this.text.length;
  }

  skipSpaces(): void {
    const { text } = this;
    while (isSpace(text.charCodeAt(this.at))) this.at++;
  }

  /** Skips spaces and at most one comma; true where there was one. */
  skipSeparator(): boolean {
    this.skipSpaces();
    if (this.text.charCodeAt(this.at) !== 44) return false;
    this.at++;
    this.skipSpaces();
    return true;
  }

  /** True where a number could begin here. */
  get beforeNumber(): boolean {
    const code = this.text.charCodeAt(this.at);
    return (code >= 48 && code <= 57) || code === 46 || code === 45 || code === 43;
  }

  /** The number that begins here, or NaN; then `at` stands on the character that stopped it. */
  number(): number {
    const { text } = this;
    const from = this.at;
    let at = from;
    let code = text.charCodeAt(at);
    const negative = code === 45;
    if (negative || code === 43) code = text.charCodeAt(++at);
    let whole = 0;
    let digits = 0;
    for (; code >= 48 && code <= 57; code = text.charCodeAt(++at)) {
      whole = whole * 10 + code - 48;
      digits++;
    }
    let decimals = 0;
    if (code === 46) {
      code = text.charCodeAt(++at);
      for (; code >= 48 && code <= 57; code = text.charCodeAt(++at)) {
        whole = whole * 10 + code - 48;
        decimals++;
      }
    }
    this.at = at;
    if (digits + decimals === 0) return Number.NaN;
    if (code === 101 || code === 69) at = this.exponentEnd(at);
    if (at > this.at || digits + decimals > 15 || decimals > 22) {
      this.at = at;
      return Number(text.slice(from, at));
    }
    const value = decimals === 0 ? whole : whole / exactPowers[decimals];
    return negative ? -value : value;
  }

  /** Where the exponent that begins at `at` ends; `at` itself where no digits follow (then the e is no part of it). */
  private exponentEnd(at: number): number {
    const { text } = this;
    let end = at + 1;
    const sign = text.charCodeAt(end);
    if (sign === 45 || sign === 43) end++;
    const digitsFrom = end;
    while (isDigit(text.charCodeAt(end))) end++;
    return end > digitsFrom ? end : at;
  }

  /** A flag of an elliptical arc: one character, 0 or 1; NaN for anything else. */
  flag(): number {
    const code = this.text.charCodeAt(this.at);
    if (code !== 48 && code !== 49) return Number.NaN;
    this.at++;
    return code - 48;
  }
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

function isSpace(code: number): boolean {
  return code === 32 || (code >= 9 && code <= 13 && code !== 11);
}

/** All numbers of a list, or null where it holds anything else. */
export function numberList(text: string): number[] | null {
  const scan = new NumberScanner(text);
  const numbers: number[] = [];
  scan.skipSpaces();
  while (!scan.atEnd) {
    const value = scan.number();
    if (!Number.isFinite(value)) return null;
    numbers.push(value);
    if (scan.skipSeparator() && scan.atEnd) return null;
  }
  return numbers;
}
