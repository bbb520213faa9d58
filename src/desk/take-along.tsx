import { outputNames } from '../../shared/output-name.js';
import { bareName } from '../read/index.js';
import { ask } from './ask.js';
import { focusOn } from './focus.js';
import { aligned, look, plan, rest } from './known.js';
import { OnPaper } from './on-paper.js';
import { pixels } from './pixels.js';
import type { Saved, Saving } from './questions.js';
import { clearBrowser, sessionText } from './session.js';
import { clearDesk, current, desk, files, noteSaved, told } from './state.js';
import { onPage } from './words.js';

const forMotif: readonly (readonly [Saving, string])[] = [
  ['motif', 'Motif file'],
  ['svg', 'SVG'],
  ['curves', 'SVG of few curves, to edit again'],
  ['dxf', 'DXF'],
  ['csv', 'Table of points (CSV)'],
  ['png', 'Picture (PNG)'],
  ['rows', 'Picture of the rows (PNG)'],
];
const toPrint: readonly (readonly [Saving, string])[] = [
  ['sheet', 'Sheet to print'],
  ['paper', 'Full size on paper (PDF)'],
];
const forQuilt: readonly (readonly [Saving, string])[] = [
  ['plan sheet', 'Sheet of the plan'],
  ['plan', 'Plan (JSON)'],
  ['passes', 'Passes (SVG, one file each)'],
  ['passes dxf', 'Passes (DXF, one file each)'],
];

/** Step six: everything as files, saved by the browser. */
export function TakeAlong() {
  if (!current.value) return null;
  const hasMotif = look.value !== null;
  const hasPlan = plan.value !== null && plan.value.picture !== null;
  return (
    <section aria-labelledby="take">
      <h2 id="take">Take it along</h2>
      {hasMotif && (
        <>
          <h3>The motif</h3>
          <SaveButtons all={forMotif} />
          <h3>To print</h3>
          <SaveButtons all={toPrint} />
          <OnPaper />
        </>
      )}
      {hasPlan && (
        <>
          <h3>The quilt</h3>
          <SaveButtons all={forQuilt} />
        </>
      )}
      {rest.value?.picture && <SaveButtons all={[['rest', 'Rest of the pass (SVG)']]} />}
      {aligned.value && aligned.value.words.length > 0 && (
        <SaveButtons all={[['aligned', 'Pass lined up (SVG)']]} />
      )}
      <h3>This desk</h3>
      <p class="choices">
        <button
          type="button"
          onClick={() => {
            download('linewright.session.json', new Blob([sessionText(desk.value, files)]));
            noteSaved(desk.value.items);
          }}
        >
          Session: everything on this desk
        </button>
        <button type="button" onClick={() => print()}>
          Print this page
        </button>
      </p>
      <p>
        This browser keeps what is on the desk, on this computer only, so that it is here again next time.{' '}
        <button
          type="button"
          onClick={() => {
            void clearBrowser();
            clearDesk();
            focusOn('bring');
            told.value =
              'The desk is clear, and this browser keeps nothing of it. Until you close the page, undo brings it back.';
          }}
        >
          Clear the desk
        </button>
      </p>
      <p class="credit">
        Test on scrap first, with the same batting, backing and thread. Keep hands, hair and sleeves clear of
        the machine's head, which moves by itself, and go by the machine's manual.
      </p>
    </section>
  );
}

function SaveButtons({ all }: { all: readonly (readonly [Saving, string])[] }) {
  return (
    <p class="choices">
      {all.map(([what, label]) => (
        <button type="button" key={what} onClick={() => void save(what)}>
          {label}
        </button>
      ))}
    </p>
  );
}

async function save(what: Saving): Promise<void> {
  const item = current.value;
  if (!item) return;
  const { items } = desk.value;
  const names = outputNames(items.map(({ id }) => bareName(files.get(id)!.file)));
  const name = names[items.indexOf(item)];
  const outcome = await ask('save', { ...item, what, name });
  if ('dropped' in outcome) return;
  if ('refused' in outcome) {
    told.value = onPage(outcome.refused);
    return;
  }
  for (const each of outcome.answer) download(each.name, await blobOf(each));
  noteSaved([item]);
  told.value = `Saved: ${outcome.answer.map(({ name: file }) => file).join(', ')}.`;
}

async function blobOf({ text, type, pixels: wide }: Saved): Promise<Blob> {
  return wide === undefined
    ? new Blob([text as string | Uint8Array<ArrayBuffer>], { type })
    : pixels(text as string, wide);
}

function download(name: string, blob: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
