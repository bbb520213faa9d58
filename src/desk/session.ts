/** The session: the motifs on the desk and what is chosen for each, as a file, and in this browser until it is cleared. */
import { Refusal } from '../../shared/refusal.js';
import { defaultLimits } from '../../shared/setup.js';
import { version } from '../../shared/version.js';
import { flawsAgainst } from '../json-schema.js';
import { parseJson } from '../read/motif/json.js';
import type { Brought } from '../tasks/motif-from.js';
import { type Choices, noChoices } from './choices.js';
import schema from './session.schema.json' with { type: 'json' };
import type { Desk } from './state.js';

const format = 'linewright-session';
const sessionVersion = 1;

export interface Session {
  readonly motifs: readonly { readonly file: Brought; readonly choices: Choices }[];
  readonly current: number;
}

export function sessionText({ items, current }: Desk, files: ReadonlyMap<number, Brought>): string {
  const motifs = items.map(({ id, choices }) => {
    const { file, bytes, sha256 } = files.get(id)!;
    return { file, sha256, data: base64(bytes), choices };
  });
  const shown = items.findIndex(({ id }) => id === current);
  return `${JSON.stringify({ format, version: sessionVersion, linewright: version, shown: Math.max(0, shown), motifs })}\n`;
}

export function looksLikeSession(bytes: Uint8Array): boolean {
  return new TextDecoder().decode(bytes.subarray(0, 64)).includes(`"${format}"`);
}

const flawOf = flawsAgainst(schema);

/** @throws Refusal where it is no session, or a damaged one, or of a newer version */
export function readSession(bytes: Uint8Array, name: string): Session {
  const value = parseJson(bytes, name, defaultLimits.nesting) as Record<string, never>;
  if (typeof value?.version === 'number' && value.version > sessionVersion)
    throw new Refusal(`${name}: this session is of a newer version than this page reads.`);
  const flaw = flawOf(value);
  if (flaw !== null) throw new Refusal(`${name}: this session is damaged, ${flaw}.`);
  const { shown, motifs } = value as unknown as {
    shown: number;
    motifs: readonly { file: string; sha256: string; data: string; choices: Choices }[];
  };
  return {
    current: shown,
    motifs: motifs.map(({ file, sha256, data, choices }) => ({
      file: { file, sha256, bytes: fromBase64(data, name) },
      choices: { ...noChoices, ...choices },
    })),
  };
}

const chunk = 0x8000;

function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += chunk)
    parts.push(String.fromCharCode(...bytes.subarray(i, i + chunk)));
  return btoa(parts.join(''));
}

function fromBase64(text: string, name: string): Uint8Array {
  try {
    return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
  } catch {
    throw new Refusal(`${name}: this session is damaged, a motif in it is cut short.`);
  }
}

/** The browser's own store; null where it has none for this page. */
function store(): Promise<IDBDatabase | null> {
  return new Promise((done) => {
    try {
      const opening = indexedDB.open('linewright-desk', 1);
      opening.onupgradeneeded = () => opening.result.createObjectStore('desk');
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => done(null);
    } catch {
      done(null);
    }
  });
}

/** Whether what `act` asks of the store could be done. */
async function inStore(mode: IDBTransactionMode, act: (desk: IDBObjectStore) => void): Promise<boolean> {
  const base = await store();
  if (base === null) return false;
  return new Promise((done) => {
    const close = (isDone: boolean) => {
      base.close();
      done(isDone);
    };
    const transaction = base.transaction('desk', mode);
    transaction.oncomplete = () => close(true);
    transaction.onabort = () => close(false);
    act(transaction.objectStore('desk'));
  });
}

/** What this tab found there or kept there last: anything else is the work of another tab. */
let ours: string | null = null;

/** Whether it is kept now; what another tab has kept since is left as it is. */
export async function keepInBrowser(text: string): Promise<'kept' | 'another' | 'refused'> {
  let isAnother = false;
  const isDone = await inStore('readwrite', (desk) => {
    const asked = desk.get('session');
    asked.onsuccess = () => {
      isAnother = typeof asked.result === 'string' && asked.result !== ours;
      if (!isAnother) desk.put(text, 'session');
    };
  });
  if (isAnother) return 'another';
  if (isDone) ours = text;
  return isDone ? 'kept' : 'refused';
}

export async function keptInBrowser(): Promise<string | null> {
  await inStore('readonly', (desk) => {
    const asked = desk.get('session');
    asked.onsuccess = () => {
      ours = typeof asked.result === 'string' ? asked.result : null;
    };
  });
  return ours;
}

export async function clearBrowser(): Promise<void> {
  await inStore('readwrite', (desk) => desk.delete('session'));
}
