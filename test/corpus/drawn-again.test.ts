/** The corpus is what its script draws, and belongs to nobody else. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const corpus = fileURLToPath(new URL('../../corpus', import.meta.url));

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}

describe('the drawing script', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'corpus-'));
    execFileSync(process.execPath, ['--import', 'tsx', join(corpus, 'draw.ts'), folder]);
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true }));

  it('draws every file of motifs, rules, pieces and scans, and no other', () => {
    const kept = filesIn(corpus).filter((file) => /^(motifs|rules|pieces|scans)\//.test(file));
    expect(filesIn(folder)).toEqual(kept);
  });

  it('draws each of them the same, byte for byte', () => {
    for (const file of filesIn(folder))
      expect(readFileSync(join(folder, file)).equals(readFileSync(join(corpus, file))), file).toBe(true);
  });
});

describe('the files of the corpus', () => {
  const drawings = filesIn(corpus).filter((file) => /^(motifs|rules|pieces)\/.*\.svg$/.test(file));

  // Vocabularies of the W3C, of Dublin Core and of Creative Commons, and the studio's own.
  const known = [
    'http://www.w3.org/2000/svg',
    'http://www.w3.org/1999/xlink',
    'http://www.w3.org/1999/02/22-rdf-syntax-ns#',
    'http://purl.org/dc/elements/1.1/',
    'http://creativecommons.org/ns#',
    'https://harbour-studio.example/ns',
  ];

  it('use no namespace of a drawing program and carry no note of one', () => {
    for (const file of drawings) {
      const text = readFileSync(join(corpus, file), 'utf8');
      const declared = [...text.matchAll(/(?:xmlns(?::\w+)?=|<!ENTITY ns_\w+ )"([^"&]+)"/g)].map(
        ([, name]) => name,
      );
      for (const name of declared) expect(known, file).toContain(name);
      expect(text, file).not.toMatch(/<!--|generator|created with/i);
    }
  });

  it('are by the invented studio', () => {
    for (const file of drawings.filter((name) => /^(motifs|pieces)\//.test(name)))
      expect(readFileSync(join(corpus, file), 'utf8'), file).toContain('Harbour Studio, an invented studio.');
  });
});
