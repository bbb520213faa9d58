/**
 * One drawing, written as different drawing programs write theirs: in other units, with the style and the moves
 * in other places. Every flavour states its size; what differs is how a reader has to find the line.
 */
import { boxOf, type Drawing } from './drawing.js';
import { number, pathText, pointsText } from './path-text.js';
import { scaled, shifted } from './stroke.js';

export type Flavour = (drawing: Drawing) => string;

const header = '<?xml version="1.0" encoding="UTF-8"?>\n';
const svgNs = 'http://www.w3.org/2000/svg';
const linkNs = 'http://www.w3.org/1999/xlink';
const studioNs = 'https://harbour-studio.example/ns';

export function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** The strokes with the top-left corner of their box at `marginMm`, in units of `perMm`; and the page round them. */
export function laidOut(drawing: Drawing, marginMm: number, perMm: number) {
  const box = boxOf(drawing.strokes);
  const strokes = drawing.strokes.map((stroke) =>
    scaled(shifted(stroke, marginMm - box.minX, marginMm - box.minY), perMm),
  );
  const pageMm = (span: number) => Math.ceil(span + 2 * marginMm);
  return { strokes, widthMm: pageMm(box.maxX - box.minX), heightMm: pageMm(box.maxY - box.minY) };
}

/** A plain page in millimetres, one unit to the millimetre; the style on the path. */
export const plain: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 5, 1);
  const paths = strokes.map(
    (stroke) =>
      `  <path fill="none" stroke="#333" stroke-width="0.6" stroke-linecap="round"\n    d="${pathText([stroke], { decimals: 4 })}"/>\n`,
  );
  return `${header}<svg xmlns="${svgNs}" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}">
  <title>${escaped(drawing.title)}</title>
  <desc>${escaped(drawing.description ?? drawing.title)}</desc>
${credits(drawing)}${paths.join('')}</svg>
`;
};

/** A filled shape with no line round it, as "outline stroke" leaves it. */
export const filled: Flavour = (drawing) =>
  plain(drawing).replaceAll(/<path fill="none" [^>]*?\n {4}d="([^"]*)"\/>/g, '<path fill="#111" d="$1 Z"/>');

/** Inches outside, 96 units to the inch inside, the drawing moved to its place by nested groups. */
export const inches: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 0, 96 / 25.4);
  const unit = (mm: number) => number((mm * 96) / 25.4, 3);
  const [page, high] = [widthMm + 12.7, heightMm + 12.7];
  return `${header}<svg version="1.1" xmlns="${svgNs}" xmlns:studio="${studioNs}" width="${number(page / 25.4, 5)}in" height="${number(high / 25.4, 5)}in"
     viewBox="0 0 ${unit(page)} ${unit(high)}" studio:version="4.2">
  <title>${escaped(drawing.title)}</title>
${credits(drawing)}  <g id="layer1" studio:layer="Quilting" transform="translate(14 34)">
    <g id="g12" transform="translate(10,-10)" style="fill:none;stroke:#1a1a1a;stroke-width:1.5px;stroke-linecap:round;stroke-linejoin:round">
${strokes.map((stroke, i) => `      <path id="path${20 + 2 * i}" studio:nodes="cssc" d="${pathText([stroke], { decimals: 5, relative: true })}"/>\n`).join('')}    </g>
  </g>
</svg>
`;
};

/** Points outside, 72 units to the inch inside, classes in a style element, dense relative path data. */
export const points: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 4, 72 / 25.4);
  const unit = (mm: number) => number((mm * 72) / 25.4, 2);
  return `${header}<svg version="1.1" id="Layer_1" xmlns="${svgNs}" x="0px" y="0px"
	 width="${unit(widthMm)}pt" height="${unit(heightMm)}pt" viewBox="0 0 ${unit(widthMm)} ${unit(heightMm)}" xml:space="preserve">
<style type="text/css">
	.st0{fill:none;stroke:#231F20;stroke-width:1;stroke-linecap:round;stroke-miterlimit:10;}
</style>
<title>${escaped(drawing.title)}</title>
${credits(drawing)}<g id="Stitching">
${strokes.map((stroke) => `\t<path class="st0" d="${pathText([stroke], { decimals: 4, relative: true, shorthand: true, dense: true })}"/>\n`).join('')}</g>
</svg>
`;
};

/** Namespaces declared through entities in the document type, centimetres, the style inherited from a group. */
export const entities: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 3, 10);
  return `${header}<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [
	<!ENTITY ns_svg "${svgNs}">
	<!ENTITY ns_xlink "${linkNs}">
	<!ENTITY ns_studio "${studioNs}">
	<!ENTITY ink "stroke:#000;fill:none">
]>
<svg xmlns="&ns_svg;" xmlns:xlink="&ns_xlink;" xmlns:studio="&ns_studio;" version="1.1"
	width="${number(widthMm / 10, 3)}cm" height="${number(heightMm / 10, 3)}cm" viewBox="0 0 ${widthMm * 10} ${heightMm * 10}">
	<title>${escaped(drawing.title)}</title>
${credits(drawing)}	<g studio:kind="drawing" style="&ink;;stroke-width:8">
${strokes.map((stroke) => `\t\t<path d="${pathText([stroke], { decimals: 3, shorthand: true })}"/>\n`).join('')}	</g>
</svg>
`;
};

