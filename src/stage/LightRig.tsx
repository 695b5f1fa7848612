/** Soft light of our own making: a key, a fill, and a painted room for the brass to mirror. Nothing is fetched. */
import { memo, useEffect } from 'react';
import { useThree } from '@react-three/fiber';
import { CubeTexture, DataTexture, DataUtils, HalfFloatType, LinearFilter, LinearMipmapLinearFilter, LinearSRGBColorSpace, RGBAFormat } from 'three';
import { type RoomLevel, roomLevels } from './paintedRoom';

export const LightRig = memo(function LightRig({ dark }: { dark: boolean }) {
  const scene = useThree((state) => state.scene);
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    const room = roomTexture();
    scene.environment = room;
    scene.environmentIntensity = dark ? 0.6 : 0.78;
    invalidate();
    return () => {
      scene.environment = null;
      room.dispose();
    };
  }, [scene, dark, invalidate]);
  return (
    <>
      <directionalLight position={[-70, 110, 120]} intensity={1.55} color="#FFF4E2" />
      <directionalLight position={[110, 20, 90]} intensity={0.5} color="#E9F0FF" />
      <directionalLight position={[-20, -80, 60]} intensity={0.22} color="#FFE9DA" />
    </>
  );
});

/** A cube whose levels are already as rough as three wants them; it takes them as they are. */
function roomTexture(): CubeTexture {
  const [sharpest, ...rougher] = roomLevels().map(facesOf);
  const cube = new CubeTexture(sharpest as unknown as HTMLImageElement[]);
  cube.mipmaps = rougher.map((faces) => ({ width: faces[0]!.image.width, height: faces[0]!.image.height, image: faces }) as unknown as CubeTexture);
  cube.format = RGBAFormat;
  cube.type = HalfFloatType;
  cube.colorSpace = LinearSRGBColorSpace;
  cube.magFilter = LinearFilter;
  cube.minFilter = LinearMipmapLinearFilter;
  cube.generateMipmaps = false;
  cube.isPMREMTexture = true;
  cube.needsUpdate = true;
  return cube;
}

/** three turns what it is given as a cube left for right, so the two sides change places and each row is turned round. */
function facesOf({ size, faces }: RoomLevel): DataTexture[] {
  const [right, left, ...rest] = faces;
  return [left!, right!, ...rest].map((pixels) => {
    const turned = new Uint16Array(pixels.length);
    for (let at = 0; at < size * size; at++) {
      const from = at - (at % size) + (size - 1 - (at % size));
      for (let channel = 0; channel < 4; channel++) turned[4 * at + channel] = DataUtils.toHalfFloat(pixels[4 * from + channel]!);
    }
    return new DataTexture(turned, size, size, RGBAFormat, HalfFloatType);
  });
}
