/** Can this browser draw in three dimensions? Asked once; the probe's context is given back at once. */
let answer: boolean | null = null;

export function supportsWebGL2(): boolean {
  if (answer === null) {
    try {
      const context = document.createElement('canvas').getContext('webgl2');
      answer = context !== null;
      context?.getExtension('WEBGL_lose_context')?.loseContext();
    } catch {
      answer = false;
    }
  }
  return answer;
}
