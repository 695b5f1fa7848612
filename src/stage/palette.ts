/** Colours of the two themes. Brass is for the instrument only; meanings are carried by shape as well (round, square, dashed). */
export interface StagePalette {
  readonly background: string;
  readonly ink: string;
  readonly muted: string;
  readonly hairline: string;
  readonly labelBackground: string;
  readonly brass: string;
  readonly brassCut: string;
  readonly predicted: string;
  readonly measured: string;
  readonly held: string;
  readonly ivory: string;
  readonly ivoryNeck: string;
  readonly gum: string;
  readonly skin: string;
  readonly vermilion: string;
  readonly mouthDark: string;
  /** Cut faces of the side view. */
  readonly lipCut: string;
  readonly sectionLine: string;
  /** Share of the lips' opacity: a dark background shows through more. */
  readonly lipOpacity: number;
}

export const palettes: Readonly<Record<'paper' | 'projector', StagePalette>> = {
  paper: {
    background: '#FBF8F3',
    ink: '#1D2330',
    muted: '#5B6472',
    hairline: '#DDD5C8',
    labelBackground: 'rgb(251 248 243 / 0.86)',
    brass: '#A87B1E',
    brassCut: '#CFA95B',
    predicted: '#00695C',
    measured: '#B4470E',
    held: '#5B6472',
    ivory: '#FBF4E4',
    ivoryNeck: '#E9D5AE',
    gum: '#CFA09A',
    skin: '#E4B89C',
    vermilion: '#B9645F',
    mouthDark: '#4A2B2B',
    lipCut: '#E6B9A4',
    sectionLine: '#5B4A42',
    lipOpacity: 1,
  },
  projector: {
    background: '#14181F',
    ink: '#F4EFE6',
    muted: '#B4BCC9',
    hairline: '#3A4250',
    labelBackground: 'rgb(20 24 31 / 0.82)',
    brass: '#D9A53A',
    brassCut: '#E8C57A',
    predicted: '#4FD6C2',
    measured: '#FF9A5C',
    held: '#B4BCC9',
    ivory: '#F6EEDC',
    ivoryNeck: '#E2CDA6',
    gum: '#C08A86',
    skin: '#D9A98C',
    vermilion: '#C4716B',
    mouthDark: '#2E1A1A',
    lipCut: '#D8A48D',
    sectionLine: '#2A2320',
    lipOpacity: 1.4,
  },
};
