/** A scene inside the canvas: mouth, lips, instrument, fan, and what writes the places of the words over it. */
import { useEffect } from 'react';
import { useThree } from '@react-three/fiber';
import type { LiveSource } from '../core/analysis';
import { CameraRig } from './CameraRig';
import type { PictureState } from './dragPlane';
import { Fan, HeldGhost } from './Fan';
import { Instrument } from './Instrument';
import { LightRig } from './LightRig';
import { Lips } from './Lips';
import { Mouth } from './Mouth';
import { Overlay } from './Overlay';
import { usePictureSize } from './pictureSize';
import type { StageProps } from './props';
import { SectionCut } from './SectionCut';
import type { SceneState } from './useScene';

interface ContentsProps {
  readonly props: StageProps;
  readonly scene: SceneState;
  /** False while the scene is only kept ready. */
  readonly seen: boolean;
  readonly onCameraMove: () => void;
}

export function SceneContents({ props, scene, seen, onCameraMove }: ContentsProps) {
  const { arch, rim, lipLineMm, live, camera, horn, theme } = props;
  const { palette, jaws, cut, sheet, restJaw, profiles, view, without, fromFront } = scene;
  return (
    <>
      <color attach="background" args={[palette.background]} />
      <CameraRig view={view} reducedMotion={props.reducedMotion} control={scene.control} onMove={onCameraMove} />
      <PictureProbe picture={scene.picture.current} mirrored={view.mirrored} live={live} changed={props} />
      <LightRig dark={theme === 'projector'} />
      <Mouth jaws={jaws} own={arch.jaw} live={live} palette={palette} cut={cut} />
      {!without.includes('lips') && (
        <Lips sheet={sheet} restJaw={restJaw} ownJaw={arch.jaw} lipLineMm={lipLineMm} live={live} palette={palette} cut={cut} />
      )}
      {scene.cutting && <SectionCut jaws={jaws} own={arch.jaw} sheet={sheet} live={live} palette={palette} plane={scene.plane} />}
      {!without.includes('horn') && (
        <Instrument
          profiles={profiles}
          live={live}
          horn={horn}
          halved={scene.halved}
          seenThrough={fromFront ? 'all' : camera === 'three-quarter' && !props.cutOpen ? 'cup' : 'none'}
          fullScaleKPa={scene.scaleKPa}
          palette={palette}
        />
      )}
      {!without.includes('fan') && (
        <Fan fan={scene.fan} lengthMm={scene.lengthMm} sheetFromMm={profiles.lengthMm * 0.45} selected={props.selected} bold={fromFront ? 0.55 : 1} palette={palette} />
      )}
      {props.showHeldGhost && (
        <HeldGhost live={live} lengthMm={scene.lengthMm} outerRadiusMm={rim.outerDiameterMm / 2 + 0.8} palette={palette} />
      )}
      <Overlay
        live={live}
        labels={scene.labels}
        elements={scene.labelElements}
        handle={scene.handle}
        legend={scene.legend}
        outerRadiusMm={rim.outerDiameterMm / 2}
        mirrored={view.mirrored}
        sight={scene.sight}
        seen={seen}
      />
    </>
  );
}

/** Hands the camera and the picture's size to the drag, and asks for a frame when the live source or a prop changes. */
function PictureProbe({ picture, mirrored, live, changed }: { picture: PictureState; mirrored: boolean; live: LiveSource; changed: StageProps }) {
  const camera = useThree((state) => state.camera);
  const size = usePictureSize();
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    Object.assign(picture, { camera, width: size.width, height: size.height, mirrored });
  }, [picture, camera, size, mirrored]);
  useEffect(() => live.subscribe(() => invalidate()), [live, invalidate]);
  useEffect(() => invalidate(), [changed, invalidate]);
  return null;
}
