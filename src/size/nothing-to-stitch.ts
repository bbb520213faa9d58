import type { Artwork, IntakeKind, LineChoice } from '../../shared/artwork.js';
import { didYouMean } from '../setup/nearest.js';

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
  'broken-path':
    'The data of every line breaks off at once: save the drawing anew from the program that drew it.',
  fill: 'Read the outlines with --take shapes, or draw the line.',
};

/** The sentence for a drawing without a line, with what there is in it instead. */
export function nothingToStitch(artwork: Artwork, dots: number, { layers, colours }: LineChoice): string {
  const found = new Set<string>();
  for (const { kind } of artwork.notes) {
    const words = inWords[kind];
    if (words) found.add(words);
  }
  if (dots > 0) found.add('dots');
  const instead = found.size > 0 ? `, only ${[...found].join(', ')}` : '';
  const unchosen = artwork.notes.filter(({ kind }) => kind === 'unchosen');
  const names = (of: 'layer' | 'colour') => unchosen.flatMap((note) => note[of] ?? []);
  const steps = [
    namesText('layer', layers, names('layer')),
    namesText('colour', colours, names('colour')),
    ...artwork.notes.flatMap(({ kind }) => nextSteps[kind] ?? []),
  ];
  const next = steps.find((step) => step !== '');
  return `There is nothing to stitch in it${instead}.${next === undefined ? '' : ` ${next}`}`;
}

/** The layers or colours there are, for those that were asked for in vain. */
function namesText(kind: 'layer' | 'colour', wanted: readonly string[], there: readonly string[]): string {
  if (wanted.length === 0) return '';
  if (there.length === 0) return kind === 'layer' ? 'Its lines are in no layer that has a name.' : '';
  const list = there.map((name) => `"${name}"`).join(', ');
  const those = there.length === 1 ? `only ${kind} with lines in it is` : `${kind}s with lines in it are`;
  return `The ${those} ${list}.${didYouMean(wanted[0], there)}`;
}
