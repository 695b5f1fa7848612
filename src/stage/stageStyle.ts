/** Colours of the stage as custom properties for stage.css. */
import './stage.css';
import type { CSSProperties } from 'react';
import type { StagePalette } from './palette';

export function stageStyle(palette: StagePalette): CSSProperties {
  return {
    '--stage-background': palette.background,
    '--stage-ink': palette.ink,
    '--stage-muted': palette.muted,
    '--stage-hairline': palette.hairline,
    '--stage-label': palette.labelBackground,
    '--stage-predicted': palette.predicted,
    '--stage-measured': palette.measured,
  } as CSSProperties;
}
