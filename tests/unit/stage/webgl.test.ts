import { expect, test } from 'vitest';
import { namesSoftware } from '../../../src/stage/webgl';

test.each([
  ['ANGLE (Google, Vulkan 1.3.0 (SwiftShader Device (Subzero) (0x0000C0DE)), SwiftShader driver)', true],
  ['llvmpipe (LLVM 15.0.6, 256 bits)', true],
  ['ANGLE (Microsoft, Microsoft Basic Render Driver Direct3D11 vs_5_0 ps_5_0, D3D11)', true],
  ['Apple Software Renderer', true],
  ['ANGLE (Intel, Mesa Intel(R) UHD Graphics 620 (KBL GT2), OpenGL 4.6)', false],
  ['ANGLE (Apple, ANGLE Metal Renderer: Apple M1, Unspecified Version)', false],
  ['Adreno (TM) 640', false],
  ['WebKit WebGL', false],
])('the renderer %s: software %s', (renderer, software) => {
  expect(namesSoftware(renderer)).toBe(software);
});
