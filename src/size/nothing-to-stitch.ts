import type { Artwork, IntakeKind } from '../../shared/artwork.js';

const inWords: Partial<Record<IntakeKind, string>> = {
  hidden: 'hidden lines',
  unchosen: 'lines that were not asked for by layer, colour or dash',
  text: 'text',
  image: 'pictures',
  fill: 'fills without a line (--take shapes would take their outlines)',
  dot: 'dots',
  'broken-path': 'broken paths',
};

/** What to do next, where there is one thing to do. */
const nextSteps: Partial<Record<IntakeKind, string>> = {
  hidden: 'Show the hidden layers in your drawing program, and give the lines a colour.',
  text: 'Letters have to be lines: turn the text into paths in your drawing program, and read their outlines with --take shapes, or draw a line over them.',
  image: 'A picture inside a drawing is not read: draw the line over it in your drawing program.',
  fill: 'Read the outlines with --take shapes, or draw the line.',
};

/** The sentence for a drawing without a line, with what there is in it instead. */
export function nothingToStitch(artwork: Artwork, dots: number): string {
  const found = new Set<string>();
  for (const { kind } of artwork.notes) {
    const words = inWords[kind];
    if (words) found.add(words);
  }
  if (dots > 0) found.add('dots');
  const instead = found.size > 0 ? `, only ${[...found].join(', ')}` : '';
  const [next] = artwork.notes.flatMap(({ kind }) => nextSteps[kind] ?? []);
  return `There is nothing to stitch in it${instead}.${next === undefined ? '' : ` ${next}`}`;
}
