/**
 * Thrown where a request cannot be done: bad usage, unreadable input, a limit reached. The message is one clear
 * sentence for the person at the desk, with the file, line or place in it; the command line prints it and exits
 * with 2. Anything else that is thrown is a defect of ours.
 */
export class Refusal extends Error {
  override readonly name = 'Refusal';
}
