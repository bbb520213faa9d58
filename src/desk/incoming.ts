/** Files from the person's disk to the desk: unpacked, with their fingerprint, each complaint a sentence. */
import { Refusal } from '../../shared/refusal.js';
import { defaultLimits } from '../../shared/setup.js';
import { looksLikePlan, readPlan } from '../plan/read-plan.js';
import type { Brought } from '../tasks/motif-from.js';
import { looksLikeSession, readSession, type Session } from './session.js';
import { layOut, restore, told } from './state.js';

/** Sessions take the place of what lies on the desk, and motifs that came with them lie beside theirs. */
export async function take(list: Iterable<File>): Promise<void> {
  const brought: Brought[] = [];
  const sessions: Session[] = [];
  const words: string[] = [];
  for (const file of list) {
    try {
      const read = await readIn(file);
      if (looksLikeSession(read.bytes)) {
        sessions.push(readSession(read.bytes, file.name));
        words.push(`The session ${file.name} is on the desk again.`);
      } else if (looksLikePlan(read.bytes)) throw noMotif(read);
      else brought.push(read);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      words.push(error.message);
    }
  }
  told.value = words.join(' ');
  if (sessions.length > 0)
    restore(
      sessions.flatMap(({ motifs }) => motifs),
      sessions[0].current,
    );
  layOut(brought);
}

/** A plan holds the line of a top, not the motif; what goes on with it on the page makes it anew from the motif. */
function noMotif({ bytes, file: name }: Brought): Refusal {
  const motif = readPlan(bytes, name).file.split(/[\\/]/).at(-1);
  return new Refusal(
    `${name}: this is a plan, made from ${motif}: bring that motif and plan the top again, or go on with the plan as it is by linewright resume or linewright align.`,
  );
}

/**
 * A motif that the library page hands over behind the # of the address, `#motif=NAME&data=…` (gzip, base64url). The address
 * is then cleared, so that a reload does not bring it again.
 */
export async function takeFromAddress(): Promise<void> {
  const handed = new URLSearchParams(location.hash.slice(1));
  const [name, data] = [handed.get('motif'), handed.get('data')];
  if (name === null || data === null) return;
  history.replaceState(null, '', location.href.replace(/#.*/s, ''));
  try {
    const packed = Uint8Array.from(atob(data.replace(/-/g, '+').replace(/_/g, '/')), (sign) =>
      sign.charCodeAt(0),
    );
    await take([new File([await unpacked(packed, name, defaultLimits.fileBytes)], name)]);
  } catch (error) {
    told.value = error instanceof Refusal ? error.message : `${name}: the link is damaged or cut short.`;
  }
}

/** A motif that came with the page. */
export async function takeText(file: string, text: string): Promise<void> {
  const bytes = new TextEncoder().encode(text);
  told.value = '';
  layOut([{ file, bytes, sha256: await sha256(bytes) }]);
}

async function readIn(file: File): Promise<Brought> {
  const most = defaultLimits.fileBytes;
  if (file.size > most) throw tooLarge(file.name, most);
  let raw: Uint8Array;
  try {
    raw = new Uint8Array(await file.arrayBuffer());
  } catch {
    throw new Refusal(`${file.name}: the browser cannot read it; is it a folder?`);
  }
  const isPacked = raw[0] === 0x1f && raw[1] === 0x8b;
  return {
    file: file.name,
    sha256: await sha256(raw),
    bytes: isPacked ? await unpacked(raw, file.name, most) : raw,
  };
}

function tooLarge(file: string, most: number): Refusal {
  return new Refusal(`${file}: larger than ${most / 2 ** 20} MB, the most that is read.`);
}

async function unpacked(raw: Uint8Array, file: string, most: number): Promise<Uint8Array<ArrayBuffer>> {
  const parts: Uint8Array[] = [];
  let size = 0;
  try {
    const reader = new Blob([raw as Uint8Array<ArrayBuffer>])
      .stream()
      .pipeThrough(new DecompressionStream('gzip'))
      .getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > most) {
        await reader.cancel();
        throw tooLarge(file, most);
      }
      parts.push(value);
    }
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${file}: the packed file is damaged or cut short.`);
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

async function sha256(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
