import { useLayoutEffect, useRef } from 'preact/hooks';
import { scanImporter } from '../read/scan/index.js';
import { Field } from './field.js';
import { refused } from './known.js';
import { current, files, type } from './state.js';

/** Which lines of the drawing are the motif; opened where nothing could be read, and left so while a hand is in it. */
export function WhatIsRead() {
  const details = useRef<HTMLDetailsElement>(null);
  const isUnread = refused.value !== null;
  useLayoutEffect(() => {
    if (isUnread) details.current!.open = true;
  }, [isUnread]);
  const { id, choices } = current.value!;
  const { typed } = choices;
  if (scanImporter.recognises(files.get(id)!.bytes))
    return (
      <details ref={details}>
        <summary>How the picture is read</summary>
        <div class="fields">
          <Field
            name="dpi"
            label="Dots to the inch"
            hint="as the scanner was set, where the file does not say"
          />
          <Field name="ink" label="Ink from" hint="50% if empty; less finds paler ink" />
        </div>
      </details>
    );
  return (
    <details ref={details}>
      <summary>Which lines of the drawing are read</summary>
      <div class="fields">
        <div class="field">
          <label for="take-lines">Take</label>
          <select
            id="take-lines"
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
