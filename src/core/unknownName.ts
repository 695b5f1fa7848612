/** By what each thing that is not known goes; `unknownWords` says it. */
export type UnknownName =
  | 'arch form' | 'force' | 'home place' | 'travel up' | 'travel to the side' | "jaw's opening" | 'jaw forward or back'
  | 'upper arch form further back' | 'lower arch form further back' | 'overjet' | 'overbite'
  | `${'upper' | 'lower'} ${"lip's thickness" | "lip's firmness" | 'arch form' | ProfileUnknown}`;

export type ProfileUnknown = "teeth's inclination" | "teeth's height" | "crown's roundness" | "gum's roundness" | "gum's slope";
