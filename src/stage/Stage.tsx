/** The stage in three dimensions: canvas, labels, handle and legend. Draws on demand: when the live frame, the camera or a prop changes. */
import { useEffect, useMemo, useState } from 'react';
import { Canvas } from '@react-three/fiber';
import { FirstPicture } from './FirstPicture';
import { FlatStage } from './FlatStage';
import type { StageProps } from './props';
import { SceneContents } from './SceneContents';
import { SceneSurround } from './SceneSurround';
import { stageStyle } from './stageStyle';
import { COARSE_DPR, useFineness } from './useFineness';
import { useOrbit } from './useOrbit';
import { useScene } from './useScene';
import { FIELD_OF_VIEW_DEG } from './views';

interface ComingProps {
  /** Made ready behind something else: drawn once, and by itself only when it is no longer coming. */
  readonly coming?: boolean;
  /** Told when the first picture of one that is coming has been drawn, or never will be. */
  readonly onDrawn?: () => void;
}

export function Stage({ coming = false, onDrawn, ...props }: StageProps & ComingProps) {
  const [lost, setLost] = useState(false);
  const scene = useScene(props);
  const { palette, view, words, control } = scene;
  const orbit = useOrbit(useMemo(() => [control], [control]), view.mirrored, scene.dragging);
  const fineness = useFineness(props.live, props.fixed);
  useEffect(() => {
    if (lost) onDrawn?.();
  }, [lost, onDrawn]);

  if (lost) return <FlatStage {...props} message={words.contextLost} />;
  return (
    <div ref={scene.box} className="stage" data-theme={props.theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div className={view.mirrored ? 'stage-picture stage-mirrored' : 'stage-picture'} tabIndex={0} aria-label={words.turn} role="group" {...orbit}>
        <Canvas
          frameloop={coming ? 'never' : 'demand'}
          flat
          dpr={coming ? COARSE_DPR : fineness.dpr}
          gl={{ antialias: fineness.antialias, powerPreference: 'high-performance' }}
          camera={{ fov: FIELD_OF_VIEW_DEG, near: 10, far: 2000 }}
          onCreated={({ gl }) => {
            gl.localClippingEnabled = true;
            gl.domElement.addEventListener('webglcontextlost', () => setLost(true), { once: true });
          }}
        >
          <SceneContents props={props} scene={scene} seen={!coming} onCameraMove={fineness.onCameraMove} />
          {coming && onDrawn !== undefined && <FirstPicture onDrawn={onDrawn} />}
          {props.inCanvas}
        </Canvas>
      </div>
      {!coming && <SceneSurround props={props} scene={scene} />}
    </div>
  );
}