/** Every SVG element with a prefix; the line in a group that mirrors it and mirrors it back. */
export const prefixed: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 6, 4);
  return `${header}<svg:svg xmlns:svg="${svgNs}" xmlns:studio="${studioNs}" studio:sheet="A3"
    width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm * 4} ${heightMm * 4}">
  <svg:title>${escaped(drawing.title)}</svg:title>
${credits(drawing, 'svg:')}  <svg:g transform="matrix(-1 0 0 1 ${widthMm * 4} 0)">
    <svg:g transform="scale(-1,1) translate(-${widthMm * 4})" stroke="rgb(40,40,40)" stroke-width="2" fill="none">
${strokes.map((stroke) => `      <svg:path d="${pathText([stroke], { decimals: 3, relative: true })}"/>\n`).join('')}    </svg:g>
  </svg:g>
</svg:svg>
`;
};

/** The line kept among the definitions and used once, at an offset; style by a class and a child selector. */
export const used: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 0, 2);
  return `${header}<svg xmlns="${svgNs}" xmlns:xlink="${linkNs}" width="${widthMm + 8}mm" height="${heightMm + 8}mm" viewBox="0 0 ${2 * (widthMm + 8)} ${2 * (heightMm + 8)}">
  <title>${escaped(drawing.title)}</title>
${credits(drawing)}  <defs>
    <style>
      g.motif > use { fill: none; stroke: #22313f; stroke-width: 1.2 }
    </style>
${strokes.map((stroke, i) => `    <path id="line-${i + 1}" d="${pathText([stroke], { decimals: 4, shorthand: true })}"/>\n`).join('')}  </defs>
  <g class="motif">
${strokes.map((_, i) => `    <use xlink:href="#line-${i + 1}" x="8" y="8"/>\n`).join('')}  </g>
</svg>
`;
};

/** A nested svg with a viewBox of its own, sized in picas, on a larger page; a turned and turned-back group. */
export const nested: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 2, 1);
  const pica = (mm: number) => number((mm / 25.4) * 6, 6);
  return `${header}<svg xmlns="${svgNs}" width="${pica(widthMm + 10)}pc" height="${pica(heightMm + 10)}pc" viewBox="0 0 ${widthMm + 10} ${heightMm + 10}">
  <title>${escaped(drawing.title)}</title>
${credits(drawing)}  <svg x="5" y="5" width="${widthMm}" height="${heightMm}" viewBox="0 0 ${widthMm} ${heightMm}" preserveAspectRatio="xMidYMid meet">
    <g stroke="black" fill="none" stroke-width=".5" transform="rotate(90 50 50)">
      <g transform="rotate(-90, 50, 50)">
${strokes.map((stroke) => `        <path d="${pathText([stroke], { decimals: 4, relative: true, shorthand: true })}"/>\n`).join('')}      </g>
    </g>
  </svg>
</svg>
`;
};

/** Straight lines as a polyline, in inches, the page's units inches too. */
export const polyline: Flavour = (drawing) => {
  const { strokes, widthMm, heightMm } = laidOut(drawing, 6.35, 1 / 25.4);
  const unit = (mm: number) => number(mm / 25.4, 5);
  return `${header}<svg xmlns="${svgNs}" width="${unit(widthMm)}in" height="${unit(heightMm)}in" viewBox="0 0 ${unit(widthMm)} ${unit(heightMm)}">
  <title>${escaped(drawing.title)}</title>
${credits(drawing)}${strokes.map((stroke) => `  <polyline points="${pointsText(stroke, 6)}" style="fill:none; stroke:#444; stroke-width:0.02"/>\n`).join('')}</svg>
`;
};

/** Title, maker and rights as drawing programs keep them: Dublin Core in a metadata element. */
export function credits({ title, creator, rights }: Drawing, prefix = ''): string {
  return `  <${prefix}metadata>
    <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:cc="http://creativecommons.org/ns#">
      <cc:Work rdf:about="">
        <dc:format>image/svg+xml</dc:format>
        <dc:title>${escaped(title)}</dc:title>
        <dc:creator><cc:Agent><dc:title>${escaped(creator)}</dc:title></cc:Agent></dc:creator>
        <dc:rights><cc:Agent><dc:title>${escaped(rights)}</dc:title></cc:Agent></dc:rights>
      </cc:Work>
    </rdf:RDF>
  </${prefix}metadata>
`;
}
