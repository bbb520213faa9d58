import { useMemo } from 'preact/hooks';
import { flagsPerFinding } from '../../shared/flags.js';
import type { Point } from '../../shared/plane.js';
import { lastPoint } from '../geometry/polyline.js';
import { flagMarks } from '../picture/flag-marks.js';
import { okabeIto } from '../picture/ink.js';
import { endMark, lineMark, startMark } from '../picture/line-mark.js';
import { sheetFor } from '../picture/motif-picture.js';
import { scanUnder } from '../picture/scan-under.js';
import { layOn } from '../picture/sheet-of-paper.js';
import { fieldOf } from '../plan/field.js';
import { chainedPlace, shareNearest, walkedTo } from './along.js';
import { look, plan, rest, rows } from './known.js';
import { isOfBefore } from './of-before.js';
import type { Look, PlanSeen } from './questions.js';
import { RowsSight } from './rows-sight.js';
import { spacingText } from './rows-step.js';
import { asksWhereStopped, choose, current, pointed, shown, walked } from './state.js';
import { type View, Viewport } from './viewport.js';

/** What each picture is the answer to. */
const questions = { motif: 'look', rows: 'rows', quilt: 'plan' } as const;
const names = { motif: 'the motif', rows: 'the rows', quilt: 'the quilt' } as const;

/** The picture that stays in sight: the motif, its rows, or the whole quilt. */
export function Sight() {
  const now = look.value;
  if (!current.value || !now) return <figure class="sight empty" aria-hidden="true" />;
  const hasRows = rows.value !== null;
  const hasQuilt = plan.value !== null && plan.value.picture !== null;
  const which =
    shown.value === 'rows' && hasRows ? 'rows' : shown.value === 'quilt' && hasQuilt ? 'quilt' : 'motif';
  const isOld = isOfBefore(questions[which]);
  return (
    <figure class={isOld ? 'sight old' : 'sight'}>
      <fieldset class="which">
        <legend>In the picture:</legend>
        {(['motif', 'rows', 'quilt'] as const).map((each) => (
          <label key={each}>
            <input
              type="radio"
              name="sight"
              checked={which === each}
              disabled={(each === 'rows' && !hasRows) || (each === 'quilt' && !hasQuilt)}
              onChange={() => (shown.value = each)}
            />{' '}
            {names[each]}
          </label>
        ))}
      </fieldset>
      {which === 'motif' && <MotifSight {...now} />}
      {which === 'rows' && <RowsSight />}
      {which === 'quilt' && <QuiltSight {...plan.value!} picture={plan.value!.picture!} />}
      <figcaption>
        {isOld && <b>As it was before the change. </b>}
        {captions[which](now)}
      </figcaption>
    </figure>
  );
}

const captions: Readonly<Record<keyof typeof names, (now: Look) => string>> = {
  motif: ({ strokes, scan }) =>
    (scan?.pale ? 'Under the line lies what it was traced from. ' : '') +
    (strokes.length === 1
      ? 'The triangle marks the start and points along the line, the open square marks the end.'
      : `The motif is in ${strokes.length} pieces.`),
  rows: () =>
    'Drag a row to set the spacing. Dashed: the largest open circle between rows; dotted: within a row.',
  quilt: () =>
    'The shaded area is the top, the frame how far the stitching goes. Passes in two inks by turns; dashed: links in the margin.',
};

const paperPx = 4800;
/** So near that what lies around the place is still seen. */
const closest = 4;
/** Less than this is no nearer look. */
const nearer = 1.5;

