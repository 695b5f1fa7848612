/** What lies over a scene as part of the page: labels, the rim's handle, the legend of the pressure. */
import { arrowSide } from './dragPlane';
import { PressureLegend } from './PressureLegend';
import type { StageProps } from './props';
import { RimHandle } from './RimHandle';
import type { SceneState } from './useScene';

export function SceneSurround({ props, scene }: { readonly props: StageProps; readonly scene: SceneState }) {
  const { labels, labelElements, words, without } = scene;
  return (
    <>
      <div className="stage-labels" aria-hidden="true">
        {labels.map((label, index) => (
          <span key={label.id} className={`stage-label stage-label-${label.look}`} ref={(element) => void (labelElements.current[index] = element)}>
            {label.text}
          </span>
        ))}
      </div>
      {!without.includes('handle') && (
        <RimHandle
          live={props.live}
          words={words}
          handle={scene.handle}
          pointUnder={scene.under}
          arrowRight={() => arrowSide(scene.picture.current)}
          onDragStart={() => {
            scene.setDragging(true);
            props.onDragStart();
          }}
          onDragTravel={props.onDragTravel}
          onDragEnd={() => {
            scene.setDragging(false);
            props.onDragEnd();
          }}
          onNudge={props.onNudge}
        />
      )}
      {!without.includes('pressure') && <PressureLegend scaleKPa={scene.scaleKPa} words={words} box={scene.legend} />}
    </>
  );
}
