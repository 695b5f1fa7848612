/** Soft light of our own making: a key, a fill, and a painted room for the brass to mirror. Nothing is fetched. */
import { useEffect } from 'react';
import { useThree } from '@react-three/fiber';
import { BackSide, BufferAttribute, Color, Mesh, MeshBasicMaterial, PMREMGenerator, Scene, SphereGeometry } from 'three';

export function LightRig({ dark }: { dark: boolean }) {
  const gl = useThree((state) => state.gl);
  const scene = useThree((state) => state.scene);
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    const generator = new PMREMGenerator(gl);
    const room = paintedRoom();
    const target = generator.fromScene(room.scene, 0.03, 0.1, 100, { size: 64 });
    scene.environment = target.texture;
    scene.environmentIntensity = dark ? 0.6 : 0.78;
    invalidate();
    return () => {
      scene.environment = null;
      target.dispose();
      generator.dispose();
      room.dispose();
    };
  }, [gl, scene, dark, invalidate]);
  return (
    <>
      <directionalLight position={[-70, 110, 120]} intensity={1.55} color="#FFF4E2" />
      <directionalLight position={[110, 20, 90]} intensity={0.5} color="#E9F0FF" />
      <directionalLight position={[-20, -80, 60]} intensity={0.22} color="#FFE9DA" />
    </>
  );
}

/** A sphere painted from a warm floor to a bright ceiling, with two soft windows. */
function paintedRoom(): { readonly scene: Scene; dispose(): void } {
  const geometry = new SphereGeometry(10, 48, 32);
  const position = geometry.attributes['position']!;
  const colors = new Float32Array(position.count * 3);
  const floor = new Color('#5A4B3C');
  const wall = new Color('#C9C2B6');
  const ceiling = new Color('#FFFDF8');
  const mixed = new Color();
  for (let index = 0; index < position.count; index++) {
    const x = position.getX(index) / 10;
    const y = position.getY(index) / 10;
    const z = position.getZ(index) / 10;
    if (y < 0) mixed.lerpColors(wall, floor, Math.min(1, -y * 1.4));
    else mixed.lerpColors(wall, ceiling, Math.min(1, y * 1.3));
    const left = Math.exp(-(((x + 0.75) / 0.3) ** 2) - ((y - 0.35) / 0.4) ** 2) * (z > -0.6 ? 1 : 0);
    const right = Math.exp(-(((x - 0.85) / 0.2) ** 2) - ((y - 0.2) / 0.5) ** 2) * (z > -0.6 ? 1 : 0);
    mixed.multiplyScalar(0.8 + 3.2 * left + 1.6 * right);
    colors.set([mixed.r, mixed.g, mixed.b], index * 3);
  }
  geometry.setAttribute('color', new BufferAttribute(colors, 3));
  const material = new MeshBasicMaterial({ vertexColors: true, side: BackSide });
  const scene = new Scene();
  scene.add(new Mesh(geometry, material));
  return {
    scene,
    dispose() {
      geometry.dispose();
      material.dispose();
    },
  };
}
