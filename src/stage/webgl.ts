/** How this browser draws in three dimensions. Asked once; the probe's context is given back at once. */
export type Drawing = 'none' | 'software' | 'hardware';

let answer: Drawing | null = null;

export const supportsWebGL2 = (): boolean => drawing() !== 'none';

/** Without a graphics card a picture takes tenths of a second: it is worth drawing less finely while it moves. */
export const drawsInSoftware = (): boolean => drawing() === 'software';

function drawing(): Drawing {
  answer ??= probe();
  return answer;
}

function probe(): Drawing {
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    if (context === null) return 'none';
    // The extension says more than the plain name where there is one; some browsers have it no longer, and tell by the plain name.
    const info = context.getExtension('WEBGL_debug_renderer_info');
    const renderer: unknown = context.getParameter(info?.UNMASKED_RENDERER_WEBGL ?? context.RENDERER);
    context.getExtension('WEBGL_lose_context')?.loseContext();
    return namesSoftware(String(renderer)) ? 'software' : 'hardware';
  } catch {
    return 'none';
  }
}

/** The renderers that browsers and systems fall back on where there is no graphics card or no driver for it. */
export const namesSoftware = (renderer: string): boolean => /swiftshader|llvmpipe|softpipe|basic render|software/i.test(renderer);
