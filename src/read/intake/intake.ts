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
}

export class Intake {
  private readonly gathered = new Map<string, Gathered>();

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

  notes(): IntakeNote[] {
    return [...this.gathered.values()];
  }
}
