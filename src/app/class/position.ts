/** Where a class is: at which step, and whether its question has been answered yet. A step with a question takes two keys, others one. */
import type { PlannedStep } from './plan';

export interface Position {
  readonly stepId: string;
  /** The picture has shown what happens; always so in a step that asks nothing. */
  readonly shown: boolean;
}

/** The start of a step, or of the first one that is shown. */
export function atStep(steps: readonly PlannedStep[], stepId: string): Position {
  const on = steps.filter((one) => one.on);
  const found = steps.find(({ step }) => step.id === stepId) ?? on[0] ?? steps[0];
  if (found === undefined) throw new RangeError('atStep: no steps; allowed: at least one');
  return startOf(found);
}

export function forward(steps: readonly PlannedStep[], position: Position): Position {
  if (!position.shown) return { ...position, shown: true };
  const next = neighbour(steps, position, 1);
  return next === undefined ? position : startOf(next);
}

/** Back over an answer to its question, back from a step to the last of the step before. */
export function back(steps: readonly PlannedStep[], position: Position): Position {
  const here = steps.find(({ step }) => step.id === position.stepId);
  if (position.shown && here?.step.question !== undefined) return startOf(here);
  const before = neighbour(steps, position, -1);
  return before === undefined ? position : { stepId: before.step.id, shown: true };
}

export function firstOf(steps: readonly PlannedStep[]): Position {
  return atStep(steps, '');
}

export function lastOf(steps: readonly PlannedStep[]): Position {
  const last = steps.findLast((one) => one.on) ?? steps.at(-1);
  return atStep(steps, last?.step.id ?? '');
}

const startOf = ({ step }: PlannedStep): Position => ({ stepId: step.id, shown: step.question === undefined });

/** The nearest step that is shown, on either side; a step that was switched off is still a place to go on from. */
function neighbour(steps: readonly PlannedStep[], { stepId }: Position, by: 1 | -1): PlannedStep | undefined {
  const at = steps.findIndex(({ step }) => step.id === stepId);
  const rest = by > 0 ? steps.slice(at + 1) : steps.slice(0, Math.max(0, at)).toReversed();
  return rest.find((one) => one.on);
}
