import type { Layout } from '../../shared/layout.js';
import { sayIn } from '../../shared/say.js';
import { inches } from '../../shared/units.js';
import { Field } from './field.js';
import { askSpacing } from './follow.js';
import { look, rows, rowsRefused, seen } from './known.js';
import { OfBefore } from './of-before.js';
import { chosenRows, current, dragged, shown, takeLayout, type, underHand } from './state.js';
import { Svg } from './svg.js';
import { onPage } from './words.js';

const layoutWords: Readonly<Record<Layout, string>> = {
  straight: 'every row like the one above',
  brick: 'every second row shifted by half a repeat',
  mirrored: 'every second row flipped and shifted',
  turned: 'every second row turned by half a turn',
};

/** The text of a spacing as it would be typed, never less than `leastMm`. */
export function spacingText(mm: number, unit: 'in' | 'mm', leastMm = -Infinity): string {
  if (unit === 'in') return inches(mm, leastMm).replace(' in', 'in');
  const tenths = Math.max(Math.round(mm * 10), Math.ceil(leastMm * 10 - 1e-9));
  return `${tenths / 10}mm`;
}

/** Step four: layout and spacing, live. */
export function RowsStep() {
  const item = current.value;
  const now = rows.value;
  if (!item || !look.value) return null;
  const { unit } = item.choices;
  const say = sayIn(unit);
  return (
    <section aria-labelledby="rows" onFocusIn={() => (shown.value = 'rows')}>
      <h2 id="rows">Set the rows</h2>
      {rowsRefused.value && <p class="flaw">{onPage(rowsRefused.value)}</p>}
      {!rowsRefused.value && (
        <OfBefore kind="rows" waiting="Working out how the rows nest">
          {now?.advice.map((sentence) => (
            <p key={sentence}>{onPage(sentence)}</p>
          ))}
          <fieldset class="layouts">
            <legend>Layout</legend>
            {now?.layouts.map(({ layout, picture, unevenness }) => (
              <label key={layout} class={layout === chosenRows.value?.layout ? 'taken' : ''}>
                <Svg text={picture} />
                <span>
                  <input
                    type="radio"
                    name="layout"
                    checked={layout === chosenRows.value?.layout}
                    onChange={() => takeLayout(layout)}
                  />{' '}
                  <b>{layout}</b>
                  {layout === now.recommended && ' (recommended)'}: {layoutWords[layout]}; unevenness{' '}
                  {unevenness.toFixed(2)}
                </span>
              </label>
            ))}
          </fieldset>
          <Spacing />
        </OfBefore>
      )}
      <div class="fields">
        <Field
          name="spacing"
          label="Row spacing"
          hint="from a point of one row to the same point of the next"
        />
        <Field
          name="clearance"
          label="Clearance"
          hint={`least distance between rows${now ? `; ${say.length(now.clearanceMm)} now` : ''}`}
        />
        <Field name="batting" label="Batting allows" hint="largest open circle on its label" />
        <Field name="throat" label="Throat" hint="depth that can be stitched" />
        <Field name="spi" label="Stitches per inch" />
        <Field name="gap" label="Open gap wanted" hint="for motifs without pockets" />
      </div>
    </section>
  );
}

/** What holds at the spacing under the hand. */
function Spacing() {
  const item = current.value!;
  const now = rows.value!;
  const { unit } = item.choices;
  const say = sayIn(unit);
  const { layout: taken, spacingMm: value } = chosenRows.value!;
  const chosen = now.layouts.find(({ layout }) => layout === taken)!;
  const { least, most, step } = sliderOf(now.layouts, chosen.closestMm, unit);
  const share = (mm: number) => `${Math.max(0, Math.min(100, ((mm - least) / (most - least)) * 100))}%`;
  const at = seen.value;
  const spoken = (mm: number) => say.spacing(mm);
  const short = (mm: number) => say.short(mm, mm);
  return (
    <div class="spacing">
      <label for="spacing-slider">
        Row spacing: <b>{spoken(value)}</b>
      </label>
      <input
        id="spacing-slider"
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={short(value)}
        onInput={(event) => drag(Number(event.currentTarget.value))}
        onChange={(event) => settle(Number(event.currentTarget.value))}
      />
      <div class="marks" aria-hidden="true">
        <span class="mark closest" style={{ left: share(chosen.closestMm) }} />
        <span class="mark even" style={{ left: share(chosen.evenMm) }} />
      </div>
      <p class="choices">
        <button
          type="button"
          onClick={() => type('spacing', spacingText(chosen.closestMm, unit, chosen.closestMm))}
        >
          <span class="mark closest" aria-hidden="true" /> closest: {short(chosen.closestMm)}
        </button>
        <button
          type="button"
          onClick={() => type('spacing', spacingText(chosen.evenMm, unit, chosen.evenMm))}
        >
          <span class="mark even" aria-hidden="true" /> even: {short(chosen.evenMm)}
        </button>
      </p>
      <p aria-live="polite" data-seen={at ? at.spacingMm.toFixed(3) : ''}>
        {at &&
          `At ${spoken(at.spacingMm)}: ${
            at.leastMm === 0
              ? 'the rows cross'
              : at.clear
                ? `the rows keep clear, ${say.length(at.leastMm)} apart at the nearest`
                : `the rows come too near, ${say.length(at.leastMm)}`
          }; largest open circle ${say.length(at.largestOpenMm)}; unevenness ${at.unevenness.toFixed(2)} (1 is as even as lines can lie, 2 is clumped).`}
      </p>
    </div>
  );
}

function sliderOf(
  layouts: readonly { readonly evenMm: number; readonly closestMm: number }[],
  closestMm: number,
  unit: 'in' | 'mm',
) {
  const step = unit === 'in' ? 25.4 / 16 : 1;
  const farthest = Math.max(...layouts.map(({ evenMm, closestMm: near }) => Math.max(evenMm, near)));
  return {
    step,
    least: Math.max(step, Math.floor((closestMm * 0.5) / step) * step),
    most: Math.ceil((farthest * 1.6) / step) * step,
  };
}

/** So often words, distance and circles follow a spacing that moves, ms. */
const followMs = 100;
let waiting: ReturnType<typeof setTimeout> | undefined;

/** While a spacing moves: the picture follows at once, the rest as often as it can be read. */
export function drag(mm: number): void {
  if (!current.value || !rows.value) return;
  underHand.value = mm;
  waiting ??= setTimeout(catchUp, followMs);
}

function catchUp(): void {
  waiting = undefined;
  const mm = underHand.value;
  if (mm === null || !current.value || !rows.value) return;
  dragged.value = mm;
  askSpacing(current.value, chosenRows.value!.layout, mm);
}

/** What was dragged is left where it is, or, without a spacing, where it was. */
export function settle(mm: number | null): void {
  clearTimeout(waiting);
  waiting = undefined;
  const item = current.value;
  if (item && rows.value && mm !== null) {
    type('spacing', spacingText(mm, item.choices.unit, mm));
  }
  underHand.value = null;
  dragged.value = null;
}
