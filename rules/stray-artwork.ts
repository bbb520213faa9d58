import type { IntakeKind, IntakeNote } from '../shared/artwork.js';
import { rule } from '../shared/rule.js';

const isNo: readonly IntakeKind[] = ['text', 'image', 'other', 'fill'];

export default rule({
  id: 'stray-artwork',
  severity: 'warning',
  mend: 'drop',
  limits: {},
  what: 'The file holds the line to be stitched and nothing else.',
  why: 'Labels, pictures and filled shapes are not stitched; dots, registration marks and frames are, each with a stop, a tie-off and a jump.',
  remedy:
    'Delete what is not the motif in your drawing program. Mending drops dots; linewright mend --reshape drops marks and frames too.',
  *judge({ motif, dots, marks, outline }, _limits, say) {
    const noted = (...kinds: IntakeKind[]) => motif.notes.filter(({ kind }) => kinds.includes(kind));
    const total = (notes: readonly IntakeNote[]) => notes.reduce((sum, note) => sum + note.count, 0);
    const names = (notes: readonly IntakeNote[]) =>
      say.list(
        notes.map(({ what, count }) => (count === 1 ? what : `${what} (${say.count(count, 'time')})`)),
      );
    const placesOf = (notes: readonly IntakeNote[]) => notes.flatMap(({ places }) => places);
    const counted = (n: number) => ({ measured: n, limit: 0, unit: 'count' as const });

    const noLine = noted(...isNo);
    if (noLine.length > 0)
      yield {
        at: placesOf(noLine),
        ...counted(total(noLine)),
        message: `The ${motif.scan ? 'scan' : 'drawing'} holds more than ${motif.scan ? 'the line' : 'lines'}, and this was left out: ${say.list(noLine.map(({ what, count }) => say.count(count, what)))}. If any of it should be stitched, ${motif.scan ? 'draw it with the same pen; --ink 30% takes paler marks for ink, too' : `redraw it as a line${noLine.some(({ kind }) => kind === 'fill') ? ', or read the shapes with --take shapes' : ''}`}.`,
      };

    const outlines = noted('outlines');
    // Where it is the outline of a pen, that rule has more to say.
    if (outlines.length > 0 && outline === null)
      yield {
        at: placesOf(outlines),
        ...counted(total(outlines)),
        mend: null,
        message: `${say.count(total(outlines), 'filled shape')} without a line ${total(outlines) === 1 ? 'was' : 'were'} read by ${total(outlines) === 1 ? 'its' : 'their'} outline: lettering and shapes come out as the line round them. ${
          outlines.some(({ remedy }) => remedy)
            ? 'If they are not meant, --take lines leaves them out.'
            : 'If the line should run through their middle, draw it there in your drawing program.'
        }`,
      };

    for (const { what, count, places, remedy } of noted('guide')) {
      const them = count === 1 ? 'it' : 'them';
      yield {
        at: places,
        ...counted(count),
        mend: null,
        message: `${say.count(count, what)} ${count === 1 ? 'looks' : 'look'} like a guide and would be stitched. ${remedy === undefined ? 'If so, delete' : `Leave ${them} out with ${remedy}, or delete`} ${them} in your drawing program.`,
      };
    }

    const pathDots = noted('dot');
    const dotCount = total(pathDots) + dots.length;
    if (dotCount > 0)
      yield {
        at: [...dots, ...placesOf(pathDots)],
        ...counted(dotCount),
        message: `The drawing holds ${say.count(dotCount, 'stray dot')}, too small to stitch. Mending drops ${dotCount === 1 ? 'it' : 'them'}.`,
      };

    for (const [kind, name] of [
      ['mark', 'mark'],
      ['frame', 'frame'],
    ] as const) {
      const found = marks.filter((mark) => mark.kind === kind);
      if (found.length === 0) continue;
      const where =
        kind === 'mark' ? 'apart from the motif, such as registration crosses' : 'round the motif';
      yield {
        at: found.map(({ at }) => at),
        ...counted(found.length),
        message: `The drawing holds ${say.count(found.length, name)} ${where}, which would be stitched. Delete ${found.length === 1 ? 'it' : 'them'}, or let linewright mend --reshape drop ${found.length === 1 ? 'it' : 'them'}.`,
      };
    }

    const cut = noted('cut');
    if (cut.length > 0)
      yield {
        at: placesOf(cut),
        ...counted(total(cut)),
        mend: null,
        message: `Part of the drawing is cut off on the screen (${names(cut)}), but the line was read whole. If it should end at the cut, cut the line itself in your drawing program.`,
      };

    const notFlat = noted('not-flat');
    if (notFlat.length > 0)
      yield {
        at: placesOf(notFlat),
        ...counted(total(notFlat)),
        mend: null,
        message: `The drawing is not flat: ${say.count(total(notFlat), 'line')} ${total(notFlat) === 1 ? 'rises' : 'rise'} out of the plane and ${total(notFlat) === 1 ? 'was' : 'were'} taken as seen from above. Check the picture, and flatten the drawing in your drawing program.`,
      };

    const missing = noted('missing');
    if (missing.length > 0)
      yield {
        at: placesOf(missing),
        ...counted(total(missing)),
        mend: null,
        message: `Part of the drawing is not in the file: ${names(missing)}. Open it in the program that drew it and save it whole.`,
      };
  },
});
