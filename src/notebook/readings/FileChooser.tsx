import { type ReactNode, useRef } from 'react';

export interface FileChooserProps {
  /** On the button. */
  readonly words: string;
  /** The field's own name. */
  readonly label: string;
  readonly accept: string;
  onFile(file: File): void;
}

/** A button that opens the browser's own choice of a file. */
export function FileChooser({ words, label, accept, onFile }: FileChooserProps): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" onClick={() => input.current?.click()}>
        {words}
      </button>
      <input
        ref={input}
        type="file"
        accept={accept}
        hidden
        aria-label={label}
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          if (file !== undefined) onFile(file);
          // The same file may be chosen again.
          event.target.value = '';
        }}
      />
    </>
  );
}
