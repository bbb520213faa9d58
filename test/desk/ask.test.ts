/** Who waits for whom at the page's workers, with workers that only take their time: what they are told to take, in ms. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Kind } from '../../src/desk/questions.js';
import { root } from './desk-page.js';

/** As in ask.ts, which itself is not typed here: only src/desk knows the DOM. */
interface Page {
  ask(kind: Kind, asked: Task): Promise<object>;
  letGo(kinds: readonly Kind[]): void;
  stop(): void;
  workWith(script: string): void;
}
interface Task {
  readonly ms: number;
  readonly name: string;
  readonly crashes?: boolean;
}

/** What happened: `10 file starts`, with the time in ms. */
let seen: string[] = [];
/** Workers that the page has started and not ended. */
let live = 0;
let mostLive = 0;
let beginning = 0;

function note(what: string): void {
  seen.push(`${Date.now() - beginning} ${what}`);
}

class TimedWorker {
  onmessage: (event: { data: object }) => void = () => {};
  onerror: () => void = () => {};
  private isLive = true;
  private timer: NodeJS.Timeout | undefined;

  constructor() {
    mostLive = Math.max(mostLive, ++live);
  }

  postMessage({ asked }: { asked?: Task }): void {
    if (!asked || !this.isLive) return;
    note(`${asked.name} starts`);
    this.timer = setTimeout(() => {
      if (asked.crashes) this.onerror();
      else this.onmessage({ data: { answer: asked.name } });
    }, asked.ms);
  }

  terminate(): void {
    clearTimeout(this.timer);
    if (this.isLive) live--;
    this.isLive = false;
  }
}

let page: Page;

