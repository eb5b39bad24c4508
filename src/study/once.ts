/** What `work` gives, worked out when it is first asked for. */
export function once<Result>(work: () => Result): () => Result {
  let done: { result: Result } | null = null;
  return () => (done ??= { result: work() }).result;
}

/** A list like any other, but that each of its entries is made when it is first looked at. */
export function lazily<Entry>(length: number, make: (index: number) => Entry): Entry[] {
  const list: Entry[] = [];
  for (let index = 0; index < length; index++)
    Object.defineProperty(list, index, {
      enumerable: true,
      configurable: true,
      get: once(() => make(index)),
    });
  return list;
}
