/** `FileReader` for three's exporter, which pages and workers have and Node has not: reads a whole Blob and tells when it is done. */
class BlobReader {
  result: ArrayBuffer | string | null = null;
  onloadend: (() => void) | null = null;

  readAsArrayBuffer(blob: Blob): void {
    void blob.arrayBuffer().then((buffer) => this.end(buffer));
  }

  readAsDataURL(blob: Blob): void {
    void blob.arrayBuffer().then((buffer) => this.end(`data:${blob.type};base64,${Buffer.from(buffer).toString('base64')}`));
  }

  private end(result: ArrayBuffer | string): void {
    this.result = result;
    this.onloadend?.();
  }
}

export function provideFileReader(): void {
  Object.assign(globalThis, { FileReader: BlobReader });
}
