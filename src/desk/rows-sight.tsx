import { effect } from '@preact/signals';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { Layout } from '../../shared/layout.js';
import type { OpenCircle } from '../../shared/rows.js';
import { thinnedLine } from '../geometry/thinning.js';
import { pathData } from '../markup/path-data.js';
import { okabeIto } from '../picture/ink.js';
import type { Row } from '../rows/index.js';
import { placementOf } from '../rows/layout.js';
import { rows, seen } from './known.js';
import { drag, settle } from './rows-step.js';
import { beginGo, chosenRows, underHand } from './state.js';

const fewestRows = 3;
const mostRows = 9;
const repeats = [-1, 0, 1, 2, 3];

/** Room beside the line for half the pen, on a picture of any width. */
function penMm(repeatMm: number): number {
  return repeatMm / 60;
}

/** A quarter of a pixel on a picture of 1,000 pixels: what is left out moves nothing that is seen, and drags lightly. */
function seenMm(repeatMm: number): number {
  return (3 * repeatMm) / 4000;
}

/**
 * Three rows and more, live. Each row is a picture of its own, no larger than it must be, drawn once; while one is dragged,
 * they are moved as they are, past Preact, so that nothing is worked out, laid out or drawn for it.
 */
export function RowsSight() {
  const now = rows.value!;
  const { row } = now;
  const { layout, spacingMm } = chosenRows.value!;
  const { box, repeatMm, heightMm } = row;
  const d = useMemo(
    () => row.strokes.map((line) => pathData(thinnedLine(line, seenMm(repeatMm)))).join(''),
    [row],
  );
  const sheet = useRef<HTMLDivElement>(null);
  const held = useRef<{ row: number; fromPx: number; spacingMm: number; mmPerPx: number } | null>(null);
  const even = now.layouts.find((each) => each.layout === layout)!.evenMm;
  const margin = 0.06 * 3 * repeatMm;
  // As many rows as make the picture about as high as wide, so that a low motif fills it too.
  const fitting = Math.floor((0.8 * 3 * repeatMm - heightMm) / (1.15 * even)) + 1;
  const rowCount = Math.max(fewestRows, Math.min(mostRows, fitting));
  const [width, height] = [3 * repeatMm, heightMm + (rowCount - 1) * even * 1.15 + 2 * margin];
  const viewBox = `${box.minX} ${box.minY - margin} ${width} ${height}`;
  // Kept while rows are moved: the browser draws each once.
  const pad = penMm(repeatMm);
  const [top, tall] = [box.minY - pad, heightMm + 2 * pad];
  const lines = useMemo(
    () => Array.from({ length: rowCount }, (_, index) => rowLine(row, layout, index, d)),
    [row, layout, rowCount, d],
  );
  const rowAt = (index: number, mm: number) => `translateY(${(100 * index * mm) / tall}%)`;
  useLayoutEffect(
    () =>
      effect(() => {
        const mm = underHand.value;
        sheet.current!.classList.toggle('moving', mm !== null);
        if (mm === null) return;
        const drawn = sheet.current!.querySelectorAll<SVGElement>('.row');
        for (const [index, line] of drawn.entries()) line.style.transform = rowAt(index, mm);
      }),
    [tall],
  );
  const at = seen.value;
  const circles = at && at.layout === layout && Math.abs(at.spacingMm - spacingMm) < 1 ? at : null;
  return (
    <div class="paper">
      <div
        ref={sheet}
        class="rows"
        role="img"
        aria-label={`${rowCount} ${layout} rows. Drag a row up or down to set the spacing, or use the slider.`}
        style={{
          aspectRatio: `${width} / ${height}`,
          maxWidth: `calc(var(--tall) * ${(width / height).toFixed(4)})`,
        }}
        onPointerDown={(event) => {
          beginGo();
          // Measured once: asking again while it moves would have the page laid out for each picture.
          const { top: fromTop, height: px } = sheet.current!.getBoundingClientRect();
          const mmPerPx = height / px;
          const y = (event.clientY - fromTop) * mmPerPx - margin;
          const index = Math.max(1, Math.min(rowCount - 1, Math.round((y - heightMm / 2) / spacingMm)));
          held.current = { row: index, fromPx: event.clientY, spacingMm, mmPerPx };
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          if (!held.current) return;
          const { row: index, fromPx, spacingMm: from, mmPerPx } = held.current;
          drag(Math.max(1, from + ((event.clientY - fromPx) * mmPerPx) / index));
        }}
        onPointerUp={() => {
          if (held.current && underHand.value !== null) settle(underHand.value);
          held.current = null;
        }}
        onPointerCancel={() => {
          held.current = null;
          settle(null);
        }}
      >
        <svg viewBox={viewBox} aria-hidden="true">
          {circles?.seam && <Circle open={circles.seam} repeatMm={repeatMm} minX={box.minX} kind="seam" />}
          {circles?.inner && <Circle open={circles.inner} repeatMm={repeatMm} minX={box.minX} kind="inner" />}
        </svg>
        {lines.map((line, index) => (
          <svg
            key={`${layout} ${index}`}
            class="row"
            viewBox={`${box.minX} ${top} ${width} ${tall}`}
            aria-hidden="true"
            style={{
              top: `${(100 * (margin - pad)) / height}%`,
              height: `${(100 * tall) / height}%`,
              transform: rowAt(index, underHand.peek() ?? spacingMm),
            }}
          >
            {line}
          </svg>
        ))}
      </div>
    </div>
  );
}

/** A row in its place at no spacing. */
function rowLine(row: Row, layout: Layout, index: number, d: string) {
  const { signX, signY, dx, dy } = placementOf(row, layout, 0, index);
  return repeats.map((k) => (
    <path key={k} d={d} transform={`matrix(${signX} 0 0 ${signY} ${dx + k * row.repeatMm} ${dy})`} />
  ));
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
