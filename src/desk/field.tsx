import { useId, useState } from 'preact/hooks';
import type { Asked } from './choices.js';
import { look } from './known.js';
import { current, type } from './state.js';

/** A setting to type, with its unit understood as on a ruler; what is wrong with it stands right below. */
export function Field({
  name,
  label,
  hint,
}: {
  readonly name: Asked;
  readonly label: string;
  readonly hint?: string;
}) {
  const flaw = look.value?.flaws[name] ?? null;
  const text = current.value?.choices.typed[name] ?? '';
  return <Typed label={label} hint={hint} flaw={flaw} text={text} onText={(typed) => type(name, typed)} />;
}

export function Typed({
  label,
  hint,
  flaw,
  text,
  onText,
}: {
  readonly label: string;
  readonly hint?: string;
  readonly flaw: string | null;
  readonly text: string;
  readonly onText: (text: string) => void;
}) {
  const id = useId();
  // What is being typed is the hand's until it is done, whatever the page draws anew meanwhile.
  const [draft, setDraft] = useState<string | null>(null);
  const said = [hint && `${id}-hint`, flaw && `${id}-flaw`].filter(Boolean).join(' ');
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={draft ?? text}
        onInput={(event) => setDraft(event.currentTarget.value)}
        aria-invalid={flaw !== null}
        aria-describedby={said || undefined}
        onChange={(event) => {
          onText(event.currentTarget.value);
          setDraft(null);
        }}
      />
      {hint && <small id={`${id}-hint`}>{hint}</small>}
      {flaw && (
        <p class="flaw" id={`${id}-flaw`}>
          {flaw}
        </p>
      )}
    </div>
  );
}
