/** The stage in three dimensions: canvas, labels, handle and legend. Draws on demand: when the live frame, the camera or a prop changes. */
import { useMemo, useState } from 'react';
import { Canvas } from '@react-three/fiber';
import { FlatStage } from './FlatStage';
import type { StageProps } from './props';
import { SceneContents } from './SceneContents';
import { SceneSurround } from './SceneSurround';
import { stageStyle } from './stageStyle';
import { useFineness } from './useFineness';
import { useOrbit } from './useOrbit';
import { useScene } from './useScene';
import { FIELD_OF_VIEW_DEG } from './views';

export function Stage(props: StageProps) {
  const [lost, setLost] = useState(false);
  const scene = useScene(props);
  const { palette, view, words, control } = scene;
  const orbit = useOrbit(useMemo(() => [control], [control]), view.mirrored, scene.dragging);
  const fineness = useFineness(props.live, props.fixed);

  if (lost) return <FlatStage {...props} message={words.contextLost} />;
  return (
    <div ref={scene.box} className="stage" data-theme={props.theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div className={view.mirrored ? 'stage-picture stage-mirrored' : 'stage-picture'} tabIndex={0} aria-label={words.turn} role="group" {...orbit}>
        <Canvas
          frameloop="demand"
          flat
          dpr={fineness.dpr}
          gl={{ antialias: fineness.antialias, powerPreference: 'high-performance' }}
          camera={{ fov: FIELD_OF_VIEW_DEG, near: 10, far: 2000 }}
          onCreated={({ gl }) => {
            gl.localClippingEnabled = true;
            gl.domElement.addEventListener('webglcontextlost', () => setLost(true), { once: true });
          }}
        >
          <SceneContents props={props} scene={scene} seen onCameraMove={fineness.onCameraMove} />
          {props.inCanvas}
        </Canvas>
      </div>
      <SceneSurround props={props} scene={scene} />
    </div>
  );
}
