/**
 * The walk through model space and the blocks inserted in it. Array cells and nested inserts count as copies, and what
 * is visited is counted, so that blocks within blocks end in one sentence.
 */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Limits } from '../../../shared/setup.js';
import type { Subpath } from '../../../shared/subpath.js';
import { identity } from '../../geometry/matrix.js';
import type { Intake } from '../intake/intake.js';
import { nameGuides } from '../intake/looks.js';
import { Pen } from '../intake/pen.js';
import { requireReach } from '../intake/reach.js';
import type { DxfDocument, Entity, Insert } from './document.js';
import { drawFigure, type Figure, startOf } from './figure.js';
import { type Map3, times } from './space.js';

/** What is equal to this, mm, is the same height. */
const flatMm = 0.001;

/** What comes down to an entity from the inserts around it. */
interface Around {
  /** To millimetres, y down. */
  readonly map: Map3;
  /** That of the insert, for the block's lines on layer 0; "" in model space. */
  readonly layer: string;
  /** How all of it is hidden, or null. */
  readonly hiding: string | null;
  /** The blocks being inserted, outermost first. */
  readonly blocks: readonly string[];
}

export class Walk {
  readonly lines: Subpath[] = [];
  private readonly linesIn = new Map<string, Subpath[]>();
  private readonly pen: Pen;
  /** The layers whose lines are taken, in lower case; all where there are none. */
  private readonly wanted: ReadonlySet<string>;
  private copies = 0;
  private visited = 0;

  constructor(
    private readonly document: DxfDocument,
    private readonly file: string,
    private readonly limits: Limits,
    private readonly intake: Intake,
    layers: readonly string[],
  ) {
    this.wanted = new Set(layers.map((name) => name.trim().toLowerCase()));
    this.pen = new Pen(limits, file);
  }

  run(toMm: Map3): void {
    this.draw(this.document.entities, { map: toMm, layer: '', hiding: null, blocks: [] });
    // Neither colours nor line types are read.
    const look = (layer: string) => ({ colour: '', dashed: false, layers: [layer] });
    nameGuides(
      Array.from(this.linesIn, ([layer, lines]) => [look(layer), lines] as const),
      this.intake,
    );
  }

  private draw(entities: Iterable<Entity>, around: Around): void {
    for (const entity of entities) {
      if (++this.visited > this.limits.elements)
        throw new Refusal(
          `${this.file}: the drawing has more than ${grouped(this.limits.elements)} entities, copies included, the limit.`,
        );
      this.drawOne(entity, around);
    }
  }

  private drawOne({ content, layer: own, invisible, line }: Entity, around: Around): void {
    const layer = own === '0' && around.layer !== '' ? around.layer : own;
    const state = this.document.layers.get(layer);
    const frozen = state === 'frozen' ? 'on a frozen layer' : null;
    // What is inserted on a layer that is switched off has layers of its own.
    const off = state === 'off' && content.kind !== 'insert' ? 'on a layer that is switched off' : null;
    const hiding = around.hiding ?? (invisible ? 'invisible' : (frozen ?? off));
    if (content.kind === 'insert') this.insert(content.insert, layer, { ...around, hiding }, line);
    else if (hiding !== null) {
      if (content.kind === 'figure')
        this.intake.note('hidden', hiding, startOf(content.figure, around.map), line);
    } else if (content.kind === 'figure' && this.wanted.size > 0 && !this.wanted.has(layer))
      this.intake.unchosen('in another layer', { layer }, startOf(content.figure, around.map), line);
    else if (content.kind === 'figure') this.drawFigure(content.figure, around.map, layer, line);
    else if (content.kind === 'broken') this.intake.note('broken-path', content.what, null, line);
    else this.intake.note(noteKind(content.what), content.what, null, line);
  }

  private drawFigure(figure: Figure, map: Map3, layer: string, line: number): void {
    const { pen, intake } = this;
    pen.begin(identity);
    const spread = drawFigure(figure, map, pen);
    const { lines, dots } = pen.end();
    const alike = this.linesIn.get(layer) ?? [];
    this.linesIn.set(layer, alike);
    for (const path of lines) {
      requireReach(path, `${this.file}, line ${line}`, 'entity');
      this.lines.push(path);
      alike.push(path);
    }
    for (const dot of dots) intake.note('dot', 'dot', dot, line);
    if (spread > flatMm && lines.length > 0) intake.note('not-flat', 'line', startOf(figure, map), line);
  }

  private insert(insert: Insert, layer: string, around: Around, line: number): void {
    const { name, columns, rows, acrossBy, downBy } = insert;
    const key = name.toLowerCase();
    const block = this.document.blocks.get(key);
    if (!block || block.external || around.blocks.includes(key)) {
      if (around.hiding === null) this.intake.note('missing', `block '${name}'`, null, line);
      return;
    }
    this.copies += columns * rows;
    if (this.copies > this.limits.useCopies)
      throw new Refusal(
        `${this.file}: the drawing makes more than ${grouped(this.limits.useCopies)} copies of blocks, the limit.`,
      );
    const blocks = [...around.blocks, key];
    if (blocks.length > this.limits.nesting)
      throw new Refusal(
        `${this.file}: blocks are nested more than ${grouped(this.limits.nesting)} deep, the limit.`,
      );
    const [x, y, z] = block.base;
    const based = times(insert.map, [1, 0, 0, -x, 0, 1, 0, -y, 0, 0, 1, -z]);
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const cell = [...based];
        for (let i = 0; i < 3; i++) cell[4 * i + 3] += column * acrossBy[i] + row * downBy[i];
        this.draw(block.entities, { map: times(around.map, cell), layer, hiding: around.hiding, blocks });
      }
    }
  }
}

function noteKind(what: string): 'text' | 'image' | 'other' {
  return what === 'text' ? 'text' : what === 'picture' ? 'image' : 'other';
}
