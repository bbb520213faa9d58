/** Progress on a terminal: one line that is written over, with counts and the time left. In a pipe, nothing. */
import stringWidth from 'fast-string-width';
import { columns } from './page.js';

export class Progress {
  private readonly since = performance.now();
  private shownAt = -Infinity;
  private isShown = false;

  constructor(
    private readonly total: number,
    private readonly stream: NodeJS.WriteStream,
  ) {}

  /** `done` of the total are done; `now` is what is at work. */
  show(done: number, now: string): void {
    const time = performance.now();
    if (!this.stream.isTTY || this.total < 2 || time - this.shownAt < 100) return;
    this.shownAt = time;
    this.isShown = true;
    this.stream.write(`\r\u001b[K${this.line(done, now, (time - this.since) / 1000)}`);
  }

  /** Takes the line away, so that something else can be written. */
  clear(): void {
    if (this.isShown) this.stream.write('\r\u001b[K');
    this.isShown = false;
    // What is written next may push the line on, so it is due again at once.
    this.shownAt = Math.min(this.shownAt, performance.now() - 50);
  }

  private line(done: number, now: string, seconds: number): string {
    const left = done > 0 ? `, ${timeText((seconds / done) * (this.total - done))} left` : '';
    const head = `${done + 1} of ${this.total}${left}: `;
    let tail = now;
    while (stringWidth(head + tail) >= columns) tail = tail.slice(1);
    return head + tail;
  }
}

export function timeText(seconds: number): string {
  if (seconds < 90) return `${Math.ceil(seconds)} s`;
  return `${Math.ceil(seconds / 60)} min`;
}
