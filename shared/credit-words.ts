import type { Credit } from './provenance.js';

/** A motif's credits as they are told on every page about it, a line each; `file` is where it was read from, if that is told. */
export function creditWords({ title, creator, rights, description }: Credit, file?: string): string[] {
  const lines = [
    title && `Title: ${title}`,
    creator && `Designer: ${creator}`,
    rights && `Rights: ${rights}`,
    description,
    file && `From the file ${file}.`,
    "A bought motif stays under its designer's licence.",
  ];
  return lines.filter((line): line is string => Boolean(line));
}
