/**
 * A DXF file as its records come: what the header says of units, which layers are hidden, the blocks, and the entities
 * of model space. Each entity is read once into what it draws, so that a block may be inserted thousands of times.
 */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Limits } from '../../../shared/setup.js';
import { drawings, isMesh, pointOf, polyline, systemFor } from './entities.js';
import type { Figure } from './figure.js';
import { nameOf } from './names.js';
import { broken, type DxfRecord, numberOf, wordOf } from './record.js';
import { identity3, type Map3, times, type Vector } from './space.js';
import { Vertices } from './vertices.js';

/** What an entity comes to. */
export type Content =
  | { readonly kind: 'figure'; readonly figure: Figure }
  | { readonly kind: 'insert'; readonly insert: Insert }
  | { readonly kind: 'no-line'; readonly what: string }
  | { readonly kind: 'broken'; readonly what: string };

export interface Entity {
  readonly content: Content;
  /** Lower case: names ignore case. */
  readonly layer: string;
  readonly invisible: boolean;
  /** Of the file, on which it begins. */
  readonly line: number;
}

export interface Insert {
  /** As the file writes it. */
  readonly name: string;
  /** The block's own space, its base point at the origin, to that of the cell at the array's corner. */
  readonly map: Map3;
  readonly columns: number;
  readonly rows: number;
  /** From one cell to the next. */
  readonly acrossBy: Vector;
  readonly downBy: Vector;
}

export interface Block {
  readonly base: Vector;
  readonly entities: Entity[];
  /** Kept in another file, which is never opened. */
  readonly external: boolean;
}

export interface DxfDocument {
  /** Header variables that are one number: `$INSUNITS`. */
  readonly header: ReadonlyMap<string, number>;
  readonly layers: ReadonlyMap<string, 'frozen' | 'off'>;
  /** By name in lower case; of two the first. */
  readonly blocks: ReadonlyMap<string, Block>;
  /** Of model space; to be gone through once. */
  readonly entities: Iterable<Entity>;
}

/**
 * The drawing up to its entities, which come last (DXF Reference, "DXF file structure"): they are read as they are asked
 * for, once, so that a million of them never lie in memory together. `sectionsAfter` gives the records of sections that a
 * program wrote after them all the same.
 */
export function readDocument(
  records: Iterator<DxfRecord>,
  sectionsAfter: () => Iterable<Iterable<DxfRecord>>,
  file: string,
  limits: Limits,
): DxfDocument {
  const reader = new DocumentReader(file, limits.elements);
  for (let next = records.next(); !next.done; next = records.next()) {
    if (!reader.take(next.value)) break;
    if (!reader.isAtEntities()) continue;
    for (const section of sectionsAfter()) reader.takeSection(section);
    return { ...reader.known(), entities: entitiesIn(reader, records) };
  }
  return { ...reader.known(), entities: [] };
}

function* entitiesIn(reader: DocumentReader, records: Iterator<DxfRecord>): Generator<Entity> {
  for (let next = records.next(); !next.done && reader.take(next.value); next = records.next())
    yield* reader.taken();
  reader.finish();
  yield* reader.taken();
}

class DocumentReader {
  private section = '';
  private header: ReadonlyMap<string, number> = new Map();
  private readonly layers = new Map<string, 'frozen' | 'off'>();
  private readonly blocks = new Map<string, Block>();
  private readonly entities: Entity[] = [];
  /** Where entities go: the block being read, or model space. */
  private into: Entity[] | null = null;
  /** A POLYLINE whose vertices are still coming. */
  private open: { readonly head: DxfRecord; readonly vertices: Vertices; whole: boolean } | null = null;
  private count = 0;
  private onlyEntities = false;

  constructor(
    private readonly file: string,
    private readonly mostEntities: number,
  ) {}

  /** False at the end of the drawing. */
  take(record: DxfRecord): boolean {
    const { type } = record;
    if (this.open && type !== 'VERTEX') this.endPolyline();
    if (type === 'SECTION') this.begin(record);
    else if (type === 'ENDSEC') this.section = '';
    else if (type === 'EOF') return false;
    else if (this.section === 'TABLES') this.takeTable(record);
    else if (this.section === 'BLOCKS' && type === 'BLOCK') this.beginBlock(record);
    else if (this.section === 'BLOCKS' && type === 'ENDBLK') this.into = null;
    else if (this.section === 'BLOCKS' || this.section === 'ENTITIES') this.takeEntity(record);
    return true;
  }

  isAtEntities(): boolean {
    return this.section === 'ENTITIES';
  }

  /** One that comes after the entities; what is then met again is passed over. */
  takeSection(records: Iterable<DxfRecord>): void {
    this.onlyEntities = false;
    let isFirst = true;
    for (const record of records) {
      // It ends where the next begins, so that each is read once.
      if (!isFirst && record.type === 'SECTION') break;
      if (!this.take(record) || record.type === 'ENDSEC') break;
      isFirst = false;
    }
    this.finish();
    this.onlyEntities = true;
    this.section = 'ENTITIES';
    this.into = this.entities;
  }

