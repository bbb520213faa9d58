/** Cases of the rules about the file: its size, its namespace, and what else it holds. */
import { boxOf, type Drawing } from '../drawing.js';
import { escaped, inches, laidOut, nested, plain, points, prefixed, used } from '../flavours.js';
import { crates } from '../motifs/crates.js';
import { gullWing } from '../motifs/gull-wing.js';
import { kelp } from '../motifs/kelp.js';
import { net } from '../motifs/net.js';
import { pebbleBeach } from '../motifs/pebble-beach.js';
import { ripples } from '../motifs/ripples.js';
import { sail } from '../motifs/sail.js';
import { swell } from '../motifs/swell.js';
import { number, pathText, pointsText } from '../path-text.js';
import { endOf, type Stroke } from '../stroke.js';
import { type Case, type Expected, placesIn, sketch } from './case.js';

const swellSketch = sketch('Swell', swell.stroke);
const kelpSketch = sketch('Kelp', kelp.stroke);
const cratesSketch = sketch('Crates', crates.stroke);
const svgNs = 'xmlns="http://www.w3.org/2000/svg"';
const lineStyle = 'fill="none" stroke="#333" stroke-width="0.6"';
const marginMm = 10;

interface Sheet {
  /** Attributes of the root, given the page in millimetres. */
  readonly root?: (widthMm: number, heightMm: number) => string;
  readonly perMm?: number;
  /** What stands before and after the motif's path. */
  readonly before?: string;
  readonly after?: string;
  /** Attributes of the motif's path besides its data. */
  readonly path?: string;
  /** Written after the path's own data. */
  readonly tail?: string;
}

const inMillimetres = (widthMm: number, heightMm: number) =>
  `${svgNs} width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}"`;

