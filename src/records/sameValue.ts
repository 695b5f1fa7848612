/** Whether two values read from JSON say the same: the order of fields does not count, nor whether a field is absent or undefined. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, index) => sameValue(item, b[index]));
  }
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const names = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...names].every((name) => sameValue(own(one, name), own(other, name)));
}

function own(of: Record<string, unknown>, name: string): unknown {
  return Object.hasOwn(of, name) ? of[name] : undefined;
}
