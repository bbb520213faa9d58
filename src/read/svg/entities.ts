/**
 * Entities declared in the file itself, written out before the XML is parsed. Drawing programs declare namespaces
 * that way (`xmlns="&ns_svg;"`); hostile files declare bombs. Entities of other files are left out: nothing is ever
 * fetched. XML 1.0 (fifth edition), 4.2 to 4.5.
 *
 * Line ends inside an entity become spaces, so that the lines of the file keep their numbers.
 */

import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Limits } from '../../../shared/setup.js';

const builtIn: ReadonlySet<string> = new Set(['lt', 'gt', 'amp', 'quot', 'apos']);
const reference = /&([^\s;&<>#"'%]{1,200});/g;

interface Declared {
  /** By name; null for one that stands in another file. */
  readonly entities: ReadonlyMap<string, string | null>;
  /** Where the document type declaration ends in the text. */
  readonly end: number;
}

/** The text with its own entities written out. */
export function expandEntities(text: string, file: string, limits: Limits): string {
  const declared = declarationsIn(text);
  if (!declared || declared.entities.size === 0) return text;
  return new Expansion(declared.entities, file, limits).document(text, declared.end);
}

class Expansion {
  private total = 0;
  private readonly done = new Map<string, string>();

  constructor(
    private readonly entities: ReadonlyMap<string, string | null>,
    private readonly file: string,
    private readonly limits: Limits,
  ) {}

  /** All references from `from` on; comments, instructions and CDATA are passed over. */
  document(text: string, from: number): string {
    const token = /<!--|<!\[CDATA\[|<\?|&([^\s;&<>#"'%]{1,200});/g;
    const closing: Readonly<Record<string, string>> = { '<!--': '-->', '<![CDATA[': ']]>', '<?': '?>' };
    const parts: string[] = [];
    let done = 0;
    token.lastIndex = from;
    for (let match = token.exec(text); match; match = token.exec(text)) {
      const [whole, name] = match;
      if (name === undefined) {
        const end = text.indexOf(closing[whole], token.lastIndex);
        if (end < 0) break;
        token.lastIndex = end;
      } else if (this.entities.has(name)) {
        parts.push(text.slice(done, match.index), this.use(name));
        done = token.lastIndex;
      }
    }
    parts.push(text.slice(done));
    return parts.join('');
  }

  private use(name: string): string {
    const value = this.expanded(name, 1);
    this.total += value.length;
    this.bound(this.total);
    return value;
  }

  /** The entity's text with the entities in it written out. */
  private expanded(name: string, depth: number): string {
    const known = this.done.get(name);
    if (known !== undefined) return known;
    if (depth > this.limits.nesting) {
      throw new Refusal(`${this.file}: the entity "${name}" contains itself, or is nested too deep.`);
    }
    const raw = this.entities.get(name) ?? '';
    const parts: string[] = [];
    let length = 0;
    let done = 0;
    for (const match of raw.matchAll(reference)) {
      if (!this.entities.has(match[1])) continue;
      const inner = this.expanded(match[1], depth + 1);
      length += inner.length;
      this.bound(length);
      parts.push(raw.slice(done, match.index), inner);
      done = match.index + match[0].length;
    }
    parts.push(raw.slice(done));
    const value = parts.join('').replace(/[\r\n]+/g, ' ');
    // Quotes in an entity do not end the attribute it stands in; one with tags in it stands between tags anyway.
    const safe = value.includes('<') ? value : value.replaceAll('"', '&#34;').replaceAll("'", '&#39;');
    this.done.set(name, safe);
    return safe;
  }

  private bound(length: number): void {
    if (length <= this.limits.entityBytes) return;
    throw new Refusal(
      `${this.file}: its entities come to more than ${grouped(this.limits.entityBytes)} characters, the limit.`,
    );
  }
}

/** The entities of the internal subset, or null where there is none. What is malformed there is the parser's to say. */
function declarationsIn(text: string): Declared | null {
  const start = doctypeStart(text);
  if (start < 0) return null;
  const token = /<!--|<\?|<!ENTITY\s|["'[\]>]/g;
  const entities = new Map<string, string | null>();
  let inSubset = false;
  token.lastIndex = start + '<!DOCTYPE'.length;
  for (let match = token.exec(text); match; match = token.exec(text)) {
    const [found] = match;
    if (found === '>' && !inSubset) return { entities, end: token.lastIndex };
    if (found === '[') inSubset = true;
    else if (found === ']') inSubset = false;
    else if (found.startsWith('<!E')) token.lastIndex = readEntity(text, token.lastIndex, entities);
    else if (found !== '>') {
      const closing = found === '<!--' ? '-->' : found === '<?' ? '?>' : found;
      const end = text.indexOf(closing, token.lastIndex);
      if (end < 0) return null;
      token.lastIndex = end + closing.length;
    }
  }
  return null;
}

/** Index of `<!DOCTYPE`, after nothing but space, comments and instructions; -1 where there is none. */
function doctypeStart(text: string): number {
  const token = /\s*(<!--|<\?|<!DOCTYPE)/y;
  for (let match = token.exec(text); match; match = token.exec(text)) {
    if (match[1] === '<!DOCTYPE') return token.lastIndex - match[1].length;
    const closing = match[1] === '<?' ? '?>' : '-->';
    const end = text.indexOf(closing, token.lastIndex);
    if (end < 0) return -1;
    token.lastIndex = end + closing.length;
  }
  return -1;
}

/** Takes in one declaration, the first of its name; returns where to read on. Parameter entities are left out. */
function readEntity(text: string, from: number, entities: Map<string, string | null>): number {
  const head = /\s*(%\s+)?([^\s"'<>&%]{1,200})\s+(?:(SYSTEM|PUBLIC)\s|(["']))/y;
  head.lastIndex = from;
  const match = head.exec(text);
  if (!match) return from;
  const [, parameter, name, outside, quote] = match;
  const isNew = parameter === undefined && !entities.has(name) && !builtIn.has(name);
  if (outside !== undefined) {
    if (isNew) entities.set(name, null);
    return head.lastIndex;
  }
  const end = text.indexOf(quote, head.lastIndex);
  if (end < 0) return text.length;
  if (isNew) entities.set(name, withCharacters(text.slice(head.lastIndex, end)));
  return end + 1;
}

/** Character references are resolved where the entity is declared (XML 1.0, 4.5). */
function withCharacters(value: string): string {
  return value.replace(/&#(?:x([\da-f]{1,6})|(\d{1,7}));/gi, (whole, hex, decimal) => {
    const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
