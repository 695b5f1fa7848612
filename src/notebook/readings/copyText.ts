/** Puts a text on the clipboard; false where the browser does not allow it. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyBySelection(text);
  }
}

/** Pages that were opened from a file have no clipboard of the newer kind. */
function copyBySelection(text: string): boolean {
  const before = document.activeElement;
  const field = document.createElement('textarea');
  field.value = text;
  field.className = 'only-heard';
  document.body.append(field);
  field.select();
  const copied = document.execCommand('copy');
  field.remove();
  if (before instanceof HTMLElement) before.focus();
  return copied;
}
