/**
 * Names of outputs, made from names of inputs: nothing in them leads out of the folder, and every system takes them.
 */

/** The name, a file's without its ending, safe as a file name on its own. */
export function outputBase(name: string): string {
  const last = name.split(/[\\/]/).at(-1) ?? '';
  const safe = last
    // biome-ignore lint/suspicious/noControlCharactersInRegex: no file system takes them all
    .replace(/[\u0000-\u001f\u007f-\u009f<>:"|?*\u200e\u200f\u2028-\u202e\u2066-\u2069]/g, '_')
    .replace(/^\.+/, (dots) => '_'.repeat(dots.length))
    .replace(/[. ]+$/, '')
    .replace(device, '$&_');
  return shortened(safe === '' ? 'motif' : safe);
}

/**
 * Names that stand for devices on some systems, whatever follows after a dot (Microsoft, "Naming Files, Paths, and
 * Namespaces"): `con.fusion` is one, `confusion` is not.
 */
const device = /^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9\u00b9\u00b2\u00b3])(?= *(?:\.|$))/i;

/** Two names with the same key are one file to some system: upper and lower case, and how an accent is written. */
export function nameKey(name: string): string {
  return name.normalize('NFC').toLowerCase();
}

/** File systems end at 255 bytes, and endings and numbers come on top. */
function shortened(name: string): string {
  const mostBytes = 180;
  let bytes = 0;
  let out = '';
  for (const sign of name) {
    bytes += new TextEncoder().encode(sign).length;
    if (bytes > mostBytes) break;
    out += sign;
  }
  return out;
}

/** One output name for each name, in their order; of two that come out the same (`nameKey`) the second gets `-2`. */
export function outputNames(names: readonly string[]): string[] {
  const used = new Set<string>();
  return names.map((name) => freeName(outputBase(name), used));
}

/** The name, numbered where its key is among `used`, to which the key of the answer is added. */
export function freeName(wish: string, used: Set<string>): string {
  let name = wish;
  for (let n = 2; used.has(nameKey(name)); n++) name = `${wish}-${n}`;
  used.add(nameKey(name));
  return name;
}
