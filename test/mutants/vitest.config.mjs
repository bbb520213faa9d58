/** Slowly but surely. */
export default {
  test: {
    testTimeout: 600_000,
    hookTimeout: 600_000,
    maxWorkers: 1,
    setupFiles: ['./test/mutants/patient.mjs'],
  },
};
