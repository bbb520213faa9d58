import { useState } from 'preact/hooks';
import { chainedPlace } from './along.js';
import { Field } from './field.js';
import { addChange, choose, current, look, offers, shown, told, type, walked } from './state.js';
import { Svg } from './svg.js';

const verdicts = {
  clean: 'clean',
  warnings: 'with things to look at',
  errors: 'with errors',
  unreadable: 'not readable',
} as const;

/** Step three: mends that help, size, and what a hand does to a motif. */
export function PutRight() {
  const item = current.value;
  const now = look.value;
  if (!item || !now) return null;
  return (
    <section aria-labelledby="put-right" onFocusIn={() => (shown.value = 'motif')}>
      <h2 id="put-right">Put it right</h2>
      <Offers />
      <h3>Size</h3>
      <div class="fields">
        <Field name="height" label="Height" hint="9 1/2in or 240mm" />
        <Field name="width" label="or width" />
      </div>
      <WhatIsRead />
      <h3>By hand</h3>
      <p class="choices">
        <button type="button" onClick={() => addChange({ by: 'reverse' })}>
          Stitch it the other way
        </button>
        <button type="button" onClick={() => addChange({ by: 'mirror' })}>
          Mirror left and right
        </button>
        <button type="button" onClick={() => addChange({ by: 'flip' })}>
          Mirror top and bottom
        </button>
        <button type="button" onClick={() => addChange({ by: 'quarter turn' })}>
          Quarter turn
        </button>
      </p>
      <StartHere />
      {now.done.length > 0 && (
        <>
          <h3>Done so far</h3>
          <ol>
            {now.done.map((sentences, i) => (
              <li key={i}>{sentences.length > 0 ? sentences.join(' ') : 'There was nothing to mend.'}</li>
            ))}
          </ol>
          <p>
            <button type="button" onClick={() => choose({ changes: [] })}>
              Back to the motif as it came
            </button>
          </p>
        </>
      )}
    </section>
  );
}

/** Which lines of the drawing are the motif. */
function WhatIsRead() {
  const { typed } = current.value!.choices;
  return (
    <details>
      <summary>Which lines of the drawing are read</summary>
      <div class="fields">
        <div class="field">
          <label for="take">Take</label>
          <select
            id="take"
            value={typed.take ?? 'auto'}
            onChange={({ currentTarget: { value } }) => type('take', value === 'auto' ? '' : value)}
          >
            <option value="auto">lines, or shapes where there are none</option>
            <option value="lines">lines only</option>
            <option value="shapes">shapes too, by their outline</option>
          </select>
        </div>
        <Field name="layer" label="Only the layer" />
        <Field name="colour" label="Only the colour" hint="such as black or #0072b2" />
      </div>
      <label class="tick">
        <input
          type="checkbox"
          checked={typed.skipDashed === 'yes'}
          onChange={({ currentTarget: { checked } }) => type('skipDashed', checked ? 'yes' : '')}
        />{' '}
        Leave dashed lines out
      </label>
    </details>
  );
}

function Offers() {
  const [open, setOpen] = useState<number | null>(null);
  const found = offers.value;
  if (found === null) return <p>Looking for what can be put right …</p>;
  if (found.length === 0) return <p>There is nothing that the program could put right by itself.</p>;
  return (
    <ul class="offers">
      {found.map(({ title, does, picture, before, after, change }, i) => (
        <li key={title}>
          <p>
            <b>{title}</b>: {verdicts[before]} now, {verdicts[after]} after it.
          </p>
          <ul>
            {does.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <p class="choices">
            <button
              type="button"
              class="main"
              onClick={() => {
                addChange(change);
                told.value = 'Done. Undo takes it back.';
              }}
            >
              Do it
            </button>
            <button type="button" aria-expanded={open === i} onClick={() => setOpen(open === i ? null : i)}>
              {open === i ? 'Hide before and after' : 'Show before and after'}
            </button>
          </p>
          {open === i && (
            <Svg text={picture} label="Before on the left, after on the right; what is added is dashed" />
          )}
        </li>
      ))}
    </ul>
  );
}

/** The endless row is cut at the handle: the line then starts there. */
function StartHere() {
  const now = look.value!;
  if (now.strokes.length !== 1)
    return <p>Once the motif is one line, you can choose here where it starts.</p>;
  const at = walked.value === null ? null : chainedPlace(now.strokes[0], walked.value);
  return (
    <p>
      <button
        type="button"
        disabled={at === null}
        onClick={() => {
          addChange({ by: 'start', at: [at!.x, at!.y] });
          walked.value = null;
          told.value = 'The line starts there now: see above whether its ends still meet the edges.';
        }}
      >
        Start the line at the handle
      </button>{' '}
      {at === null
        ? 'Walk along the line, or click a place on it, to set the handle.'
        : 'The row is cut where the ring is in the picture.'}
    </p>
  );
}
