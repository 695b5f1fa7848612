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
    const renderer = rendererName(context);
    context.getExtension('WEBGL_lose_context')?.loseContext();
    return namesSoftware(renderer) ? 'software' : 'hardware';
  } catch {
    return 'none';
  }
}

/** Some browsers tell by the plain name; others keep that general, and have an extension to ask. */
function rendererName(context: WebGL2RenderingContext): string {
  const plain = String(context.getParameter(context.RENDERER));
  const info = plain === GENERAL_NAME ? context.getExtension('WEBGL_debug_renderer_info') : null;
  return info === null ? plain : String(context.getParameter(info.UNMASKED_RENDERER_WEBGL));
}

const GENERAL_NAME = 'WebKit WebGL';

/** The renderers that browsers and systems fall back on where there is no graphics card or no driver for it. */
export const namesSoftware = (renderer: string): boolean => /swiftshader|llvmpipe|softpipe|basic render|software/i.test(renderer);
