/** Every file of the corpus that the script draws: its path under the corpus folder, and its text. */
import { rights } from './drawing.js';
import { motifs } from './motifs/index.js';

export function corpusFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const { name, flavour, stroke, ...credit } of motifs)
    files.set(`motifs/${name}.svg`, flavour({ ...credit, rights, strokes: [stroke] }));
  return files;
}