function MotifSight(now: Look) {
  const { strokes, scan, widthMm, heightMm, findings } = now;
  const sheet = useMemo(() => sheetFor(now, findings, paperPx), [strokes, findings]);
  const line = useMemo(
    () => [...scanUnder(scan, sheet), lineMark(strokes, sheet)].join(''),
    [sheet, strokes, scan],
  );
  const at = walked.value;
  const only = strokes.length === 1 ? strokes[0] : null;
  const target = useMemo((): View | null => {
    const places =
      (pointed.value === null ? null : findings[pointed.value]?.places.slice(0, flagsPerFinding)) ?? [];
    if (places.length === 0) return null;
    const at = places.map((place) => sheet.at(place));
    const [xs, ys] = [at.map(({ x }) => x), at.map(({ y }) => y)];
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const room = Math.min(sheet.widthPx / (right - left + 1), sheet.heightPx / (bottom - top + 1));
    // Places all over the motif cannot be shown near at once: then the worst of them is.
    if (room / 2 < nearer) return { zoom: closest, ...at[0] };
    return { zoom: Math.min(closest, room / 2), x: (left + right) / 2, y: (top + bottom) / 2 };
  }, [pointed.value, sheet]);
  return (
    <Viewport
      width={sheet.widthPx}
      height={sheet.heightPx}
      label={`The motif, ${findings.length > 0 ? 'its findings flagged' : 'without findings'}`}
      subject={`${current.value?.id} ${widthMm} ${heightMm}`}
      look={target}
      onTap={({ x, y }) => {
        if (!only) return;
        const origin = sheet.at({ x: 0, y: 0 });
        walked.value = shareNearest(only, {
          x: (x - origin.x) / sheet.pxPerMm,
          y: (y - origin.y) / sheet.pxPerMm,
        });
      }}
    >
      {(zoom) => {
        const fine = { ...sheet, pen: sheet.pen / zoom };
        const marks = [
          ...(only ? [startMark(only, fine), endMark(lastPoint(only), fine)] : []),
          ...(only && at !== null ? handle(only, at, fine) : []),
          ...flagMarks(findings, fine),
        ];
        return (
          <>
            <g class="thin" dangerouslySetInnerHTML={{ __html: line }} />
            <g dangerouslySetInnerHTML={{ __html: marks.join('') }} />
          </>
        );
      }}
    </Viewport>
  );
}

/** What is stitched by then, and a ring where the needle is. */
function handle(line: Float64Array, share: number, sheet: ReturnType<typeof sheetFor>): string[] {
  const { x, y } = sheet.at(chainedPlace(line, share));
  const { pen } = sheet;
  return [
    lineMark([walkedTo(line, share)], sheet, { colour: okabeIto.blue, width: 3 }),
    `<circle cx="${x}" cy="${y}" r="${8 * pen}" fill="${okabeIto.orange}" fill-opacity="0.4" stroke="#222" stroke-width="${2 * pen}"/>`,
  ];
}

/** The quilt; a place that is clicked is where the stitching stopped. */
function QuiltSight({ picture, quilt, spansMm }: PlanSeen & { picture: string }) {
  const text = rest.value?.picture ?? picture;
  const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(text)!;
  const stopAt = (at: Point) => {
    const item = current.value;
    if (!item || !quilt) return;
    const sheet = layOn(fieldOf(quilt), Number(width));
    const origin = sheet.at({ x: 0, y: 0 });
    const [x, y] = [(at.x - origin.x) / sheet.pxPerMm, (at.y - origin.y) / sheet.pxPerMm];
    const off = spansMm.map(([top, bottom]) => Math.max(top - y, y - bottom, 0));
    const { stopped, unit } = item.choices;
    const isIn = stopped !== null && off[stopped.pass - 1] === 0;
    const pass = isIn ? stopped.pass : off.indexOf(Math.min(...off)) + 1;
    const typed = (mm: number) => (mm < 0 ? '-' : '') + spacingText(Math.abs(mm), unit);
    choose({ stopped: { overlap: '', ...stopped, pass, at: `${typed(x)}; ${typed(y)}`, which: null } });
  };
  return (
    <Viewport
      width={Number(width)}
      height={Number(height)}
      label="The whole quilt, pass by pass"
      subject="quilt"
      onTap={asksWhereStopped.value ? stopAt : undefined}
    >
      {() => <g dangerouslySetInnerHTML={{ __html: text }} />}
    </Viewport>
  );
}
