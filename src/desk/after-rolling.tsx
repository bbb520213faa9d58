import { Typed } from './field.js';
import { aligned, plan } from './known.js';
import { choose, current, shown } from './state.js';
import { onPage } from './words.js';

/** Lining a pass up after rolling on: two places to find with the needle, and where it found them. */
export function AfterRolling() {
  const passes = plan.value!.passes.length;
  const { rolled } = current.value!.choices;
  const now = aligned.value;
  if (passes < 2) return null;
  const set = (change: Partial<NonNullable<typeof rolled>>) =>
    choose({ rolled: { pass: 2, left: '', right: '', ...rolled, ...change } }, 'rolled');
  return (
    <details
      open={rolled !== null}
      onToggle={(event) => {
        if (event.currentTarget.open && rolled === null) set({});
      }}
      onFocusIn={() => (shown.value = 'quilt')}
    >
      <summary>Line a pass up after rolling on</summary>
      <p>
        Find two places of the row above with the needle, and type where they are on the quilt as it lies now.
        The pass is turned and moved to meet them.
      </p>
      <div class="fields">
        <div class="field">
          <label for="rolled-pass">Pass to line up</label>
          <select
            id="rolled-pass"
            value={String(rolled?.pass ?? 2)}
            onChange={(event) => set({ pass: Number(event.currentTarget.value), left: '', right: '' })}
          >
            {Array.from({ length: passes - 1 }, (_, i) => i + 2).map((number) => (
              <option key={number} value={String(number)}>
                {number}
              </option>
            ))}
          </select>
        </div>
        <Typed
          label="Found on the left at"
          hint={now?.expected ? `planned: ${now.expected[0]}` : 'across; down'}
          flaw={now?.error ? onPage(now.error) : null}
          text={rolled?.left ?? ''}
          onText={(left) => set({ left: left.trim() })}
        />
        <Typed
          label="Found on the right at"
          hint={now?.expected ? `planned: ${now.expected[1]}` : 'across; down'}
          flaw={null}
          text={rolled?.right ?? ''}
          onText={(right) => set({ right: right.trim() })}
        />
      </div>
      {now?.words.map((sentence) => (
        <p key={sentence}>{onPage(sentence)}</p>
      ))}
      {rolled !== null && (
        <p>
          <button type="button" onClick={() => choose({ rolled: null })}>
            Do not line up
          </button>
        </p>
      )}
    </details>
  );
}