  known(): Omit<DxfDocument, 'entities'> {
    const { header, layers, blocks } = this;
    return { header, layers, blocks };
  }

  /** The entities of model space since it was last asked. */
  *taken(): Generator<Entity> {
    yield* this.entities;
    this.entities.length = 0;
  }

  /** After the last record. */
  finish(): void {
    if (this.open) this.endPolyline();
  }

  private begin(record: DxfRecord): void {
    const section = wordOf(record, 2).toUpperCase();
    this.section = this.onlyEntities && section !== 'ENTITIES' ? '' : section;
    this.into = this.section === 'ENTITIES' ? this.entities : null;
    if (this.section === 'HEADER') this.header = record.variables;
  }

  private takeTable(record: DxfRecord): void {
    if (record.type !== 'LAYER') return;
    const name = wordOf(record, 2).toLowerCase();
    if ((numberOf(record, 70, 0) & 1) === 1) this.layers.set(name, 'frozen');
    else if (numberOf(record, 62, 7) < 0) this.layers.set(name, 'off');
  }

  private beginBlock(record: DxfRecord): void {
    const name = wordOf(record, 2).toLowerCase();
    const base: Vector = [numberOf(record, 10, 0), numberOf(record, 20, 0), numberOf(record, 30, 0)];
    const block = { base, entities: [], external: (numberOf(record, 70, 0) & externalFlags) !== 0 };
    this.into = block.entities;
    if (!this.blocks.has(name)) this.blocks.set(name, block);
  }

  private takeEntity(record: DxfRecord): void {
    if (++this.count > this.mostEntities)
      throw new Refusal(
        `${this.file}: the file has more than ${grouped(this.mostEntities)} entities, the limit.`,
      );
    if (this.into === null || record.type === 'SEQEND') return;
    // Only model space is drawn: 1 stands for a sheet of paper.
    if (numberOf(record, 67, 0) === 1) return;
    if (record.type === 'VERTEX' && this.open) {
      this.open.vertices.add(record);
      this.open.whole = record.whole;
    } else if (record.type === 'POLYLINE' && !isMesh(record)) {
      this.open = { head: record, vertices: new Vertices(), whole: record.whole };
    } else if (record.type !== 'VERTEX') this.put(record, contentOf(record));
  }

  private endPolyline(): void {
    const { head, vertices, whole } = this.open!;
    this.open = null;
    this.put(
      head,
      whole && vertices.good && isAllNumbers(head)
        ? drawn('polyline', () => polyline(head, vertices.numbers))
        : { kind: 'broken', what: 'polyline' },
    );
  }

  private put(record: DxfRecord, content: Content): void {
    this.into?.push({
      content,
      layer: (wordOf(record, 8) || '0').toLowerCase(),
      invisible: numberOf(record, 60, 0) === 1,
      line: record.line,
    });
  }
}

/** Flags of a BLOCK: an external reference, an overlaid one. */
const externalFlags = 4 | 8;

function isAllNumbers({ numbers }: DxfRecord): boolean {
  return numbers.every(Number.isFinite);
}

function contentOf(record: DxfRecord): Content {
  const { type } = record;
  const draw = drawings.get(type);
  const isLine = draw !== undefined || type === 'INSERT';
  // The kind itself may be cut off.
  if (!isLine)
    return record.whole ? { kind: 'no-line', what: nameOf(record) } : { kind: 'broken', what: 'entity' };
  if (!record.whole || !isAllNumbers(record)) return { kind: 'broken', what: nameOf(record) };
  return draw
    ? drawn(nameOf(record), () => draw(record))
    : caught(nameOf(record), () => ({ kind: 'insert', insert: insertOf(record) }));
}

function drawn(what: string, draw: () => Figure): Content {
  return caught(what, () => ({ kind: 'figure', figure: draw() }));
}

function caught(what: string, read: () => Content): Content {
  try {
    return read();
  } catch (error) {
    if (error !== broken) throw error;
    return { kind: 'broken', what };
  }
}

function insertOf(record: DxfRecord): Insert {
  const turn = (numberOf(record, 50, 0) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [sx, sy, sz] = [41, 42, 43].map((code) => numberOf(record, code, 1));
  const [x, y, z] = pointOf(record, 10);
  const placed: Map3 = [cos * sx, -sin * sy, 0, x, sin * sx, cos * sy, 0, y, 0, 0, sz, z];
  const system = systemFor(record) ?? identity3;
  const along = (dx: number, dy: number): Vector => {
    const [a, b] = [cos * dx - sin * dy, sin * dx + cos * dy];
    return [system[0] * a + system[1] * b, system[4] * a + system[5] * b, system[8] * a + system[9] * b];
  };
  return {
    name: wordOf(record, 2),
    map: times(system, placed),
    columns: Math.max(1, Math.trunc(numberOf(record, 70, 1))),
    rows: Math.max(1, Math.trunc(numberOf(record, 71, 1))),
    acrossBy: along(numberOf(record, 44, 0), 0),
    downBy: along(0, numberOf(record, 45, 0)),
  };
}
