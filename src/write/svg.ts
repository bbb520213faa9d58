/** The motif as SVG in real millimetres, with its credits, for other programs to read. */
import type { INode } from 'svgson';
import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import type { Credit } from '../../shared/provenance.js';
import { naming } from '../../shared/refusal.js';
import { curvesOf } from '../curves/index.js';
import { toMicron } from '../markup/number-text.js';
import { curveData, pathData } from '../markup/path-data.js';
import { element, svgText, textElement } from '../markup/svg-node.js';

/** A flat motif still needs a page with some height to lie on. */
const leastPageMm = 0.001;

/**
 * One path a stroke, to 0.001 mm; read in again it gives the same motif to that. `place` is where its origin is to lie;
 * with `curves` it is few curves within 0.02 mm of the line instead of all its points.
 */
export function writeSvg(motif: Motif, place: Point = { x: 0, y: 0 }, curves = false): string {
  const data = curves
    ? naming(motif.source?.file ?? motif.name, () => curvesOf(motif.strokes)).map((each) =>
        curveData(each, place.x, place.y),
      )
    : motif.strokes.map((each) => pathData(each, place.x, place.y));
  const { x, y } = { x: toMicron(place.x), y: toMicron(place.y) };
  const [width, height] = [motif.widthMm, motif.heightMm].map((mm) => Math.max(toMicron(mm), leastPageMm));
  const root = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: `${width}mm`,
      height: `${height}mm`,
      viewBox: `${x} ${y} ${width} ${height}`,
    },
    [
      ...creditNodes(motif.credit),
      element(
        'g',
        {
          fill: 'none',
          stroke: '#000',
          'stroke-width': 0.5,
          'stroke-linecap': 'round',
          'stroke-linejoin': 'round',
        },
        data.map((d) => element('path', { d })),
      ),
    ],
  );
  return `${svgText(root)}\n`;
}

const rdf = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#';
const dublinCore = 'http://purl.org/dc/elements/1.1/';

/** Title and description as SVG has them, the rest in Dublin Core, where other programs look for it. */
function creditNodes({ title, description, creator, rights }: Credit): INode[] {
  const nodes: INode[] = [];
  if (title) nodes.push(textElement('title', title));
  if (description) nodes.push(textElement('desc', description));
  const core = Object.entries({ 'dc:title': title, 'dc:creator': creator, 'dc:rights': rights }).flatMap(
    ([name, value]) => (value ? [textElement(name, value)] : []),
  );
  if (core.length > 0) {
    const about = element('rdf:Description', { 'rdf:about': '' }, core);
    nodes.push(
      element('metadata', {}, [element('rdf:RDF', { 'xmlns:rdf': rdf, 'xmlns:dc': dublinCore }, [about])]),
    );
  }
  return nodes;
}
