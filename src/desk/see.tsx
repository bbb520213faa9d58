import { creditWords } from '../../shared/credit-words.js';
import { flagged } from '../../shared/flags.js';
import { look, refused } from './known.js';
import { OfBefore } from './of-before.js';
import type { Look } from './questions.js';
import { pointed, shown, walked } from './state.js';
import { onPage } from './words.js';

const words = { error: 'Error', warning: 'Warning', info: 'Note' } as const;

/** Step two: the verdict, the findings with the numbers of their flags, and the numbers. */
export function See() {
  const now = look.value;
  return (
    <section aria-labelledby="see" onFocusIn={() => (shown.value = 'motif')}>
      <h2 id="see">See how it will stitch</h2>
      {refused.value && (
        <p class="flaw" role="alert">
          {onPage(refused.value)}
        </p>
      )}
      {now && (
        <OfBefore kind="look" waiting="Reading and judging">
          <Verdict {...now} />
          <Findings {...now} />
        </OfBefore>
      )}
      {now && (
        <details>
          <summary>The numbers</summary>
          <dl>
            {now.facts.map((fact) => {
              const colon = fact.indexOf(':');
              return (
                <div key={fact}>
                  <dt>{fact.slice(0, colon)}</dt>
                  <dd>{onPage(fact.slice(colon + 2))}</dd>
                </div>
              );
            })}
          </dl>
        </details>
      )}
      {now && now.strokes.length === 1 && <Walk />}
      {now && <Credits {...now} />}
    </section>
  );
}

function Verdict({ status, facts, findings }: Look) {
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const warnings = findings.filter(({ severity }) => severity === 'warning').length;
  const sentence =
    errors > 0
      ? `Not ready to stitch: ${errors} ${errors === 1 ? 'thing is' : 'things are'} wrong.`
      : warnings > 0
        ? `Can be stitched, with ${warnings} ${warnings === 1 ? 'thing' : 'things'} to look at.`
        : 'Clean: ready for a test on scrap.';
  return (
    <>
      <p class={`verdict ${status}`} data-verdict={status}>
        {sentence}
      </p>
      <p>{onPage(facts.find((fact) => fact.startsWith('Size:')) ?? '')}</p>
    </>
  );
}

/** Pointing at a finding shows its places; its flags carry its numbers. */
function Findings({ findings }: Look) {
  if (findings.length === 0) return null;
  return (
    <ul class="findings">
      {flagged(findings).map(({ finding: { severity, message, rule }, flags }, i) => (
        <li key={`${rule} ${message}`} class={severity}>
          <button
            type="button"
            aria-pressed={pointed.value === i}
            onClick={() => {
              pointed.value = pointed.value === i ? null : i;
              shown.value = 'motif';
            }}
          >
            {flags.length > 0 && (
              <b class="numbers">
                <span class="unseen">{flags.length === 1 ? 'Flag ' : 'Flags '}</span>
                {flags.map(({ number }) => number).join(', ')}
              </b>
            )}{' '}
            <b>{words[severity]}:</b> {onPage(message)}
            {flags.length > 0 && (
              <span class="hint">{pointed.value === i ? 'Show the whole' : 'Show where'}</span>
            )}
          </button>
        </li>
      ))}
    </ul>
  );
}

/** A handle that runs along the line in the order of stitching. */
function Walk() {
  return (
    <div class="field">
      <label for="walk">Walk along the line, as it is stitched</label>
      <input
        id="walk"
        type="range"
        min="0"
        max="1000"
        value={(walked.value ?? 0) * 1000}
        aria-valuetext={`${Math.round((walked.value ?? 0) * 100)} per cent of the way`}
        onInput={(event) => {
          walked.value = Number(event.currentTarget.value) / 1000;
          shown.value = 'motif';
        }}
      />
    </div>
  );
}

function Credits({ credit }: Look) {
  if (Object.keys(credit).length === 0) return null;
  return (
    <div class="credit">
      {creditWords(credit).map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
