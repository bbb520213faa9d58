import { Typed } from './field.js';
import { plan, rest } from './known.js';
import { asksWhereStopped, choose, current, shown } from './state.js';
import { onPage } from './words.js';

/** Going on after a break: the pass, and the place where the stitching stopped, typed or clicked in the picture. */
export function AfterBreak() {
  const item = current.value!;
  const passes = plan.value!.passes.length;
  const { stopped } = item.choices;
  const now = rest.value;
  const set = (change: Partial<NonNullable<typeof stopped>>) =>
    choose({ stopped: { pass: 1, at: '', which: null, overlap: '', ...stopped, ...change } }, 'stopped');
  return (
    <details
      open={stopped !== null || asksWhereStopped.value}
      onToggle={(event) => (asksWhereStopped.value = event.currentTarget.open)}
      onFocusIn={() => (shown.value = 'quilt')}
    >
      <summary>Go on after a break</summary>
      <p>
        Choose the pass, and click in the picture of the quilt where the stitching stopped; or measure it from
        the top's upper left corner.
      </p>
      <div class="fields">
        <div class="field">
          <label for="stopped-pass">Pass</label>
          <select
            id="stopped-pass"
            value={String(stopped?.pass ?? 1)}
            onChange={(event) => set({ pass: Number(event.currentTarget.value), which: null })}
          >
            {Array.from({ length: passes }, (_, i) => i + 1).map((number) => (
              <option key={number} value={String(number)}>
                {number}
              </option>
            ))}
          </select>
        </div>
        <Typed
          label="Stopped at"
          hint="across; down, such as 23in; 14in"
          flaw={now?.error ? onPage(now.error) : null}
          text={stopped?.at ?? ''}
          onText={(at) => set({ at: at.trim(), which: null })}
        />
        <Typed
          label="Overlap"
          hint="stitched again; 1/2in if empty"
          flaw={null}
          text={stopped?.overlap ?? ''}
          onText={(overlap) => set({ overlap: overlap.trim() })}
        />
      </div>
      {now && now.ways.length > 0 && (
        <fieldset>
          <legend>The line comes by there more than once. Which time was it?</legend>
          {now.ways.map((words, i) => (
            <label key={words}>
              <input
                type="radio"
                name="which"
                checked={stopped?.which === i + 1}
                onChange={() => set({ which: i + 1 })}
              />{' '}
              {words}
            </label>
          ))}
        </fieldset>
      )}
      {now?.words && <p>{now.words} What is done is grey in the picture.</p>}
      {stopped !== null && (
        <p>
          <button type="button" onClick={() => choose({ stopped: null })}>
            Back to the whole plan
          </button>
        </p>
      )}
    </details>
  );
}
