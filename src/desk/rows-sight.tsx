import { useMemo, useRef } from 'preact/hooks';
import type { OpenCircle } from '../../shared/rows.js';
import { pathData } from '../markup/path-data.js';
import { okabeIto } from '../picture/ink.js';
import { placementOf } from '../rows/layout.js';
import { drag, settle } from './rows-step.js';
import { chosenRows, dragged, rows, seen } from './state.js';

const fewestRows = 3;
const mostRows = 9;
const repeats = [-1, 0, 1, 2, 3];

/** Three rows and more, live: one path, drawn once, put in its places again and again while a row is dragged. */
export function RowsSight() {
  const now = rows.value!;
  const { row } = now;
  const { layout, spacingMm } = chosenRows.value!;
  const { box, repeatMm, heightMm } = row;
  const d = useMemo(() => row.strokes.map((line) => pathData(line)).join(''), [row]);
  const svg = useRef<SVGSVGElement>(null);
  const held = useRef<{ row: number; fromY: number; spacingMm: number } | null>(null);
  const even = now.layouts.find((each) => each.layout === layout)!.evenMm;
  const margin = 0.06 * 3 * repeatMm;
  // As many rows as make the picture about as high as wide, so that a low motif fills it too.
  const fitting = Math.floor((0.8 * 3 * repeatMm - heightMm) / (1.15 * even)) + 1;
  const rowCount = Math.max(fewestRows, Math.min(mostRows, fitting));
  const height = heightMm + (rowCount - 1) * even * 1.15 + 2 * margin;
  const mmAt = (clientY: number): number =>
    new DOMPoint(0, clientY).matrixTransform(svg.current!.getScreenCTM()!.inverse()).y;
  const at = seen.value;
  const circles = at && at.layout === layout && Math.abs(at.spacingMm - spacingMm) < 1 ? at : null;
  return (
    <div class="paper">
      <svg
        ref={svg}
        class="rows"
        viewBox={`${box.minX} ${box.minY - margin} ${3 * repeatMm} ${height}`}
        role="img"
        aria-label={`${rowCount} ${layout} rows. Drag a row up or down to set the spacing, or use the slider.`}
        onPointerDown={(event) => {
          const y = mmAt(event.clientY) - box.minY;
          const index = Math.max(1, Math.min(rowCount - 1, Math.round((y - heightMm / 2) / spacingMm)));
          held.current = { row: index, fromY: mmAt(event.clientY), spacingMm };
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          if (!held.current) return;
          const { row: index, fromY, spacingMm: from } = held.current;
          drag(Math.max(1, from + (mmAt(event.clientY) - fromY) / index));
        }}
        onPointerUp={() => {
          if (held.current && dragged.value !== null) settle(dragged.value);
          held.current = null;
        }}
        onPointerCancel={() => {
          held.current = null;
          dragged.value = null;
        }}
      >
        <defs>
          <path id="row-line" d={d} />
        </defs>
        {circles?.seam && <Circle open={circles.seam} repeatMm={repeatMm} minX={box.minX} kind="seam" />}
        {circles?.inner && <Circle open={circles.inner} repeatMm={repeatMm} minX={box.minX} kind="inner" />}
        {Array.from({ length: rowCount }, (_, index) => {
          const { signX, signY, dx, dy } = placementOf(row, layout, spacingMm, index);
          return (
            <g key={index} transform={`matrix(${signX} 0 0 ${signY} ${dx} ${dy})`}>
              {repeats.map((k) => (
                <use key={k} href="#row-line" x={signX * k * repeatMm} />
              ))}
            </g>
          );
        })}
      </svg>
    </div>
  );
}

/** Told apart by dash and cross as well as by colour, as in the other pictures of rows. */
function Circle({
  open: { centre, diameterMm },
  repeatMm,
  minX,
  kind,
}: {
  open: OpenCircle;
  repeatMm: number;
  minX: number;
  kind: 'seam' | 'inner';
}) {
  const turns = Math.floor((centre.x - minX) / repeatMm);
  const [x, y, r] = [centre.x + (1 - turns) * repeatMm, centre.y, diameterMm / 2];
  const arm = r / 6;
  const cross =
    kind === 'seam'
      ? `M${x - arm} ${y}h${2 * arm}M${x} ${y - arm}v${2 * arm}`
      : `M${x - arm} ${y - arm}l${2 * arm} ${2 * arm}M${x - arm} ${y + arm}l${2 * arm} ${-2 * arm}`;
  const colour = kind === 'seam' ? okabeIto.vermilion : okabeIto.blue;
  return (
    <g class={`circle ${kind}`} stroke={colour}>
      <circle cx={x} cy={y} r={r} fill={colour} fill-opacity="0.16" />
      <path d={cross} fill="none" />
    </g>
  );
}
