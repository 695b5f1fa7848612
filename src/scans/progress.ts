/** Is told now and then how far a job has come, 0 to 1. */
export type Progress = (part: number) => void;
