/**
 * The reference reading: `@resvg/resvg-js` resolves styles, `use`, units, shapes and nesting to absolute path data
 * and matrices; this turns its answer into dense polylines in millimetres. Nothing of ours takes part: path data is
 * read by `svg-pathdata`, the tree by `svgson`.
 */
import { Resvg } from '@resvg/resvg-js';
import { SVGPathData } from 'svg-pathdata';
import { type INode, parseSync } from 'svgson';

/** [x0, y0, x1, y1, …] */
export type Dense = number[];

type Matrix = [number, number, number, number, number, number];

const mmPerPx = 25.4 / 96;

/** How many pieces a curve is cut into. */
const pieces = 32;

function times([a, b, c, d, e, f]: Matrix, [g, h, i, j, k, l]: Matrix): Matrix {
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** The painted lines (`stroked`), or all painted shapes, as the reference reads them. */
export function referenceLines(svg: string, which: 'stroked' | 'painted'): Dense[] {
  const root = parseSync(new Resvg(svg, { font: { loadSystemFonts: false } }).toString());
  const lines: Dense[] = [];
  const walk = (node: INode, outer: Matrix) => {
    if (node.name === 'defs' || node.name === 'mask' || node.name === 'clipPath') return;
    if (node.attributes.opacity === '0') return;
    const own = node.attributes.transform ? matrix(node.attributes.transform) : null;
    const ctm = own ? times(outer, own) : outer;
    const { visibility } = node.attributes;
    if (
      node.name === 'path' &&
      (visibility ?? 'visible') === 'visible' &&
      isPainted(node.attributes, which)
    ) {
      lines.push(...dense(node.attributes.d, ctm));
    }
    for (const child of node.children) walk(child, ctm);
  };
  walk(root, pageMap(root.attributes));
  return lines;
}

/** The reference keeps what cannot be seen, and says so. */
function isPainted(attributes: Record<string, string>, which: 'stroked' | 'painted'): boolean {
  const seen = (paint: 'stroke' | 'fill', unless: string) =>
    (attributes[paint] ?? unless) !== 'none' && attributes[`${paint}-opacity`] !== '0';
  return seen('stroke', 'none') || (which === 'painted' && seen('fill', 'black'));
}

function matrix(text: string): Matrix {
  return text.match(/-?[\d.]+(?:e[+-]?\d+)?/gi)!.map(Number) as Matrix;
}

/** The answer keeps the root's viewBox: its default alignment is applied here, others are not in the answer. */
function pageMap({ width, height, viewBox, preserveAspectRatio }: Record<string, string>): Matrix {
  const [x, y, w, h] = viewBox.split(/\s+/).map(Number);
  const [scaleX, scaleY] = [(Number(width) / w) * mmPerPx, (Number(height) / h) * mmPerPx];
  if (preserveAspectRatio !== undefined) return alignedMap(preserveAspectRatio, x, y, w, h, scaleX, scaleY);
  const scale = Math.min(scaleX, scaleY);
  return [
    scale,
    0,
    0,
    scale,
    (Number(width) * mmPerPx - w * scale) / 2 - x * scale,
    (Number(height) * mmPerPx - h * scale) / 2 - y * scale,
  ];
}

/** SVG 1.1, 7.8, for the alignments of the root that are not the default. */
function alignedMap(
  text: string,
  x: number,
  y: number,
  w: number,
  h: number,
  sx: number,
  sy: number,
): Matrix {
  if (text === 'none') return [sx, 0, 0, sy, -x * sx, -y * sy];
  const scale = text.includes('slice') ? Math.max(sx, sy) : Math.min(sx, sy);
  const part = (low: string, high: string) => (text.includes(low) ? 0 : text.includes(high) ? 1 : 0.5);
  const dx = (w * sx - w * scale) * part('xMin', 'xMax');
  const dy = (h * sy - h * scale) * part('YMin', 'YMax');
  return [scale, 0, 0, scale, dx - x * scale, dy - y * scale];
}

/** The subpaths of absolute path data of lines and cubics (all that the reference writes) as dense polylines. */
function dense(d: string, [a, b, c, dd, e, f]: Matrix): Dense[] {
  const lines: Dense[] = [];
  let line: Dense = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  const put = (px: number, py: number) => line.push(a * px + c * py + e, b * px + dd * py + f);
  const begin = () => {
    line = [];
    lines.push(line);
    put(startX, startY);
  };
  for (const command of new SVGPathData(d).toAbs().commands) {
    if (command.type === SVGPathData.MOVE_TO) {
      [x, y, startX, startY] = [command.x, command.y, command.x, command.y];
      begin();
    } else if (command.type === SVGPathData.CLOSE_PATH) {
      put(startX, startY);
      [x, y] = [startX, startY];
      begin();
    } else if (command.type === SVGPathData.LINE_TO) {
      put(command.x, command.y);
      [x, y] = [command.x, command.y];
    } else if (command.type === SVGPathData.QUAD_TO || command.type === SVGPathData.CURVE_TO) {
      const [x1, y1] = [command.x1, command.y1];
      const quadratic = command.type === SVGPathData.QUAD_TO;
      const [c1x, c1y] = quadratic ? [x + (2 / 3) * (x1 - x), y + (2 / 3) * (y1 - y)] : [x1, y1];
      const [c2x, c2y] = quadratic
        ? [command.x + (2 / 3) * (x1 - command.x), command.y + (2 / 3) * (y1 - command.y)]
        : [command.x2, command.y2];
      for (let i = 1; i <= pieces; i++) {
        const t = i / pieces;
        const s = 1 - t;
        const at = (p: number, q: number, r: number, u: number) =>
          s * s * s * p + 3 * s * s * t * q + 3 * s * t * t * r + t * t * t * u;
        put(at(x, c1x, c2x, command.x), at(y, c1y, c2y, command.y));
      }
      [x, y] = [command.x, command.y];
    } else throw new Error(`The reference wrote an unexpected command: ${JSON.stringify(command)}`);
  }
  return lines.filter((each) => each.length > 2);
}
