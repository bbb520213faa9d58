/**
 * Names of motifs in a library: unique on every system, and kept from build to build, since the owner's tags and
 * printed sheets go by them.
 */
import { freeName, nameKey } from '../../shared/output-name.js';

/**
 * A name for each source that is to get one. `taken` says which names stand already and for which source, `foreign`
 * which files in the motifs folder would be in the way; `wish` is the name a source would have by itself. Sources are
 * served in the order given.
 */
export function namesFor(
  sources: readonly string[],
  taken: ReadonlyMap<string, string>,
  wish: (source: string) => string,
  foreign: readonly string[] = [],
): Map<string, string> {
  const used = new Set([...taken.values(), ...foreign].map(nameKey));
  return new Map(sources.map((source) => [source, taken.get(source) ?? freeName(wish(source), used)]));
}
