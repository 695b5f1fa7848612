/** The day on the reader's own clock, as in 2026-03-01: late in the evening it is not yet tomorrow's lesson. */
export function localDay(now = new Date()): string {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}
