/** What a machine must not be given, nor a mend begin on: a line that no needle can follow. */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import { sayIn } from '../../../shared/say.js';
import type { Study } from '../../../shared/study.js';

/** Throws a Refusal, with the place, where the line lies on itself in a lump. */
export function requireStitchable({ lump, motif, setup }: Study): void {
  if (lump === null) return;
  throw new Refusal(
    `In "${motif.name}" the line runs ${grouped(lump.passes)} times through one place, ${sayIn(setup.unit).place(lump.at)}: that cannot be stitched. Take out in your drawing program what was drawn again and again.`,
  );
}
