/** What `work` gives, worked out when it is first asked for. */
export function once<Result>(work: () => Result): () => Result {
  let done: { result: Result } | null = null;
  return () => (done ??= { result: work() }).result;
}