/** A page with the motif's top-left corner 10 mm in and down, and more on it than the motif. */
function sheet(drawing: Drawing, options: Sheet = {}): string {
  const { root = inMillimetres, perMm = 1, before = '', after = '', path = lineStyle, tail = '' } = options;
  const { strokes, widthMm, heightMm } = laidOut(drawing, marginMm, perMm);
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg ${root(widthMm, heightMm)}>
  <title>${escaped(drawing.title)}</title>
${before}  <path ${path} d="${pathText(strokes, { decimals: 3 })}${tail}"/>
${after}</svg>
`;
}

/** The rectangle round the motif on its sheet, so far outside it. */
function boxed(drawing: Drawing, outMm: number): string {
  const { minX, minY, maxX, maxY } = boxOf(drawing.strokes);
  const [w, h] = [maxX - minX, maxY - minY].map((mm) => number(mm + 2 * outMm, 3));
  return `x="${marginMm - outMm}" y="${marginMm - outMm}" width="${w}" height="${h}"`;
}

const px = (mm: number) => number((mm * 96) / 25.4, 3);
const perPx = 96 / 25.4;

/** What a drawing measures where 72 units make an inch, and not the 96 it was saved with. */
function at72({ strokes }: Drawing): string {
  const { minX, minY, maxX, maxY } = boxOf(strokes);
  const [w, h] = [maxX - minX, maxY - minY].map((mm) => number((mm * 96) / 72, 1));
  return `(${w} x ${h} mm)`;
}

const physicalSize: readonly [string, string, Expected?][] = [
  ['pass-millimetres', plain(swellSketch)],
  ['pass-inches', inches(sketch('Gull Wing', gullWing.stroke))],
  ['pass-picas', nested(sketch('Kelp', kelp.stroke))],
  [
    'fail-bare-viewbox',
    sheet(swellSketch, { perMm: perPx, root: (w, h) => `${svgNs} viewBox="0 0 ${px(w)} ${px(h)}"` }),
    { placesMm: [], says: at72(swellSketch) },
  ],
  [
    'fail-pixels',
    sheet(cratesSketch, {
      perMm: perPx,
      root: (w, h) => `${svgNs} width="${px(w)}px" height="${px(h)}px" viewBox="0 0 ${px(w)} ${px(h)}"`,
    }),
    { placesMm: [], says: at72(cratesSketch) },
  ],
  [
    'fail-per-cent',
    sheet(sketch('Sail', sail.stroke), {
      perMm: perPx,
      root: (w, h) => `${svgNs} width="100%" height="100%" viewBox="0 0 ${px(w)} ${px(h)}"`,
    }),
    { placesMm: [], says: at72(sketch('Sail', sail.stroke)) },
  ],
];

const noNamespace: readonly [string, string, Expected?][] = [
  ['pass-default-namespace', sheet(swellSketch)],
  ['pass-prefix', prefixed(sketch('Pebble Beach', pebbleBeach.stroke))],
  [
    'fail-no-namespace',
    sheet(swellSketch, { root: (w, h) => inMillimetres(w, h).replace(`${svgNs} `, '') }),
    { placesMm: [], says: 'leaves out the line' },
  ],
  [
    'fail-link-namespace-only',
    sheet(cratesSketch, {
      root: (w, h) => inMillimetres(w, h).replace(svgNs, 'xmlns:xlink="http://www.w3.org/1999/xlink"'),
    }),
    { placesMm: [], says: 'leaves out the line' },
  ],
];

const cross = (x: number, y: number) =>
  `  <path ${lineStyle} d="M ${x - 3} ${y} H ${x + 3}"/>\n  <path ${lineStyle} d="M ${x} ${y - 3} V ${y + 3}"/>\n`;
/** One grey pixel. */
const picture =
  'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR42mNoAAAAggCB2Yy6/wAAAABJRU5ErkJggg==';

/** Drawn in two goes, the second half in a layer of its own. */
const swellInTwoLayers = (() => {
  const [from, half] = [swell.stroke.segments.slice(0, 5), swell.stroke.segments.slice(5)];
  const path = (stroke: Stroke) => `<path ${lineStyle} d="${pathText([stroke], { decimals: 3 })}"/>`;
  return `<svg ${svgNs} width="258mm" height="85mm" viewBox="-10 -75 258 85">
  <title>Swell</title>
  <g id="first">${path({ from: swell.stroke.from, segments: from })}</g>
  <g id="second">${path({ from: from[4].to, segments: half })}</g>
</svg>
`;
})();

const strayArtwork: readonly [string, string, Expected?][] = [
  ['pass-line-only', used(sketch('Net', net.stroke))],
  [
    'pass-clip-that-cuts-nothing',
    sheet(swellSketch, {
      before: '  <clipPath id="page"><rect width="600" height="300"/></clipPath>\n',
      path: `${lineStyle} clip-path="url(#page)"`,
    }),
  ],
  [
    'pass-line-with-a-fill',
    sheet(sketch('Ripples', ripples.stroke), {
      path: 'fill="#eef4f8" stroke="#333" stroke-width="0.6"',
    }),
  ],
  ['pass-line-in-two-layers', swellInTwoLayers],
  [
    'fail-label',
    sheet(swellSketch, { after: '  <text x="14" y="12" font-size="5">SWELL 9 3/8 in</text>\n' }),
    { measured: 1, placesMm: [[4, 2]] },
  ],
  [
    'fail-traced-picture',
    sheet(cratesSketch, {
      before: `  <image x="10" y="10" width="216" height="60" href="${picture}"/>\n`,
    }),
    { measured: 1, placesMm: [[0, 0]] },
  ],
  [
    'fail-background',
    sheet(swellSketch, { before: '  <rect width="258" height="85" fill="#dfe8ee"/>\n' }),
    { measured: 1, placesMm: [[-marginMm, -marginMm]] },
  ],
  [
    'fail-dots',
    sheet(swellSketch, {
      after: `  <path ${lineStyle} d="M 60 30 z"/>\n  <circle ${lineStyle} cx="140" cy="20" r="0.15"/>\n`,
    }),
    {
      measured: 2,
      placesMm: [
        [50, 20],
        [130, 10],
      ],
    },
  ],
  [
    'fail-registration-crosses',
    sheet(cratesSketch, { after: [4, 232].flatMap((x) => [4, 76].map((y) => cross(x, y))).join('') }),
    // Of the four the upper left one begins the box, 1 mm in and down.
    {
      measured: 4,
      placesMm: [3, 231].flatMap((x) => [3, 75].map((y): [number, number] => [x, y])),
      also: ['one-stroke'],
    },
  ],
  [
    'fail-frame',
    sheet(swellSketch, { after: `  <rect ${lineStyle} x="2" y="2" width="254" height="81"/>\n` }),
    { measured: 1, placesMm: [[0, 0]], also: ['one-stroke'] },
  ],
  [
    'fail-repeat-box',
    sheet(swellSketch, { after: `  <rect ${lineStyle} ${boxed(swellSketch, 0)}/>\n` }),
    { measured: 1, placesMm: [[0, 0]], also: ['one-stroke'] },
  ],
  [
    'fail-line-out-of-repeat-box',
    sheet(swellSketch, { after: `  <rect ${lineStyle} ${boxed(swellSketch, -2)}/>\n` }),
    { measured: 1, placesMm: [[2, 2]], also: ['one-stroke'] },
  ],
  [
    'fail-repeat-box-with-a-guide',
    sheet(swellSketch, {
      after: `  <rect ${lineStyle} ${boxed(swellSketch, 0)}/>\n  <path ${lineStyle} d="M 10 42 H 248"/>\n`,
    }),
    { measured: 1, placesMm: [[0, 0]], also: ['one-stroke'] },
  ],
  [
    'fail-dashed-guide',
    sheet(swellSketch, {
      after: '  <path fill="none" stroke="#0072b2" stroke-dasharray="3 2" d="M 10 42 H 248"/>\n',
    }),
    { measured: 1, placesMm: [[0, 32]], also: ['one-stroke'] },
  ],
  [
    'fail-bars-in-a-layer',
    sheet(swellSketch, {
      after: `  <g id="row guides">\n    <path ${lineStyle} d="M 10 20 H 248"/>\n    <path ${lineStyle} d="M 10 60 H 248"/>\n  </g>\n`,
    }),
    {
      measured: 2,
      placesMm: [10, 50].map((y): [number, number] => [0, y]),
      says: '2 straight lines in the layer "row guides"',
      also: ['one-stroke'],
    },
  ],
  [
    'fail-filled-sails',
    sheet(cratesSketch, { path: 'fill="#333" stroke="none"' }),
    {
      measured: 1,
      placesMm: placesIn(cratesSketch, [crates.stroke.from]),
    },
  ],
  [
    'fail-clip-that-cuts',
    sheet(swellSketch, {
      before: '  <clipPath id="half"><rect width="120" height="300"/></clipPath>\n',
      path: `${lineStyle} clip-path="url(#half)"`,
    }),
    { measured: 1, placesMm: placesIn(swellSketch, [swell.stroke.from]), says: "clip 'half'" },
  ],
];

const guide = (style: string) => `  <path ${style} d="M 10 20 H 248 M 10 60 H 248"/>\n`;

const hiddenArtwork: readonly [string, string, Expected?][] = [
  ['pass-all-shown', points(sketch('Gull Wing', gullWing.stroke))],
  [
    'pass-unused-definitions',
    sheet(swellSketch, {
      before: `  <defs>\n${guide(lineStyle)}    <symbol id="buoy"><circle ${lineStyle} cx="5" cy="5" r="5"/></symbol>\n  </defs>\n`,
    }),
  ],
  [
    'fail-hidden-layer',
    sheet(swellSketch, { after: `  <g id="guides" style="display:none">\n${guide(lineStyle)}  </g>\n` }),
    { measured: 1, placesMm: [[0, 10]], says: '1 not displayed' },
  ],
  [
    'fail-invisible',
    sheet(cratesSketch, { after: guide(`${lineStyle} visibility="hidden"`) }),
    { measured: 1, placesMm: [[0, 10]], says: '1 invisible' },
  ],
  [
    'fail-transparent',
    sheet(swellSketch, { after: guide(`${lineStyle} opacity="0"`) }),
    { measured: 1, placesMm: [[0, 10]], says: '1 transparent' },
  ],
  [
    'fail-no-paint',
    sheet(cratesSketch, { after: guide('fill="none" stroke="none"') }),
    { measured: 1, placesMm: [[0, 10]], says: '1 no paint' },
  ],
];

const brokenSwell = sheet(swellSketch, { tail: ' X 12 4' });
const offsetOf = (text: string, letter: string) =>
  text.indexOf(letter, text.indexOf(' d="')) - (text.indexOf(' d="') + 4) + 1;

const brokenPath: readonly [string, string, Expected?][] = [
  ['pass-numbers-run-together', points(sketch('Swell', swell.stroke))],
  [
    'pass-flags-run-together',
    sheet(sketch('Ripples', ripples.stroke)).replace(/ 0 ([01]) ([01]) (\d)/g, ' 0 $1$2$3'),
  ],
  [
    'fail-unknown-letter',
    brokenSwell,
    { measured: offsetOf(brokenSwell, 'X'), placesMm: placesIn(swellSketch, [endOf(swell.stroke)]) },
  ],
  [
    'fail-number-missing',
    sheet(kelpSketch, { tail: ' C 230.1 40.2 231.4' }),
    { placesMm: placesIn(kelpSketch, [endOf(kelp.stroke)]) },
  ],
  [
    'fail-odd-point-list',
    `<svg ${svgNs} width="10in" height="4in" viewBox="0 0 254 101.6">
  <title>Crates</title>
  <polyline ${lineStyle} points="${pointsText(laidOut(cratesSketch, marginMm, 1).strokes[0], 3)} 214"/>
</svg>
`,
    { placesMm: placesIn(cratesSketch, [endOf(crates.stroke)]) },
  ],
];

const named = (rule: string, cases: readonly [string, string, Expected?][]): Case[] =>
  cases.map(([name, text, expected]) => ({ rule, name, text, expected }));

export const fileCases: readonly Case[] = [
  ...named('physical-size', physicalSize),
  ...named('no-namespace', noNamespace),
  ...named('stray-artwork', strayArtwork),
  ...named('hidden-artwork', hiddenArtwork),
  ...named('broken-path', brokenPath),
];
