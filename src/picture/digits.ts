/**
 * Digits drawn as lines, so that a picture looks the same on every machine, whatever fonts it has. Each is path data
 * on a cell 4 wide and 6 high, y down, drawn with a round pen.
 */
export const digits: readonly string[] = [
  'M2 0C3.4 0 4 1.4 4 3S3.4 6 2 6S0 4.6 0 3S.6 0 2 0',
  'M.8 1.2L2.4 0V6',
  'M.1 1.6C.1-.6 3.9-.5 3.8 1.7C3.7 3.2 1.2 4.2.1 6H4',
  'M.2.9C1.2-.5 3.8-.2 3.7 1.5C3.6 2.9 2.2 2.9 1.5 2.9C2.6 2.9 4 3.1 3.9 4.5C3.8 6.3 1 6.5 0 5',
  'M3 6V0L0 4.2H4',
  'M3.6 0H.6L.3 2.7C1.5 1.8 4 2 3.9 4C3.8 6.3 1 6.5 0 5.1',
  'M3.4.3C1.6-.4.1 1.7.1 3.9C.1 6.7 3.9 6.7 3.9 4.1C3.9 1.8.9 1.8.1 3.9',
  'M0 0H3.9C2.6 1.6 1.6 3.6 1.4 6',
  'M2 2.8C.3 2.8-.2.1 2 0C4.2.1 3.7 2.8 2 2.8C-.5 2.8-.8 5.9 2 6C4.8 5.9 4.5 2.8 2 2.8',
  'M.6 5.7C2.4 6.4 3.9 4.3 3.9 2.1C3.9-.7.1-.7.1 1.9C.1 4.2 3.1 4.2 3.9 2.1',
];

const step = 5.6;

/** A number centred on (x, y), `height` high, as an SVG element in the given colour. */
export function numberMark(value: number, x: number, y: number, height: number, colour: string): string {
  const text = String(value);
  const scale = height / 6;
  const left = x - ((text.length - 1) * step + 4) * (scale / 2);
  const glyphs = [...text].map(
    (digit, i) => `<path transform="translate(${round(i * step)} 0)" d="${digits[Number(digit)]}"/>`,
  );
  return (
    `<g transform="translate(${round(left)} ${round(y - height / 2)}) scale(${round(scale)})" fill="none" stroke="${colour}" ` +
    `stroke-width="1" stroke-linecap="round" stroke-linejoin="round">${glyphs.join('')}</g>`
  );
}

/** How wide `numberMark` comes out. */
export function numberWidth(value: number, height: number): number {
  return ((String(value).length - 1) * step + 4) * (height / 6);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
