/** As `npm test` runs them: on a busy machine, and with code that was changed, tests take their time. */
export default { test: { testTimeout: 120_000, hookTimeout: 120_000, maxWorkers: 1 } };
