/**
 * Draws the first picture of a canvas that draws nothing by itself yet, and tells when that has really been drawn. Neither the page nor the graphics are kept
 * for long meanwhile, or nothing else would move: programs are made beside the page where the browser can, each thing is drawn for the first
 * time by itself, and the graphics are asked now and then whether they are done.
 */
import { useEffect } from 'react';
import { type RootState, useThree } from '@react-three/fiber';
import { Line, Mesh, type Scene, type WebGLRenderer } from 'three';

/** Between two questions whether the picture is drawn, ms. */
const ASK_EVERY_MS = 25;

export function FirstPicture({ onDrawn }: { readonly onDrawn: () => void }) {
  const get = useThree((state) => state.get);
  const hasSize = useThree((state) => state.size.width > 0);
  useEffect(() => {
    if (!hasSize) return undefined;
    const left = new AbortController();
    void draw(get(), left.signal).then(() => {
      if (!left.signal.aborted) onDrawn();
    });
    return () => left.abort();
  }, [get, hasSize, onDrawn]);
  return null;
}

async function draw(state: RootState, left: AbortSignal): Promise<void> {
  const { gl, scene, camera, internal } = state;
  const context = gl.getContext() as WebGL2RenderingContext;
  await gl.compileAsync(scene, camera);
  if (left.aborted) return;
  // The camera and all that moves go to their places in the first turn of the frame loop, which draws nothing where somebody else is said to draw.
  internal.priority += 1;
  state.advance(performance.now(), false);
  internal.priority -= 1;
  await eachByItself(scene, gl, () => gl.render(scene, camera), left);
  if (left.aborted) return;
  state.advance(performance.now(), false);
  await allDone(context, left);
}

/**
 * Into a single pixel, one thing a frame: what a thing costs for the first time is the making ready of its program, not its size, and between two of them the
 * graphics come to draw the page.
 */
async function eachByItself(scene: Scene, gl: WebGLRenderer, render: () => void, left: AbortSignal): Promise<void> {
  const seen: (Mesh | Line)[] = [];
  scene.traverseVisible((object) => void ((object instanceof Mesh || object instanceof Line) && seen.push(object)));
  const drawn = new Set<unknown>();
  for (const one of seen) {
    if (drawn.has(one.material)) continue;
    drawn.add(one.material);
    for (const other of seen) other.visible = other === one;
    gl.setScissorTest(true);
    gl.setScissor(0, 0, 1, 1);
    render();
    gl.setScissorTest(false);
    for (const other of seen) other.visible = true;
    gl.getContext().flush();
    await new Promise(requestAnimationFrame);
    if (left.aborted) return;
  }
}

/**
 * A fence behind all that was asked for; a context that is lost answers as if it had been passed. One pixel is asked for before it, into a buffer
 * that nobody reads: as long as more might be drawn into the same picture some graphics put off all of it, and the fence with it.
 */
async function allDone(gl: WebGL2RenderingContext, left: AbortSignal): Promise<void> {
  const buffer = gl.createBuffer();
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, buffer);
  gl.bufferData(gl.PIXEL_PACK_BUFFER, 4, gl.STREAM_READ);
  gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, 0);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, null);
  const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
  gl.flush();
  while (fence !== null && !left.aborted && gl.clientWaitSync(fence, 0, 0) === gl.TIMEOUT_EXPIRED) {
    await new Promise((done) => setTimeout(done, ASK_EVERY_MS));
  }
  gl.deleteSync(fence);
  gl.deleteBuffer(buffer);
}
