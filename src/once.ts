/** What is worked out when it is first asked for, and kept. */

export function once<T>(make: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => {
    kept ??= { value: make() };
    return kept.value;
  };
}

/** An object of which each value is worked out when it is first asked for, and kept. */
export function onDemand<T extends object>(make: { readonly [K in keyof T]: () => T[K] }): T {
  const made = {} as T;
  for (const key of Object.keys(make) as (keyof T)[])
    Object.defineProperty(made, key, { get: once(make[key]), enumerable: true });
  return made;
}

/** One kept value for each thing, as long as there is the thing. */
export function oncePer<K extends object, T>(make: (key: K) => T): (key: K) => T {
  const kept = new WeakMap<K, { value: T }>();
  return (key) => {
    const known = kept.get(key) ?? { value: make(key) };
    kept.set(key, known);
    return known.value;
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
