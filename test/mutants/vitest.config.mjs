import { relative } from 'node:path';
import { BaseSequencer } from 'vitest/node';

/** The rooms and files asked for, in the order in which they are run; `*` in the name of a file. */
const asked = (process.env.LINEWRIGHT_TESTS ?? 'test').split(',');
const patterns = asked.map(
  (path) => new RegExp(`^${path.replaceAll('.', '\\.').replaceAll('*', '[^/]*')}(/|$)`),
);

/** The first test that notices a change ends its run, so the quick ones come first. */
class AsAsked extends BaseSequencer {
  async sort(files) {
    const place = ({ moduleId }) =>
      patterns.findIndex((pattern) => pattern.test(relative(process.cwd(), moduleId)));
    return [...files].sort((a, b) => place(a) - place(b));
  }
}

/** Slowly but surely. */
export default {
  test: {
    testTimeout: 600_000,
    hookTimeout: 600_000,
    maxWorkers: 1,
    setupFiles: ['./test/mutants/patient.mjs'],
    include: asked.map(
      (path) => `**/${relative('test', path)}${path.endsWith('.ts') ? '' : '/**/*.test.ts'}`,
    ),
    sequence: { sequencer: AsAsked },
  },
};
