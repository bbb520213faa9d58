/**
 * From a picture to Artwork: unpacked, light lines on dark turned to ink on paper (`paper`), light evened out (`darkness`), the dark beyond the sheet taken away (`beyond`),
 * edges of the ink (`edges`), the line in the middle (`trace`, `src/centre/`), that line held against the ink (`proof`),
 * millimetres by the resolution.
 *
 * Limits: one pen a drawing, darker or lighter than the paper, at least three pixels wide; passes need three pixels of paper between them, loops a hole
 * of three. Larger pictures than 40 megapixels are halved first.
 */
import type { IntakeNote } from '../../../shared/artwork.js';
import type { Point } from '../../../shared/plane.js';
import { naming, Refusal } from '../../../shared/refusal.js';
import type { Scan } from '../../../shared/scan.js';
import { Op, type Subpath } from '../../../shared/subpath.js';
import { firstPoint, isClosed } from '../../geometry/polyline.js';
import { thinnedLine } from '../../geometry/thinning.js';
import type { Drawn, ReadOptions } from '../intake/importer.js';
import { withoutBeyond } from './beyond.js';
import { darknessOf, levelsOf } from './darkness.js';
import { edgesOf } from './edges.js';
import { readJpeg } from './jpeg.js';
import { isPng } from './kinds.js';
import { palePicture } from './pale.js';
import { asInkOnPaper } from './paper.js';
import type { Picture } from './picture.js';
import { readPng } from './png.js';
import { proofOf } from './proof.js';
import { traced } from './trace.js';

const halvedPixels = 40_000_000;
const assumedDpi = 300;
const leastPenPx = 3;
/** What pixels and blur add to the square of a pen's width at the threshold: so from 1.5 to 10 pixels, drawn by resvg. */
const blurredPx2 = 4.6;
/** Of what is left out, so many places are told. */
const mostPlaces = 20;
/** The line is right to no better than this, in pixels: points nearer to it are left out. */
const thinPx = 0.05;

/** @throws Refusal where the picture cannot be unpacked, or holds no line that can be followed */
export async function readScan(bytes: Uint8Array, file: string, { dpi, ink }: ReadOptions): Promise<Drawn> {
  const { picture, isLightOnDark } = asInkOnPaper(
    halvedIfLarge(isPng(bytes) ? await readPng(bytes, file) : await readJpeg(bytes, file)),
  );
  const { width, height } = picture;
  const dark = darknessOf(picture);
  const first = levelsOf(dark, ink ?? undefined);
  const beyond = first ? withoutBeyond(dark, width, height, (first.paper + first.ink) / 2) : [];
  const levels = beyond.length > 0 ? levelsOf(dark, ink ?? undefined) : first;
  if (levels === null)
    throw new Refusal(
      `${file} holds no drawing that stands out from the paper: scan it darker, or draw it over with a black pen.`,
    );
  const found = naming(file, () => traced(edgesOf(dark, width, height, levels.threshold), width, height));
  const { ruled, specks, shapes } = found;
  if (found.strokes.length === 0)
    throw new Refusal(
      `${file} holds no line of a pen, only specks or shapes: there is nothing in it to stitch.`,
    );
  const proof = proofOf(dark, width, height, levels, { ...found, leftOut: ruled, spots: specks });
  const sharpPx = Math.sqrt(Math.max(0, found.penPx * found.penPx - blurredPx2));
  if (sharpPx < leastPenPx)
    throw new Refusal(
      `${file}: the line is only ${sharpPx.toFixed(1)} pixels wide, too thin to be followed: scan it finer, at 300 dots to the inch or more.`,
    );
  const [dotsAcross, dotsDown] =
    dpi != null ? [dpi, dpi] : (picture.dpi ?? ([assumedDpi, assumedDpi] as const));
  const isStated = dpi != null || picture.dpi !== null;
  const [mmX, mmY] = [25.4 / dotsAcross, 25.4 / dotsDown];
  const toMm = ({ x, y }: Point) => ({ x: x * mmX, y: y * mmY });
  const pale = await palePicture(dark, width, height);
  const scan: Scan = {
    dotsPerInch: [dotsAcross, dotsDown],
    penMm: proof.penPx * Math.sqrt(mmX * mmY),
    coveredShare: proof.coveredShare,
    onInkShare: proof.onInkShare,
    uncovered: proof.uncovered.map(toMm),
    offInk: proof.offInk.map(toMm),
    pale: {
      href: pale.href,
      topLeft: { x: 0, y: 0 },
      topRight: toMm({ x: pale.widthPx, y: 0 }),
      bottomLeft: toMm({ x: 0, y: pale.heightPx }),
    },
  };
  const left: readonly (readonly [what: string, at: readonly Point[]])[] = [
    [`${isLightOnDark ? 'pale' : 'dark'} picture edge`, beyond],
    ['speck', specks],
    ['ruled line', ruled.map(firstPoint)],
    ['filled shape', shapes.map(({ at }) => at)],
    ['paler mark', proof.paler],
  ];
  return {
    lines: found.strokes.map((line) => subpathOf(thinnedLine(line, thinPx), mmX, mmY)),
    assumedSize: !isStated,
    ...(isStated ? {} : { assumedScale: { taken: '300 dots to the inch', other: '200', timesAsLarge: 1.5 } }),
    statedSizeMm: isStated ? [width * mmX, height * mmY] : null,
    credit: {},
    notes: left.flatMap(([what, at]): IntakeNote[] =>
      at.length === 0
        ? []
        : [{ kind: 'other', what, count: at.length, places: at.slice(0, mostPlaces).map(toMm) }],
    ),
    scan,
  };
}

function subpathOf(line: Float64Array, mmX: number, mmY: number): Subpath {
  const n = line.length;
  return {
    ops: new Uint8Array(n / 2 - 1).fill(Op.line),
    coords: line.map((value, i) => value * (i % 2 === 0 ? mmX : mmY)),
    closed: isClosed(line),
  };
}

function halvedIfLarge(picture: Picture): Picture {
  if (picture.width * picture.height <= halvedPixels) return picture;
  const [width, height] = [picture.width >> 1, picture.height >> 1];
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const at = 2 * y * picture.width + 2 * x;
      const below = at + picture.width;
      grey[y * width + x] =
        (picture.grey[at] + picture.grey[at + 1] + picture.grey[below] + picture.grey[below + 1] + 2) >> 2;
    }
  return { width, height, grey, dpi: picture.dpi && [picture.dpi[0] / 2, picture.dpi[1] / 2] };
}
