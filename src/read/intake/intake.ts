/** Gathers what a careful reader notices, one note a kind and name, so that a million hidden lines are one note. */
import type { IntakeKind, IntakeNote } from '../../../shared/artwork.js';
import type { Point } from '../../../shared/plane.js';

const maxPlaces = 20;

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
  private readonly unchosenKinds = new Set<string>();

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

  /** A line that looks like a guide, and the option that leaves it out. */
  guide(what: string, remedy: string, at: Point): void {
    this.note('guide', what, at);
    this.gathered.get(`guide ${what}`)!.remedy = remedy;
  }

  /** A shape read by its outline; `remedy` is the option that leaves it out, where lines are left then. */
  outline(at: Point, remedy: string | undefined): void {
    this.note('outlines', 'filled shape', at);
    this.gathered.get('outlines filled shape')!.remedy = remedy;
  }

  /** A line that was not asked for, by layer, colour or dash. Of a drawing with too many kinds not each is named. */
  unchosen(
    why: string,
    named: { readonly layer?: string; readonly colour?: string },
    at: Point,
    fileLine?: number,
  ): void {
    const name = named.layer ?? named.colour;
    const full = `${why} ${name}`;
    const mayBeNamed = this.unchosenKinds.size < maxPlaces || this.unchosenKinds.has(full);
    const what = name !== undefined && mayBeNamed ? full : why;
    this.unchosenKinds.add(what);
    this.note('unchosen', what, at, fileLine);
    if (what === full) Object.assign(this.gathered.get(`unchosen ${what}`)!, named);
  }

  notes(): IntakeNote[] {
    return [...this.gathered.values()];
  }
}
