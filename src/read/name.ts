/** The name of what a file holds: its base name without the ending. */
export function baseName(file: string): string {
  const last = file.split(/[\\/]/).at(-1) ?? file;
  return last.replace(/(?<=.)\.(?:svgz?|motif\.json|json)$/i, '') || 'motif';
}
