/** Works a value out when it is first asked for, and keeps it. */
export function once<T>(make: () => T): () => T {
  let held: { value: T } | undefined;
  return () => {
    held ??= { value: make() };
    return held.value;
  };
}
