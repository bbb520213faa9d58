/** What is worked out when it is first asked for, and kept. */

export function once<T>(make: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => {
    kept ??= { value: make() };
    return kept.value;
  };
}

/** One kept value for each list of arguments. */
export function onceFor<A extends readonly (string | number)[], T>(
  make: (...args: A) => T,
): (...args: A) => T {
  const kept = new Map<string, T>();
  return (...args) => {
    const key = args.join(' ');
    if (!kept.has(key)) kept.set(key, make(...args));
    return kept.get(key) as T;
  };
}
