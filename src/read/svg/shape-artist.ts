/** Draws one shape at its place: into lines to stitch where it can be seen, into intake notes where it cannot. */
import type { LineChoice, Take } from '../../../shared/artwork.js';
import type { Point } from '../../../shared/plane.js';
import type { Subpath } from '../../../shared/subpath.js';
import { identity } from '../../geometry/matrix.js';
import { curveBounds } from '../../size/bounds.js';
import type { Intake } from '../intake/intake.js';
import { type Look, lookKey, nameGuides, startAt, unchosen } from '../intake/looks.js';
import type { Drawn, Pen } from '../intake/pen.js';
import { requireReach } from '../intake/reach.js';
import type { Cuts } from './cut.js';
import type { Declarations } from './declarations.js';
import { lengthIn } from './length.js';
import type { SvgNode } from './node.js';
import { lengthContext, type Place, type ReferenceBox } from './place.js';
import type { DrawShape } from './shapes.js';
import { visibility } from './style.js';

/** Only lines that have a line to them: an unstroked `line` has no inside. */
const withoutInside: ReadonlySet<string> = new Set(['line']);
const marked: ReadonlySet<string> = new Set(['path', 'line', 'polyline', 'polygon']);

interface Taken {
  readonly path: Subpath;
  readonly stroked: boolean;
  readonly look: Look;
}

export class ShapeArtist {
  private readonly taken: Taken[] = [];
  private shapes = 0;

  constructor(
    private readonly file: string,
    private readonly take: Take,
    private readonly choice: LineChoice,
    private readonly pen: Pen,
    private readonly intake: Intake,
    private readonly cuts: Cuts,
  ) {}

  draw(node: SvgNode, shape: DrawShape, declared: Declarations, place: Place): void {
    const { pen, intake } = this;
    pen.begin(place.ctm);
    const broken = shape(declared, pen, lengthContext(place));
    const drawn = pen.end();
    const seen = visibility(place.style, place.context);
    const inside = seen.inside && !withoutInside.has(node.name);
    const at = startOf(drawn);
    if (place.hiding || !(seen.line || inside)) {
      if (at) intake.note('hidden', place.hiding ?? seen.hiding, at, node.line);
      return;
    }
    if (broken > 0) intake.note('broken-path', nameOf(node), drawn.brokenAt, node.line, broken);
    if (seen.line) for (const dot of drawn.dots) intake.note('dot', 'dot', dot, node.line);
    const fill = seen.line ? undefined : { shape: this.shapes++, rule: place.style.fillRule };
    for (const path of drawn.lines) this.takeIn(fill ? { ...path, fill } : path, seen.line, node, place);
    if (place.style.marked && marked.has(node.name) && drawn.lines.length > 0) {
      intake.note('other', 'marker', at, node.line);
    }
  }

  /** The box of a shape in its own user units; with half the width of its line all round where that counts, too. */
  boxOf(shape: DrawShape, declared: Declarations, place: Place, withStroke: boolean): ReferenceBox {
    this.pen.begin(identity);
    shape(declared, this.pen, lengthContext(place));
    const { lines } = this.pen.end();
    if (lines.length === 0) return null;
    const box = curveBounds(lines);
    const line = withStroke && place.style.stroke !== 'none' ? place.style.strokeWidth / 2 : 0;
    return { minX: box.minX - line, minY: box.minY - line, maxX: box.maxX + line, maxY: box.maxY + line };
  }

  private takeIn(path: Subpath, stroked: boolean, node: SvgNode, place: Place): void {
    requireReach(path, `${this.file}, line ${node.line}`, nameOf(node));
    if (!stroked && this.take === 'lines') {
      this.leaveFill(path);
      return;
    }
    for (const cut of place.cuts) {
      if (this.cuts.isCutting(cut, path)) this.intake.note('cut', cut.what, startAt(path), node.line);
    }
    this.taken.push({ path, stroked, look: lookAt(place) });
  }

  private leaveFill(path: Subpath): void {
    this.intake.note('fill', 'filled shape', startAt(path));
  }

  /** Something drawn in the file that is no line; nothing is said where it cannot be seen anyway. */
  leaveOut(
    node: SvgNode,
    kind: 'text' | 'image' | 'other',
    what: string,
    declared: Declarations,
    place: Place,
  ): void {
    if (place.hiding || !place.style.visible) return;
    this.intake.note(kind, what, cornerOf(declared, place), node.line);
  }

  /** A copy of something that is not there, or that would copy itself. */
  missing(node: SvgNode, place: Place): void {
    const href = (node.attributes.href ?? node.attributes['xlink:href'] ?? '').trim();
    if (place.hiding || href === '') return;
    this.intake.note('missing', `'${href}'`, null, node.line);
  }

  /** The lines to stitch, in the order of the file. */
  lines(): Subpath[] {
    const chosen = this.taken.filter(({ path, look }) => {
      const left = unchosen(look, this.choice);
      if (left !== null) this.intake.unchosen(left.why, left.named, startAt(path));
      return left === null;
    });
    const isLine = chosen.some(({ stroked }) => stroked);
    const read = this.take === 'auto' && isLine ? chosen.filter(({ stroked }) => stroked) : chosen;
    for (const { path, stroked } of chosen) {
      if (stroked) continue;
      if (this.take === 'auto' && isLine) this.leaveFill(path);
      else this.intake.outline(startAt(path), isLine ? '--take lines' : undefined);
    }
    nameGuides(alike(read), this.intake);
    return read.map(({ path }) => path);
  }
}

/** What is read, by its look. */
function alike(read: readonly Taken[]): Iterable<readonly [Look, Subpath[]]> {
  const looks = new Map<string, readonly [Look, Subpath[]]>();
  for (const { path, look } of read) {
    const key = lookKey(look);
    const known = looks.get(key);
    if (known) known[1].push(path);
    else looks.set(key, [look, [path]]);
  }
  return looks.values();
}

function nameOf(node: SvgNode): string {
  const { id } = node.attributes;
  return id === undefined ? node.name : `${node.name} '${id}'`;
}

function lookAt({ style, layers }: Place): Look {
  const colour = style.strokeText === 'currentcolor' ? style.colour : style.strokeText;
  return { colour, dashed: style.dashed, layers };
}

function startOf({ lines, dots }: Drawn): Point | null {
  return lines.length > 0 ? startAt(lines[0]) : (dots[0] ?? null);
}

/** Where text or a picture begins. */
function cornerOf({ x = '0', y = '0' }: Declarations, place: Place): Point | null {
  const context = lengthContext(place);
  const first = (list: string) => list.trim().split(/[\s,]+/, 1)[0];
  const left = lengthIn(first(x), context, 'x') ?? 0;
  const top = lengthIn(first(y), context, 'y') ?? 0;
  const [a, b, c, d, e, f] = place.ctm;
  return { x: a * left + c * top + e, y: b * left + d * top + f };
}
