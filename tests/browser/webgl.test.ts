import { expect, test } from 'vitest';
import { openHtml } from './support/chromium';

/** Draws one triangle over the lower left half of an 8 × 8 canvas and tells what two of its pixels hold. */
const trianglePage = `<!doctype html><canvas id="c" width="8" height="8"></canvas><script>
  const gl = document.getElementById('c').getContext('webgl2', { antialias: false });
  window.pixels = null;
  if (gl) {
    const shader = (type, source) => { const s = gl.createShader(type); gl.shaderSource(s, source); gl.compileShader(s); return s; };
    const program = gl.createProgram();
    gl.attachShader(program, shader(gl.VERTEX_SHADER, '#version 300 es\\nin vec2 at; void main() { gl_Position = vec4(at, 0, 1); }'));
    gl.attachShader(program, shader(gl.FRAGMENT_SHADER, '#version 300 es\\nprecision highp float; out vec4 ink; void main() { ink = vec4(0.2, 0.4, 0.6, 1); }'));
    gl.linkProgram(program);
    gl.useProgram(program);
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, new Float32Array([-1, -1, 1, -1, -1, 1]), gl.STATIC_DRAW);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 2, gl.FLOAT, false, 0, 0);
    gl.clearColor(0, 0, 0, 1);
    gl.clear(gl.COLOR_BUFFER_BIT);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    const pixel = (x, y) => { const p = new Uint8Array(4); gl.readPixels(x, y, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, p); return [...p]; };
    window.pixels = { inside: pixel(1, 1), outside: pixel(6, 6) };
  }
</script>`;

test('the browser draws a triangle with WebGL2', async () => {
  const { page, consoleErrors } = await openHtml(trianglePage);
  expect(await page.evaluate('window.pixels')).toEqual({ inside: [51, 102, 153, 255], outside: [0, 0, 0, 255] });
  expect(consoleErrors).toEqual([]);
});

test('a browser can be had without WebGL', async () => {
  const { page } = await openHtml(trianglePage, { webgl: false });
  expect(await page.evaluate('window.pixels')).toBeNull();
});

test('letters are drawn, not empty boxes', async () => {
  const { page } = await openHtml('<!doctype html><canvas id="c" width="120" height="30"></canvas>');
  const ink = (text: string): Promise<string> =>
    page.evaluate((letters) => {
      const canvas = document.querySelector('canvas') as HTMLCanvasElement;
      const paper = canvas.getContext('2d') as CanvasRenderingContext2D;
      paper.clearRect(0, 0, 120, 30);
      paper.font = '20px sans-serif';
      paper.fillText(letters, 4, 22);
      return canvas.toDataURL();
    }, text);
  const empty = await ink('');
  const one = await ink('H');
  expect(one).not.toBe(empty);
  expect(await ink('O')).not.toBe(one);
});

test('a request that leaves the machine is refused and written down', async () => {
  const visited = await openHtml('<!doctype html><img src="http://192.0.2.1/a.png"><img src="https://example.invalid/b.png">');
  expect(visited.foreignRequests).toEqual(['http://192.0.2.1/a.png', 'https://example.invalid/b.png']);
  expect(visited.consoleErrors).toHaveLength(2);
});
