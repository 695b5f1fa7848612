/** Makes a value when it is first asked for, and keeps it. */
export function onceAsked<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}
