/**
 * Sources of a library: the files named, those in the folders named that a motif may be in, and those that a quoted
 * pattern stands for. Folders and files are told apart by where they really lie, so that one reached twice, also
 * through a link, is read once.
 */
import { type Dirent, promises as fs } from 'node:fs';
import { basename, dirname, extname, isAbsolute, join } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
import { Refusal } from '../../shared/refusal.js';
import { isMotifFile } from '../read/index.js';
import { isMarked, liesIn } from './ground.js';

export interface Sources {
  /** Sorted, each once; by the way they were named. */
  readonly files: readonly string[];
  readonly passedOver: PassedOver;
  /** Sentences about sources or folders that could not be looked into. */
  readonly complaints: readonly string[];
}

/** What lay in the folders and was not looked into. */
export interface PassedOver {
  /** Files of other kinds, how many of each ending, most first; "" for none. */
  readonly kinds: readonly (readonly [ending: string, count: number])[];
  readonly hiddenFolders: number;
  /** Folders that hold a library: its motifs are outputs, not originals. */
  readonly libraries: readonly string[];
}

/**
 * Links to folders are not followed below those named (they can lead in circles); hidden folders and libraries are
 * passed over.
 *
 * @param home the real path of the library that is being built, whose own files are never sources
 * @throws Refusal where there is no file at all
 */
export async function findSources(paths: readonly string[], home?: string): Promise<Sources> {
  const found = new Found(home);
  for (const path of paths) await found.add(path);
  return found.sources(paths);
}

class Found {
  /** Real path to the path it goes by. */
  readonly #files = new Map<string, string>();
  readonly #folders = new Set<string>();
  readonly #complaints: string[] = [];
  readonly #kinds = new Map<string, number>();
  readonly #libraries: string[] = [];
  #hiddenFolders = 0;

  constructor(private readonly home: string | undefined) {}

  async add(path: string): Promise<void> {
    const found = await fs.stat(path).catch(() => null);
    if (found?.isDirectory()) return this.#walk(path);
    if (found !== null) return this.#named(path);
    if (!isDynamicPattern(path)) {
      const isLink = (await fs.lstat(path).catch(() => null))?.isSymbolicLink();
      this.#complaints.push(
        isLink ? `${path}: this is a link that leads nowhere.` : `${path}: there is no such file or folder.`,
      );
      return;
    }
    const matches = await glob(path, {
      absolute: isAbsolute(path),
      onlyFiles: false,
      expandDirectories: false,
      followSymbolicLinks: false,
    });
    if (matches.length === 0) this.#complaints.push(`${path}: no file or folder fits this pattern.`);
    for (const match of matches.sort()) await this.add(match.replace(/(?<=.)\/$/, ''));
  }

  /** A file that was named itself is taken whatever its kind, but for a library's own. */
  async #named(path: string): Promise<void> {
    const real = await fs.realpath(path);
    if (this.home !== undefined && liesIn(real, this.home))
      this.#complaints.push(`${path}: this file belongs to the library itself; name the original.`);
    else this.#take(real, path);
  }

  #take(real: string, path: string): void {
    const known = this.#files.get(real);
    if (known === undefined || path < known) this.#files.set(real, path);
  }

  async #walk(top: string): Promise<void> {
    const waiting = [top];
    for (let shown = waiting.pop(); shown !== undefined; shown = waiting.pop()) {
      const folder = await fs.realpath(shown);
      if (this.#folders.has(folder)) continue;
      this.#folders.add(folder);
      if (await this.#isLibrary(folder)) {
        this.#libraries.push(shown);
        continue;
      }
      for (const entry of await this.#entriesOf(shown)) {
        const path = join(shown, entry.name);
        const isHidden = entry.name.startsWith('.');
        if (entry.isDirectory() && isHidden) this.#hiddenFolders++;
        else if (entry.isDirectory()) waiting.push(path);
        else if (isHidden) continue;
        else if (isMotifFile(entry.name) && (await isFile(entry, path))) {
          const real = await fs.realpath(path).catch(() => join(folder, entry.name));
          if (this.home === undefined || !liesIn(real, this.home)) this.#take(real, path);
        } else this.#pass(entry.name);
      }
    }
  }

  /** The motifs folder of a library counts as the library. */
  async #isLibrary(folder: string): Promise<boolean> {
    if (this.home !== undefined && liesIn(folder, this.home)) return true;
    return (await isMarked(folder)) || (basename(folder) === 'motifs' && (await isMarked(dirname(folder))));
  }

  async #entriesOf(folder: string): Promise<Dirent[]> {
    try {
      return await fs.readdir(folder, { withFileTypes: true });
    } catch {
      this.#complaints.push(`${folder}: the folder cannot be read.`);
      return [];
    }
  }

  #pass(name: string): void {
    const ending = extname(name).slice(1).toLowerCase();
    this.#kinds.set(ending, (this.#kinds.get(ending) ?? 0) + 1);
  }

  sources(paths: readonly string[]): Sources {
    const passedOver: PassedOver = {
      kinds: [...this.#kinds].sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1)),
      hiddenFolders: this.#hiddenFolders,
      libraries: this.#libraries,
    };
    if (this.#files.size === 0) throw new Refusal(this.#complaints.join(' ') || nothingIn(paths, passedOver));
    const files = [...this.#files.values()].sort();
    return { files, passedOver, complaints: this.#complaints };
  }
}

function nothingIn(paths: readonly string[], { libraries, kinds }: PassedOver): string {
  if (libraries.length > 0)
    return `${libraries[0]} holds a library, and its motifs are made from originals: name the folder of the originals.`;
  const others = kinds.length > 0 ? ` (${kindsText(kinds)} there)` : '';
  return `There is no SVG, DXF or motif file in ${paths.join(', ')}${others}.`;
}

/** "3 pdf, 1 zip". */
export function kindsText(kinds: PassedOver['kinds']): string {
  return kinds
    .map(([ending, count]) => `${count} ${ending === '' ? 'without an ending' : ending}`)
    .join(', ');
}

/** A link to a file counts as the file; a pipe or device by a motif's name does not. */
async function isFile(entry: Dirent, path: string): Promise<boolean> {
  if (!entry.isSymbolicLink()) return entry.isFile();
  return fs.stat(path).then(
    (found) => found.isFile(),
    () => true,
  );
}
