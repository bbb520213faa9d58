/**
 * A studio's folders, made up: motif files by the hundred, of which it is known which are the same line again, which
 * are broken, and which have odd names. The same seed gives the same files.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';

export interface Generated {
  /** Paths from the folder, of all files written. */
  readonly files: readonly string[];
  /** Those that cannot be read. */
  readonly broken: readonly string[];
  /** Sets of files with the same line in them, of two and more. */
  readonly same: readonly (readonly string[])[];
  /** Files that are no motifs at all. */
  readonly others: readonly string[];
}

export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    // Numerical Recipes' linear congruential generator.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const oddNames = [
  'étoile de mer',
  'two  spaces',
  '波',
  '<b>bold</b>',
  "fisher's knot",
  '100%25 cotton',
  '#1 swell',
  'a&b',
  'CON',
  'very-'.repeat(30),
];

type Place = readonly [number, number];

/** A level line across, smooth at the join: a few harmonics, drawn with `points` points. */
function line(next: () => number, points = 120): Place[] {
  const amplitudes = Array.from({ length: 4 }, (_, k) => ((next() - 0.5) * 60) / (k + 1));
  const width = 150 + 150 * next();
  return Array.from({ length: points + 1 }, (_, i) => {
    const t = (2 * Math.PI * i) / points;
    return [
      (width * i) / points,
      amplitudes.reduce((sum, a, k) => sum + a * Math.sin((k + 1) * t), 0),
    ] as const;
  });
}

function svg(places: readonly Place[], title: string, creator: string): string {
  const x = Math.min(...places.map(([px]) => px));
  const y = Math.min(...places.map(([, py]) => py));
  const width = Math.max(...places.map(([px]) => px)) - x;
  const height = Math.max(...places.map(([, py]) => py)) - y;
  const points = places.map(([px, py]) => `${(px - x).toFixed(4)},${(py - y).toFixed(4)}`).join(' ');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width.toFixed(4)}mm" height="${height.toFixed(4)}mm" viewBox="0 0 ${width.toFixed(4)} ${height.toFixed(4)}">
<title>${title.replace(/&/g, '&amp;').replace(/</g, '&lt;')}</title>
<metadata><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:dc="http://purl.org/dc/elements/1.1/"><rdf:Description><dc:creator>${creator}</dc:creator></rdf:Description></rdf:RDF></metadata>
<polyline fill="none" stroke="#000" points="${points}"/>
</svg>
`;
}

const designers = ['Maren Tide', 'Jonas Quay', 'Harbour Studio'];

/** Of every twenty files two repeat an earlier line (larger and mirrored, or the other way about) and one is broken. */
export async function generate(folder: string, count: number, seed: number): Promise<Generated> {
  const next = random(seed);
  const files: string[] = [];
  const broken: string[] = [];
  const others: string[] = [];
  const same = new Map<number, string[]>();
  const drawn: { places: Place[]; number: number }[] = [];
  const put = async (path: string, text: string) => {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text);
  };
  for (let i = 0; i < count; i++) {
    const odd = i % 25 === 7 ? oddNames[((i / 25) % oddNames.length) | 0] : '';
    // Some base names stand in several folders.
    const path = `folder ${i % 9}/${odd ? `${odd} ${i}` : `motif ${(i % (count * 0.8)) | 0}`}.${i % 50 === 3 ? 'SVG' : 'svg'}`;
    files.push(path);
    const kind = i % 20;
    if (kind === 11) {
      const whole = svg(line(next), 'cut short', designers[0]);
      await put(path, i % 40 === 11 ? whole.slice(0, whole.length * next()) : '\u0000\u0001 not a drawing');
      broken.push(path);
    } else if ((kind === 5 || kind === 15) && drawn.length > 0) {
      const first = drawn[Math.floor(next() * drawn.length)];
      const scale = kind === 5 ? 1.5 : 1;
      const again = first.places.map(([x, y]) => [kind === 5 ? -scale * x : scale * x, scale * y] as const);
      if (kind === 15) again.reverse();
      await put(path, svg(again, `again ${i}`, designers[i % 3]));
      same.set(first.number, [...(same.get(first.number) ?? [files[first.number]]), path]);
    } else {
      const places = line(next);
      drawn.push({ places, number: i });
      await put(path, svg(places, odd || `motif ${i}`, designers[i % 3]));
    }
  }
  for (const path of ['folder 1/read me.txt', 'folder 2/picture.png']) {
    await put(path, 'no motif');
    others.push(path);
  }
  return { files, broken, same: [...same.values()], others };
}
