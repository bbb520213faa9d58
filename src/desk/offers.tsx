import { useLayoutEffect, useState } from 'preact/hooks';
import { type MendName, mendNames } from '../../shared/finding.js';
import { Field } from './field.js';
import { focusOn, keepInSight } from './focus.js';
import { tick } from './follow.js';
import { offers } from './known.js';
import { addChange, ticked, told } from './state.js';
import { Svg } from './svg.js';
import { onPage } from './words.js';

const verdicts = {
  clean: 'clean',
  warnings: 'with things to look at',
  errors: 'with errors',
  unreadable: 'not readable',
} as const;

const mendWords: Readonly<Record<MendName, string>> = {
  centre: 'Put the line in the middle of an outline',
  drop: 'Drop dots, copies, registration marks and frames',
  join: 'Join ends that nearly meet',
  untrace: 'Leave out what is stitched twice',
  route: 'Find one line through all pieces',
  reach: 'Lead the ends to the edges, level',
  smooth: 'Smooth a shaky line, within the distance below',
  turn: 'Turn or reverse a motif that runs the wrong way',
  thin: 'Thin out points that the line does not need',
};

/** What mending would do, before and after, and what is left for the hand. */
export function Offers() {
  const [open, setOpen] = useState<number | null>(null);
  const { ways, leaves } = offers.value!;
  // What was offered goes, and the page moves: a heading that took the focus for it must not come to lie under the picture.
  useLayoutEffect(() => keepInSight('put-right'), [ways]);
  return (
    <>
      {ways.length === 0 && leaves.length === 0 && (
        <p>There is nothing that the program could put right by itself.</p>
      )}
      <ul class="offers">
        {ways.map(({ title, does, picture, before, after, change }, i) => (
          <li key={title}>
            <p>
              <b>{title}</b>: {verdicts[before]} now, {verdicts[after]} after it.
            </p>
            <ul>
              {does.map((sentence) => (
                <li key={sentence}>{onPage(sentence)}</li>
              ))}
            </ul>
            <p class="choices">
              <button
                type="button"
                class="main"
                onClick={() => {
                  addChange(change);
                  focusOn('put-right');
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
      {leaves.length > 0 && (
        <>
          <h3>What has to be put right by hand</h3>
          <ul>
            {leaves.map((sentence) => (
              <li key={sentence}>{onPage(sentence)}</li>
            ))}
          </ul>
        </>
      )}
      <OneByOne />
    </>
  );
}

/** Which of the mends are wanted, and how shaky the hand was. */
function OneByOne() {
  const now = ticked.value;
  return (
    <details>
      <summary>Choose what is put right</summary>
      <fieldset>
        <legend>Wanted</legend>
        {mendNames.map((name) => (
          <label key={name}>
            <input
              type="checkbox"
              checked={now?.includes(name) ?? true}
              onChange={({ currentTarget: { checked } }) => {
                const wanted = mendNames.filter((each) =>
                  each === name ? checked : (now?.includes(each) ?? true),
                );
                tick(wanted.length === mendNames.length ? null : wanted);
              }}
            />{' '}
            {mendWords[name]}
          </label>
        ))}
      </fieldset>
      <Field name="smooth" label="Make a shaky line smooth within" hint="such as 0.5mm; corners stay" />
    </details>
  );
}
