import { chainedPlace } from './along.js';
import { Field } from './field.js';
import { look } from './known.js';
import { OfBefore } from './of-before.js';
import { Offers } from './offers.js';
import type { Look } from './questions.js';
import { addChange, choose, current, shown, told, walked } from './state.js';
import { WhatIsRead } from './what-is-read.js';

/** Step three: mends that help, size, and what a hand does to a motif. */
export function PutRight() {
  const item = current.value;
  const now = look.value;
  if (!item) return null;
  return (
    <section aria-labelledby="put-right" onFocusIn={() => (shown.value = 'motif')}>
      <h2 id="put-right" tabIndex={-1}>
        Put it right
      </h2>
      {now && (
        <OfBefore kind="offers" waiting="Looking for what can be put right">
          <Offers />
        </OfBefore>
      )}
      <h3>Size</h3>
      <div class="fields">
        <Field name="height" label="Height" hint="9 1/2in or 240mm" />
        <Field name="width" label="Width" hint="one of the two: the proportions stay" />
      </div>
      <WhatIsRead key={item.id} />
      {now && <ByHand {...now} />}
    </section>
  );
}

function ByHand({ done }: Look) {
  return (
    <>
      <div class="tools">
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
      </div>
      {done.length > 0 && (
        <>
          <h3>Done so far</h3>
          <ol>
            {done.map((sentences, i) => (
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
    </>
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
