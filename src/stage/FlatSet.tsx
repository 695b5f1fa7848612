/** Several flat drawings that divide the place among them: the same as `StageSet` without three dimensions. Only those that are seen are drawn. */
import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import { FlatStage } from './FlatStage';
import { palettes } from './palette';
import type { StageSetProps } from './props';
import { cellsOf } from './stageCells';
import { stageStyle } from './stageStyle';
import { ownStageWords } from './words';

export function FlatSet({ scenes, seen, message }: StageSetProps & { readonly message?: string }) {
  const box = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 2, height: 1 });
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const sizes = new ResizeObserver(() => setSize({ width: element.clientWidth, height: element.clientHeight }));
    sizes.observe(element);
    return () => sizes.disconnect();
  }, []);
  const cells = useMemo(() => cellsOf(seen.length, size.width, size.height), [seen, size]);
  const theme = scenes[0]?.props.theme ?? 'paper';
  return (
    <div ref={box} className="stage-set" style={stageStyle(palettes[theme])}>
      {seen.map((key, index) => {
        const scene = scenes.find((one) => one.key === key);
        const cell = cells[index];
        if (scene === undefined || cell === undefined) return null;
        const { left, top, width, height } = cell;
        return (
          <div key={key} className="stage-cell" style={{ left: `${left * 100}%`, top: `${top * 100}%`, width: `${width * 100}%`, height: `${height * 100}%` }}>
            <FlatStage {...scene.props} />
            {scene.caption}
          </div>
        );
      })}
      <p className="stage-message">{message ?? scenes[0]?.props.words?.noPicture ?? ownStageWords().noPicture}</p>
    </div>
  );
}
