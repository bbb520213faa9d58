/**
 * Names of motifs in a library: unique also where a file system does not tell upper from lower case, and kept from
 * build to build, since the owner's tags and printed sheets go by them.
 */

/**
 * A name for each source that is to get one. `taken` says which names stand already and for which source; `wish` is
 * the name a source would have by itself. Sources are served in the order given.
 */
export function namesFor(
  sources: readonly string[],
  taken: ReadonlyMap<string, string>,
  wish: (source: string) => string,
): Map<string, string> {
  const names = new Map<string, string>();
  const used = new Set([...taken.values()].map((name) => name.toLowerCase()));
  for (const source of sources) {
    const kept = taken.get(source);
    if (kept !== undefined) {
      names.set(source, kept);
      continue;
    }
    const plain = wish(source);
    let name = plain;
    for (let n = 2; used.has(name.toLowerCase()); n++) name = `${plain}-${n}`;
    used.add(name.toLowerCase());
    names.set(source, name);
  }
  return names;
}
