/**
 * The page that hands a motif over to the desk. A page from disk may not read the file beside it, so the motif file goes
 * along in the link: packed, behind the #, which the browser sends nowhere.
 */
import { gzipSync } from 'node:zlib';
import { html } from '../../markup/html.js';
import { deskName } from '../contents/index-file.js';

/** Longer links are refused by one browser or another. */
const longestLink = 1_000_000;

/** `name` without ending; the page lies in the folder of the motifs. The same motif gives the same page. */
export function toDeskPage(name: string, motifFile: string): string {
  const packed = gzipSync(motifFile, { level: 9 }).toString('base64url');
  const file = `${name}.motif.json`;
  const link = `../${deskName}#motif=${encodeURIComponent(file)}&data=${packed}`;
  const fits = link.length <= longestLink;
  return `${html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
${fits && html`<meta http-equiv="refresh" content="0; url=${link}">`}
<title>${name}, to the desk</title>
</head>
<body>
${
  fits
    ? html`<p><a href="${link}">Open ${name} on the desk</a>, which is ${deskName} in the library's folder.</p>`
    : html`<p>This motif is too long for a link: open <a href="../${deskName}">the desk</a> and drop ${file} on it, which lies beside this page.</p>`
}
</body>
</html>`}\n`;
}
