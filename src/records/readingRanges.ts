/** What a reading's numbers and texts may be: one list for the record's schema and for every cell that is typed, pasted or read from a table. */

/** A deviation of 0 would give a reading infinite weight. */
const LEAST_SD = 0.001;

export const TRAVEL_MM = [-60, 60] as const;
export const TRAVEL_SD_MM_RANGE = [LEAST_SD, 20] as const;
export const HORN_DEG = [-80, 80] as const;
export const HORN_SD_DEG_RANGE = [LEAST_SD, 45] as const;
export const JAW_OPENING_MM = [0, 40] as const;
export const JAW_FORWARD_MM = [-30, 30] as const;
export const JAW_HINGE_DEG = [-10, 45] as const;
/** Above the first, up to the second. */
export const FORCE_N = [0, 200] as const;
/** Above the first, below the second. */
export const SHARE = [0, 1] as const;
export const TAKE = [1, 99] as const;
/** 1 hard, 5 easy. */
export const EASE = [1, 5] as const;
export const LONGEST_REMARK = 500;
export const MOST_READINGS = 200;
