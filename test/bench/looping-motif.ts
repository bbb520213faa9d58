/**
 * A motif as a drawing program saves it: one line of so many cubics that loops its way across, level and smooth at
 * the join. Seeds give motifs of the same kind that are not alike.
 */
export function loopingMotif(seed: number, curves: number): string {
  const [width, height] = [250, 120];
  const loops = 7 + (seed % 4);
  const ripples = 31 + (seed % 5);
  const turn = 2 * Math.PI;
  const place = (t: number) => ({
    x: width * t - 14 * Math.sin(turn * loops * t),
    y: 40 * Math.sin(turn * loops * t + seed) + 3 * Math.sin(turn * ripples * t),
  });
  const slope = (t: number) => ({
    x: width - 14 * turn * loops * Math.cos(turn * loops * t),
    y:
      40 * turn * loops * Math.cos(turn * loops * t + seed) +
      3 * turn * ripples * Math.cos(turn * ripples * t),
  });
  const number = (value: number) => value.toFixed(3);
  const start = place(0);
  const parts = [`M${number(start.x)},${number(start.y)}`];
  for (let i = 0; i < curves; i++) {
    const [from, to] = [i / curves, (i + 1) / curves];
    const [p, q, u, v] = [place(from), place(to), slope(from), slope(to)];
    const reach = 1 / (3 * curves);
    const numbers = [p.x + reach * u.x, p.y + reach * u.y, q.x - reach * v.x, q.y - reach * v.y, q.x, q.y];
    parts.push(`C${numbers.map(number).join(' ')}`);
  }
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 -60 ${width} ${height}">
  <g id="motif" transform="translate(0,0)">
    <path id="line" style="fill:none;stroke:#000000;stroke-width:0.5" d="${parts.join('')}"/>
  </g>
</svg>
`;
}
