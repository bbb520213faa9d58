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

/** The sentence for a drawing without a line, with what there is in it instead. */
export function nothingToStitch(artwork: Artwork, dots: number): string {
  const found = new Set<string>();
  for (const { kind } of artwork.notes) {
    const words = inWords[kind];
    if (words) found.add(words);
  }
  if (dots > 0) found.add('dots');
  const instead = found.size > 0 ? `, only ${[...found].join(', ')}` : '';
  return `There is nothing to stitch in it${instead}.`;
}
