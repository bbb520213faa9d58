/**
 * Thrown where a request cannot be done: bad usage, unreadable input, a limit reached. The message is one clear
 * sentence for the person at the desk, with the file, line or place in it; the command line prints it and exits
 * with 2. Anything else that is thrown is a defect of ours.
 */
export class Refusal extends Error {
  override readonly name = 'Refusal';
}

/** Artwork no longer knows its file: a Refusal of what is done with it gets the name of the file in front. */
export function naming<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new Refusal(`${file}: ${error.message.charAt(0).toLowerCase()}${error.message.slice(1)}`);
  }
}