beforeEach(async () => {
  vi.useFakeTimers();
  vi.stubGlobal('Worker', TimedWorker);
  vi.resetModules();
  page = await import(`${root}src/desk/ask.ts`);
  page.workWith('');
  seen = [];
  live = 0;
  mostLive = 0;
  beginning = Date.now();
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function ask(kind: Kind, ms: number, name: string = kind, crashes = false): void {
  void page.ask(kind, { ms, name, crashes }).then((outcome) => {
    note(`${name} ${'answer' in outcome ? 'answered' : 'refused' in outcome ? outcome.refused : 'dropped'}`);
  });
}

const wait = (ms: number) => vi.advanceTimersByTimeAsync(ms);

it('lets a file that is saved hold up for a blink only what waited before it', async () => {
  ask('plan', 200);
  ask('rest', 50);
  await wait(100);
  ask('save', 3000);
  await wait(4000);
  expect(seen).toEqual([
    '0 plan starts',
    '200 plan answered',
    '200 save starts',
    '500 rest starts',
    '550 rest answered',
    '3200 save answered',
  ]);
});

it.each(['look', 'rows', 'plan'] as const)(
  'lets a file wait for a blink only behind a long %s',
  async (kind) => {
    ask(kind, 5000);
    await wait(100);
    ask('save', 50, 'file');
    await wait(1000);
    ask('save', 50, 'next file');
    await wait(5000);
    expect(seen).toEqual([
      `0 ${kind} starts`,
      '300 file starts',
      '350 file answered',
      '1100 next file starts',
      '1150 next file answered',
      `5000 ${kind} answered`,
    ]);
    expect([mostLive, live]).toEqual([2, 1]);
  },
);

it('measures the dragged row beside a long plan, and nests rows before it plans in the same worker', async () => {
  ask('plan', 5000);
  ask('rows', 1000);
  await wait(1200);
  ask('spacing', 50);
  await wait(400);
  ask('spacing', 50, 'next spacing');
  await wait(5000);
  expect(mostLive).toBe(2);
  expect(seen).toEqual([
    '0 rows starts',
    '1000 rows answered',
    '1000 plan starts',
    '1300 spacing starts',
    '1350 spacing answered',
    '1600 next spacing starts',
    '1650 next spacing answered',
    '6000 plan answered',
  ]);
});

it('looks at what was changed at once, however much of before is still out for long', async () => {
  ask('plan', 5000);
  await wait(1000);
  page.letGo(['plan']);
  ask('look', 50);
  await wait(2000);
  expect(seen).toEqual(['0 plan starts', '1000 plan dropped', '1000 look starts', '1050 look answered']);
  expect(live).toBe(1);
});

it('saves what is asked just after a change, while what the change left behind is ended, and looks on', async () => {
  ask('look', 5000, 'old look');
  await wait(50);
  page.letGo(['look']);
  ask('look', 50, 'new look');
  await wait(20);
  ask('save', 3000);
  await wait(4000);
  expect(seen).toEqual([
    '0 old look starts',
    '50 old look dropped',
    '300 save starts',
    '600 new look starts',
    '650 new look answered',
    '3300 save answered',
  ]);
});

it('goes on in the worker that answers what is unwanted within a blink, and ends one that does not', async () => {
  ask('look', 600, 'quick look');
  await wait(400);
  page.letGo(['look']);
  ask('look', 2000, 'look of before');
  ask('look', 2000, 'slow look');
  await wait(600);
  expect(mostLive).toBe(1);
  page.letGo(['look']);
  await wait(299);
  expect(live).toBe(1);
  await wait(1);
  expect(live).toBe(0);
  expect(seen).toEqual([
    '0 quick look starts',
    '400 quick look dropped',
    '400 look of before dropped',
    '600 slow look starts',
    '1000 slow look dropped',
  ]);
});

it('saves one file after another, however fast they are asked, also beside a look', async () => {
  for (const name of ['a', 'b', 'c']) {
    ask('save', 1000, name);
    await wait(400);
  }
  ask('look', 500);
  await wait(5000);
  expect(mostLive).toBe(2);
  expect(live).toBe(1);
  expect(seen).toEqual([
    '0 a starts',
    '1000 a answered',
    '1000 b starts',
    '1300 look starts',
    '1800 look answered',
    '2000 b answered',
    '2000 c starts',
    '3000 c answered',
  ]);
});

it('lets offers hold up neither a file nor rows, and nothing go aside for offers', async () => {
  ask('offers', 5000);
  await wait(1000);
  ask('save', 1000);
  ask('spacing', 100);
  await wait(300);
  ask('offers', 100, 'newer offers');
  await wait(5000);
  expect(seen).toEqual([
    '0 offers starts',
    '1000 save starts',
    '1300 spacing starts',
    '1400 spacing answered',
    '2000 save answered',
    '5000 offers answered',
    '5000 newer offers starts',
    '5100 newer offers answered',
  ]);
  ask('save', 1000);
  await wait(10);
  ask('offers', 100);
  await wait(2000);
  expect(seen.slice(-4)).toEqual([
    '6300 save starts',
    '7300 save answered',
    '7300 offers starts',
    '7400 offers answered',
  ]);
});

it('ends only what broke off itself', async () => {
  ask('save', 50, 'first save', true);
  ask('save', 1000, 'save', true);
  await wait(100);
  ask('look', 3000);
  await wait(300);
  ask('save', 50, 'next save');
  await wait(5000);
  expect(seen).toEqual([
    '0 first save starts',
    expect.stringMatching(/^50 first save This could not be done: the work broke off/),
    '50 save starts',
    '350 look starts',
    expect.stringMatching(/^1050 save This could not be done: the work broke off/),
    '1050 next save starts',
    '1100 next save answered',
    '3350 look answered',
  ]);
});

it('tells of every file that it was stopped, also while a look is out', async () => {
  ask('save', 3000, 'a');
  ask('save', 3000, 'b');
  await wait(100);
  ask('look', 3000);
  await wait(500);
  page.stop();
  await wait(400);
  expect(live).toBe(0);
  ask('look', 50, 'later look');
  await wait(5000);
  expect(seen).toEqual([
    '0 a starts',
    '300 look starts',
    '600 a Stopped.',
    '600 look Stopped.',
    '600 b Stopped.',
    '1000 later look starts',
    '1050 later look answered',
  ]);
});
