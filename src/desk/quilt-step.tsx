import { runsOf } from '../../shared/plan.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import { AfterBreak } from './after-break.js';
import { AfterRolling } from './after-rolling.js';
import { Field, Typed } from './field.js';
import { look, plan } from './known.js';
import { OfBefore } from './of-before.js';
import { choose, current, shown } from './state.js';
import { onPage } from './words.js';

const runsWords = {
  'back-and-forth': 'to and fro, the rows of a pass in one line',
  'one-way': 'every row from the left',
} as const;

/** Step five: the whole quilt. */
export function QuiltStep() {
  const item = current.value;
  if (!item || !look.value) return null;
  const { unit, quilt, resize, runs } = item.choices;
  const { short } = sayIn(unit);
  return (
    <section aria-labelledby="quilt" onFocusIn={() => (shown.value = 'quilt')}>
      <h2 id="quilt">Plan the quilt</h2>
      <div class="fields">
        <Typed
          label="Size of the top"
          hint={`width x height, such as ${unit === 'mm' ? '1500 x 1800' : '60in x 72in'}`}
          flaw={null}
          text={quilt}
          onText={(text) => text.trim() !== quilt && choose({ quilt: text.trim(), choose: 1 }, 'quilt')}
        />
        <Field
          name="margin"
          label="Margin"
          hint={`how far the stitching goes past the top; ${short(defaultSetup.marginMm)} if empty`}
        />
        <Field name="throat" label="Throat" hint="depth that can be stitched with an empty roller" />
        <Field name="reserve" label="Kept free" hint="of the throat, for the hand or a bar" />
        <Field
          name="roller"
          label="Roller"
          hint={`across, empty; ${short(defaultSetup.rollerMm)} if nothing is typed`}
        />
        <Typed
          label="Motif may change size by"
          hint="10% if empty"
          flaw={null}
          text={resize}
          onText={(text) => text.trim() !== resize && choose({ resize: text.trim(), choose: 1 }, 'resize')}
        />
        <Field name="bobbin" label="Thread on a bobbin" hint="such as 120yd" />
        <Field name="speed" label="Stitches a minute" />
        <Field name="price" label="Price" hint={unit === 'mm' ? 'of a square metre' : 'of a square inch'} />
      </div>
      <fieldset>
        <legend>Rows run</legend>
        {runsOf.map((each) => (
          <label key={each}>
            <input
              type="radio"
              name="runs"
              checked={runs === each}
              onChange={() => choose({ runs: each, choose: 1 })}
            />{' '}
            {runsWords[each]}
          </label>
        ))}
      </fieldset>
      {quilt === '' && <p>Type the size of the top, and the whole quilt is drawn.</p>}
      {quilt !== '' && (
        <OfBefore kind="plan" waiting="Planning">
          <Planned />
        </OfBefore>
      )}
    </section>
  );
}

function Planned() {
  const now = plan.value!;
  const { choose: taken } = current.value!.choices;
  return (
    <>
      {now.error && <p class="flaw">{onPage(now.error)}</p>}
      {now.assumedSize.map((words) => (
        <p key={words} class="flaw">
          {onPage(words)}
        </p>
      ))}
      {now.choices.length > 0 && (
        <>
          <fieldset>
            <legend>Ways to cover it, the recommended one first</legend>
            {now.choices.map((words, i) => (
              <label key={words}>
                <input
                  type="radio"
                  name="choose"
                  checked={taken === i + 1}
                  onChange={() => choose({ choose: i + 1 })}
                />{' '}
                {words}
              </label>
            ))}
          </fieldset>
          <p>
            <b>{onPage(now.set)}</b>
          </p>
          {now.open.map((words) => (
            <p key={words} class="flaw">
              {onPage(words)}
            </p>
          ))}
          <h3>Pass by pass</h3>
          <ol>
            {now.passes.map((words) => (
              <li key={words}>{onPage(words)}</li>
            ))}
          </ol>
          {now.noThroat.map((words) => (
            <p key={words}>{onPage(words)}</p>
          ))}
          {now.sums.map((words) => (
            <p key={words}>{onPage(words)}</p>
          ))}
          <AfterBreak />
          <AfterRolling />
        </>
      )}
    </>
  );
}
