import gullWing from '../../corpus/motifs/gull-wing.svg';
import kelp from '../../corpus/motifs/kelp.svg';
import pebbleBeach from '../../corpus/motifs/pebble-beach.svg';
import buoys from '../../corpus/pieces/buoys.svg';
import { focusOn } from './focus.js';
import { take, takeText } from './incoming.js';
import { unread } from './known.js';
import { current, desk, nameOnDesk, putAway, show, told } from './state.js';

const harbour = [
  { file: 'kelp.svg', name: 'Kelp', text: kelp },
  { file: 'pebble-beach.svg', name: 'Pebble beach', text: pebbleBeach },
  { file: 'gull-wing.svg', name: 'Gull wing', text: gullWing },
  { file: 'buoys.svg', name: 'Buoys, drawn in four pieces', text: buoys },
];

/** Step one: a motif of one's own, or one of the harbour's to try. */
export function Bring() {
  const { items, current: shownId } = desk.value;
  return (
    <section aria-labelledby="bring">
      <h2 id="bring" tabIndex={-1}>
        Bring a motif
      </h2>
      <p class="drop">
        <label class="button main">
          Choose files
          <input
            type="file"
            multiple
            onChange={(event) => {
              // The list is the field's own, and empties with it.
              void take([...(event.currentTarget.files ?? [])]);
              event.currentTarget.value = '';
            }}
          />
        </label>{' '}
        or drop them anywhere on this page: drawings (SVG or DXF), pen drawings as pictures (PNG or JPEG),
        motif files, or a session you saved here.
      </p>
      {items.length === 0 ? (
        <>
          <p>Nothing leaves this computer. To try it, take one of the harbour's:</p>
          <Harbour />
        </>
      ) : (
        <details>
          <summary>Try one of the harbour's</summary>
          <Harbour />
        </details>
      )}
      {items.length > 1 && (
        <fieldset>
          <legend>On the desk</legend>
          {items.map((item) => (
            <div class="line" key={item.id}>
              <label>
                <input
                  type="radio"
                  name="motif"
                  checked={item.id === shownId}
                  onChange={() => show(item.id)}
                />{' '}
                {nameOnDesk(item)}
                {unread.value.has(item.id) && <small>cannot be read</small>}
              </label>
              <button
                type="button"
                aria-label={`Put away ${nameOnDesk(item)}`}
                onClick={() => {
                  putAway(item.id);
                  focusOn('bring');
                  told.value = 'Put away. Undo brings it back.';
                }}
              >
                Put away
              </button>
            </div>
          ))}
        </fieldset>
      )}
      {items.length === 1 && current.value && (
        <p class="line">
          On the desk: <b>{nameOnDesk(current.value)}</b>
        </p>
      )}
    </section>
  );
}

function Harbour() {
  return (
    <p class="choices">
      {harbour.map(({ file, name, text }) => (
        <button type="button" key={file} onClick={() => void takeText(file, text)}>
          {name}
        </button>
      ))}
    </p>
  );
}
