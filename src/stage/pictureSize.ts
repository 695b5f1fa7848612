/** The size of the picture that a scene is drawn into, CSS px: the whole canvas, or a part of one that several scenes share. */
import { createContext, useContext } from 'react';
import { useThree } from '@react-three/fiber';

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** null: the whole canvas. */
export const PictureSizeContext = createContext<PictureSize | null>(null);

export function usePictureSize(): PictureSize {
  const canvas = useThree((state) => state.size);
  return useContext(PictureSizeContext) ?? canvas;
}
