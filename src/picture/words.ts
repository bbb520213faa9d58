/**
 * The few words that stand in a picture, drawn as lines like its digits and for the same reason: a picture looks the
 * same whatever fonts a machine has. Each letter is path data on a cell 6 high, its foot at 6, drawn with a round pen.
 */
import { digits } from './digits.js';

interface Letter {
  readonly width: number;
  readonly d: string;
}

/** Only those that are written. */
const letters: Readonly<Record<string, Letter>> = {
  a: { width: 3.4, d: 'M3.4 2V6M3.4 4C3.4 6.6 0 6.6 0 4S3.4 1.4 3.4 4' },
  b: { width: 3.4, d: 'M0 0V6M0 4C0 1.4 3.4 1.4 3.4 4S0 6.6 0 4' },
  c: { width: 3, d: 'M3 2.8C2 1.5 0 1.9 0 4S2 6.5 3 5.2' },
  d: { width: 3.4, d: 'M3.4 0V6M3.4 4C3.4 6.6 0 6.6 0 4S3.4 1.4 3.4 4' },
  e: { width: 3.4, d: 'M0 4H3.4C3.4 1.4 0 1.4 0 4C0 6.4 2.6 6.6 3.2 5.1' },
  g: { width: 3.4, d: 'M3.4 2V6.4C3.4 8.4 .8 8.4 .2 7.4M3.4 4C3.4 1.4 0 1.4 0 4S3.4 6.6 3.4 4' },
  h: { width: 3.2, d: 'M0 0V6M0 3.8C.2 1.5 3.2 1.3 3.2 3.8V6' },
  i: { width: 0, d: 'M0 2.1V6M0 .4H.01' },
  k: { width: 3, d: 'M0 0V6M2.8 2.1L0 4.4M1 3.6L3 6' },
  l: { width: 0, d: 'M0 0V6' },
  m: { width: 5.2, d: 'M0 2V6M0 3.6C.2 1.6 2.6 1.4 2.6 3.6V6M2.6 3.6C2.8 1.6 5.2 1.4 5.2 3.6V6' },
  n: { width: 3.2, d: 'M0 2V6M0 3.8C.2 1.5 3.2 1.3 3.2 3.8V6' },
  o: { width: 3.6, d: 'M0 4C0 1.4 3.6 1.4 3.6 4S0 6.6 0 4' },
  p: { width: 3.4, d: 'M0 2V8M0 4C0 1.4 3.4 1.4 3.4 4S0 6.6 0 4' },
  r: { width: 1.8, d: 'M0 2V6M0 4C0 2.6 .8 2 1.8 2.1' },
  s: { width: 2.6, d: 'M2.6 2.7C1.8 1.8 .1 1.9 .1 2.9C.1 4.3 2.6 3.6 2.6 5C2.6 6.3 .6 6.3 0 5.3' },
  t: { width: 2, d: 'M.8 .6V5C.8 6 1.5 6.1 2 5.8M0 2.1H2' },
  u: { width: 3.2, d: 'M0 2V4.2C0 6.7 3 6.5 3.2 4.2M3.2 2V6' },
  w: { width: 4.8, d: 'M0 2.1L1.2 6L2.4 2.5L3.6 6L4.8 2.1' },
  ' ': { width: 1, d: '' },
  ',': { width: 0.5, d: 'M.5 5.8L0 7' },
  '.': { width: 0, d: 'M0 6H.01' },
  '/': { width: 2.4, d: 'M0 6.6L2.4 -.4' },
  '(': { width: 1.2, d: 'M1.2 -.6C-.4 1.4 -.4 5 1.2 7' },
  ')': { width: 1.2, d: 'M0 -.6C1.6 1.4 1.6 5 0 7' },
  ...Object.fromEntries(digits.map((d, digit) => [digit, { width: 4, d }])),
};

const gap = 1.7;

/** `text` from x on, its small letters about the height of `y`, as an SVG element in the given colour. */
export function wordMark(text: string, x: number, y: number, height: number, colour: string): string {
  const scale = height / 6;
  let at = 0;
  const drawn = [...text].map((sign) => {
    const { width, d } = letters[sign];
    const letter = d && `<path transform="translate(${round(at)} 0)" d="${d}"/>`;
    at += width + gap;
    return letter;
  });
  return (
    `<g transform="translate(${round(x)} ${round(y - 4 * scale)}) scale(${round(scale)})" fill="none" stroke="${colour}" ` +
    `stroke-width="0.8" stroke-linecap="round" stroke-linejoin="round">${drawn.join('')}</g>`
  );
}

/** How wide `wordMark` comes out. */
export function wordWidth(text: string, height: number): number {
  const widths = [...text].map((sign) => letters[sign].width + gap);
  return (widths.reduce((sum, width) => sum + width, 0) - gap) * (height / 6);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
