/** Results to stdout. */

export function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

export function printJson(document: unknown): void {
  print(JSON.stringify(document, null, 2));
}
