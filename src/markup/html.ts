/** HTML from template strings in which everything put in is escaped, unless it is HTML already. */

export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

type Part = Html | string | number | null | undefined | false | readonly Part[];

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Safe as text and as a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => entities[sign]);
}

export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Html {
  return new Html(String.raw({ raw: strings }, ...parts.map(partText)));
}

/** Markup of our own making, such as a picture, put in as it stands. */
export function trusted(markup: string): Html {
  return new Html(markup);
}

function partText(part: Part): string {
  if (part === null || part === undefined || part === false) return '';
  if (part instanceof Html) return part.text;
  if (Array.isArray(part)) return part.map(partText).join('');
  return escapeHtml(String(part));
}

/** A length or size whose number, sign and unit stay on one line: `5 1/4 in (133.4 mm)` breaks before the bracket only. */
export function unbroken(text: string): string {
  return text.replace(/(?<=\d|x) (?=\d|(?:in|mm|m|yd)\b|%|x )/g, '\u00a0');
}
