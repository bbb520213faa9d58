/**
 * Names of outputs, made from names of inputs: nothing in them leads out of the folder, and every system takes them.
 */

/** The base name of a file without the endings of motif files, safe as a file name on its own. */
export function outputBase(file: string): string {
  const last = file.split(/[\\/]/).at(-1) ?? '';
  const bare = last.replace(/(?<=.)\.(?:svgz?|motif\.json|json)$/i, '');
  const safe = bare
    // biome-ignore lint/suspicious/noControlCharactersInRegex: no file system takes them all
    .replace(/[\u0000-\u001f\u007f-\u009f<>:"|?*\u200e\u200f\u2028-\u202e\u2066-\u2069]/g, '_')
    .replace(/^\.+/, (dots) => '_'.repeat(dots.length))
    .replace(/[. ]+$/, '');
  const named = safe === '' ? 'motif' : isReserved(safe) ? `${safe}_` : safe;
  return shortened(named);
}

/** Names that stand for devices on some systems, with or without an ending. */
function isReserved(name: string): boolean {
  return /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?$/i.test(name);
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

/**
 * One name an input, in their order; of two that come out the same, also where upper and lower case are one, the
 * second gets `-2`.
 */
export function outputNames(files: readonly string[]): string[] {
  const used = new Set<string>();
  return files.map((file) => {
    const plain = outputBase(file);
    let name = plain;
    for (let n = 2; used.has(name.toLowerCase()); n++) name = `${plain}-${n}`;
    used.add(name.toLowerCase());
    return name;
  });
}
