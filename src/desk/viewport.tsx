import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Point } from '../../shared/plane.js';

export interface View {
  /** Times as large as the whole. */
  readonly zoom: number;
  /** What is in the middle, in the drawing's units. */
  readonly x: number;
  readonly y: number;
}

const mostZoom = 60;
const usualPx = 600;

/**
 * A drawing to look at closely: wheel, pinch, buttons and the keys + - 0 zoom, dragging and the arrows move. `onTap` gets the
 * place that was clicked, in the drawing's units.
 */
export function Viewport({
  width,
  height,
  label,
  subject,
  look,
  onTap,
  children,
}: {
  readonly width: number;
  readonly height: number;
  readonly label: string;
  /** Another subject is seen whole again. */
  readonly subject: string;
  /** A place to go to, or null for the whole. */
  readonly look?: View | null;
  readonly onTap?: (at: Point) => void;
  /** `zoom` is beside a drawing `usualPx` wide, so that marks are as large on a small screen. */
  readonly children: (zoom: number) => ComponentChildren;
}) {
  const whole: View = { zoom: 1, x: width / 2, y: height / 2 };
  const [view, setView] = useState(whole);
  const svg = useRef<SVGSVGElement>(null);
  const [fitPx, setFitPx] = useState(usualPx);
  useEffect(() => {
    const element = svg.current!;
    const seen = new ResizeObserver(() => {
      const { clientWidth, clientHeight } = element;
      if (clientWidth > 0) setFitPx(Math.min(clientWidth, (clientHeight * width) / height));
    });
    seen.observe(element);
    return () => seen.disconnect();
  }, [width, height]);
  const fingers = useRef(new Map<number, { x: number; y: number; fromX: number; fromY: number }>());
  useEffect(() => setView(look ?? whole), [subject, width, height, look]);

  const within = ({ zoom, x, y }: View): View => {
    const z = Math.max(1, Math.min(mostZoom, zoom));
    const inside = (at: number, size: number) => Math.max(size / z / 2, Math.min(size - size / z / 2, at));
    return { zoom: z, x: inside(x, width), y: inside(y, height) };
  };
  const placeAt = (clientX: number, clientY: number): Point => {
    const map = svg.current!.getScreenCTM()!.inverse();
    return new DOMPoint(clientX, clientY).matrixTransform(map);
  };
  const zoomAt = (times: number, at: Point = view) =>
    setView((now) => {
      const zoom = Math.max(1, Math.min(mostZoom, now.zoom * times));
      const share = now.zoom / zoom;
      return within({ zoom, x: at.x + (now.x - at.x) * share, y: at.y + (now.y - at.y) * share });
    });
  const moveBy = (dx: number, dy: number) =>
    setView((now) => within({ ...now, x: now.x + dx, y: now.y + dy }));

  useEffect(() => {
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      zoomAt(Math.exp(-event.deltaY / 400), placeAt(event.clientX, event.clientY));
    };
    const element = svg.current!;
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  });

  const onPointerMove = (event: PointerEvent) => {
    const finger = fingers.current.get(event.pointerId);
    if (!finger) return;
    const others = [...fingers.current.values()].filter((each) => each !== finger);
    const [before, after] = [placeAt(finger.x, finger.y), placeAt(event.clientX, event.clientY)];
    if (others.length === 0) moveBy(before.x - after.x, before.y - after.y);
    else {
      const [other] = others;
      const apart = (x: number, y: number) => Math.hypot(x - other.x, y - other.y) || 1;
      const middle = placeAt((event.clientX + other.x) / 2, (event.clientY + other.y) / 2);
      zoomAt(apart(event.clientX, event.clientY) / apart(finger.x, finger.y), middle);
    }
    finger.x = event.clientX;
    finger.y = event.clientY;
  };
  const onPointerUp = (event: PointerEvent) => {
    const finger = fingers.current.get(event.pointerId);
    fingers.current.delete(event.pointerId);
    if (!finger || fingers.current.size > 0) return;
    if (Math.hypot(event.clientX - finger.fromX, event.clientY - finger.fromY) < 5)
      onTap?.(placeAt(event.clientX, event.clientY));
  };
  const keys: Readonly<Record<string, () => void>> = {
    '+': () => zoomAt(1.5),
    '=': () => zoomAt(1.5),
    '-': () => zoomAt(1 / 1.5),
    '0': () => setView(whole),
    ArrowLeft: () => moveBy(-width / view.zoom / 8, 0),
    ArrowRight: () => moveBy(width / view.zoom / 8, 0),
    ArrowUp: () => moveBy(0, -height / view.zoom / 8),
    ArrowDown: () => moveBy(0, height / view.zoom / 8),
  };
  const { zoom, x, y } = view;
  const [w, h] = [width / zoom, height / zoom];
  return (
    <div class="frame">
      <fieldset
        class="paper"
        aria-label={`${label}. Zoom with plus, minus and 0, move with the arrow keys.`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved and zoomed by keys, as its label says
        tabIndex={0}
        onKeyDown={(event) => {
          const act = keys[event.key];
          if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
          event.preventDefault();
          act();
        }}
      >
        <svg
          ref={svg}
          viewBox={`${x - w / 2} ${y - h / 2} ${w} ${h}`}
          role="img"
          aria-label={label}
          style={{ touchAction: zoom > 1 ? 'none' : 'pan-y' }}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            const { clientX, clientY } = event;
            fingers.current.set(event.pointerId, { x: clientX, y: clientY, fromX: clientX, fromY: clientY });
          }}
          onPointerMove={onPointerMove}
          onPointerUp={onPointerUp}
          onPointerCancel={(event) => fingers.current.delete(event.pointerId)}
        >
          {children((zoom * fitPx) / usualPx)}
        </svg>
      </fieldset>
      <p class="zoom">
        <button type="button" aria-label="Larger" onClick={() => zoomAt(1.5)}>
          +
        </button>
        <button type="button" aria-label="Smaller" onClick={() => zoomAt(1 / 1.5)}>
          −
        </button>
        <button type="button" onClick={() => setView(whole)}>
          Whole
        </button>
      </p>
    </div>
  );
}
