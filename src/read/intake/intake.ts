/** Gathers what a careful reader notices, one note a kind and name, so that a million hidden lines are one note. */
import type { IntakeKind, IntakeNote } from '../../../shared/artwork.js';
import type { Point } from '../../../shared/plane.js';

const maxPlaces = 20;

/** By what a line looks like a guide. */
export type DrawnApart = 'dash' | 'colour' | 'layer';

interface Gathered {
  kind: IntakeKind;
  what: string;
  count: number;
  places: Point[];
  fileLine?: number;
  offset?: number;
  remedy?: string;
  layer?: string;
  colour?: string;
}

export class Intake {
  private readonly gathered = new Map<string, Gathered>();
  private readonly kindsNamed = new Set<string>();

  /** `at` is where, mm, or null where there is no place to tell; `fileLine` and `offset` are kept of the first. */
  note(kind: IntakeKind, what: string, at: Point | null, fileLine?: number, offset?: number): void {
    const key = `${kind} ${what}`;
    let note = this.gathered.get(key);
    if (!note) {
      note = { kind, what, count: 0, places: [], fileLine, offset };
      this.gathered.set(key, note);
    }
    note.count++;
    if (at && Number.isFinite(at.x + at.y) && note.places.length < maxPlaces) note.places.push(at);
  }

  /** A line that looks like a guide, the colour or layer it has to itself, and the option that leaves it out, if one does. */
  guide(by: DrawnApart, name: string, remedy: string | undefined, at: Point): void {
    const what =
      by === 'dash'
        ? 'dashed line'
        : this.named(`straight line in the ${by} ${name}`, `straight line in a ${by} of its own`);
    this.note('guide', what, at);
    this.gathered.get(`guide ${what}`)!.remedy = remedy;
  }

  /** A shape read by its outline; `remedy` is the option that leaves it out, where lines are left then. */
  outline(at: Point, remedy: string | undefined): void {
    this.note('outlines', 'filled shape', at);
    this.gathered.get('outlines filled shape')!.remedy = remedy;
  }

  /** A line that was not asked for, by layer, colour or dash. */
  unchosen(
    why: string,
    named: { readonly layer?: string; readonly colour?: string },
    at: Point,
    fileLine?: number,
  ): void {
    const name = named.layer ?? named.colour;
    const what = name === undefined ? why : this.named(`${why} ${name}`, why);
    this.note('unchosen', what, at, fileLine);
    if (what !== why) Object.assign(this.gathered.get(`unchosen ${what}`)!, named);
  }

  /** Of a drawing with too many kinds not each is named. */
  private named(full: string, bare: string): string {
    if (this.kindsNamed.size === maxPlaces && !this.kindsNamed.has(full)) return bare;
    this.kindsNamed.add(full);
    return full;
  }

  notes(): IntakeNote[] {
    return [...this.gathered.values()];
  }
}
