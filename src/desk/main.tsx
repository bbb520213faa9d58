/** The desk: one page that does everything for one motif and one quilt. The same script runs in its worker. */
import { effect } from '@preact/signals';
import { render } from 'preact';
import { busy, stop, workWith } from './ask.js';
import { Bring } from './bring.js';
import { follow } from './follow.js';
import { take, takeFromAddress } from './incoming.js';
import { PutRight } from './put-right.js';
import { QuiltStep } from './quilt-step.js';
import { RowsStep } from './rows-step.js';
import { See } from './see.js';
import { keepInBrowser, keptInBrowser, readSession, sessionText } from './session.js';
import { Sight } from './sight.js';
import { choose, current, desk, files, future, past, redo, restore, told, undo, wouldLose } from './state.js';
import { TakeAlong } from './take-along.js';
import { work } from './worker.js';

function Page() {
  const unit = current.value?.choices.unit ?? 'in';
  return (
    <>
      <header>
        <h1>Linewright</h1>
        <p>The quilting desk: from a motif to a quilt, top to bottom.</p>
        <div class="bar">
          <button type="button" disabled={past.value.length === 0} onClick={undo}>
            Undo
          </button>
          <button type="button" disabled={future.value.length === 0} onClick={redo}>
            Redo
          </button>
          {current.value && (
            <label>
              Lengths in{' '}
              <select
                value={unit}
                onChange={(event) => choose({ unit: event.currentTarget.value as 'in' | 'mm' })}
              >
                <option value="in">inches</option>
                <option value="mm">millimetres</option>
              </select>
            </label>
          )}
          <Busy />
        </div>
        <p class="told" role="status">
          {told.value}
        </p>
      </header>
      <main>
        <Sight />
        <div class="steps">
          <Bring />
          {current.value && <See />}
          <PutRight />
          <RowsStep />
          <QuiltStep />
          <TakeAlong />
        </div>
      </main>
    </>
  );
}

const busyWords = {
  look: 'Reading and judging',
  offers: 'Looking for what can be put right',
  rows: 'Nesting the rows',
  spacing: 'Measuring the rows',
  plan: 'Planning the quilt',
  rest: 'Finding what is left',
  aligned: 'Lining up',
  save: 'Writing the file',
} as const;

/** Only what takes longer than a blink is worth a word. */
function Busy() {
  if (busy.value === null) return null;
  return (
    <span class="busy">
      {busyWords[busy.value]} …{' '}
      <button type="button" onClick={stop}>
        Stop
      </button>
    </span>
  );
}

function start(script: string): void {
  workWith(script);
  follow();
  render(<Page />, document.getElementById('desk')!);
  let over: ReturnType<typeof setTimeout> | undefined;
  const show = (isOver: boolean) => document.body.classList.toggle('over', isOver);
  document.addEventListener('dragover', (event) => {
    event.preventDefault();
    // It comes again and again while something is held over the page.
    clearTimeout(over);
    over = setTimeout(() => show(false), 300);
    show(true);
  });
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    show(false);
    const dropped = event.dataTransfer?.files ?? [];
    if (dropped.length > 0) void take(dropped);
    else told.value = 'What was dropped is no file: save the drawing on this computer, and drop the file.';
  });
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    // In a field the browser's own undo is meant while it is being typed in.
    if (event.target instanceof HTMLInputElement && event.target.type === 'text') return;
    event.preventDefault();
    if (key === 'y' || event.shiftKey) redo();
    else undo();
  });
  window.addEventListener('beforeunload', (event) => {
    if (wouldLose()) event.preventDefault();
  });
  void recall().then(remember).then(takeFromAddress);
}

/** What this browser kept from last time. */
async function recall(): Promise<void> {
  const kept = await keptInBrowser();
  if (kept === null || desk.value.items.length > 0) return;
  try {
    const { motifs, current: which } = readSession(new TextEncoder().encode(kept), 'The desk as it was');
    if (motifs.length === 0) return;
    restore(motifs, which);
    past.value = [];
    told.value = 'This is the desk as you left it: this browser kept it.';
  } catch {
    told.value = 'What this browser kept of the desk could not be read.';
  }
}

const restMs = 400;

const notKept = {
  refused: 'This browser cannot keep the desk: save a session before you close it.',
  another:
    'This browser keeps the desk of another tab, changed since: save a session of this one before you close it, or load the page again to go on with the other.',
} as const;

/** Keeps the desk in this browser, shortly after each change. */
function remember(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isFirst = true;
  effect(() => {
    const now = desk.value;
    if (isFirst) {
      isFirst = false;
      return;
    }
    clearTimeout(timer);
    if (now.items.length === 0) return;
    timer = setTimeout(() => {
      void keepInBrowser(sessionText(now, files)).then((outcome) => {
        if (outcome !== 'kept') told.value = notKept[outcome];
      });
    }, restMs);
  });
}

if (typeof document === 'undefined') work();
else start(document.currentScript!.textContent!);
