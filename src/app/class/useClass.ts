/** The class as it is gone through: the teacher's version of it, where it is, and how keys and buttons move it. */
import { useCallback, useEffect, useMemo, useState } from 'react';
import type { ClassPlan } from '../../records/classSchema';
import { classInWords, classes } from '../../records/classes';
import { noteStep, stepInAddress } from '../classDoor';
import { type PlanEdit, type PlannedStep, editedPlan, plannedSteps } from './plan';
import { browserStorage, loadPlan, savePlan } from './planKept';
import { type Position, atStep, back, firstOf, forward, lastOf } from './position';

export interface ClassState {
  readonly plan: ClassPlan;
  readonly steps: readonly PlannedStep[];
  readonly position: Position;
  readonly planned: PlannedStep;
  /** False where this browser keeps nothing. */
  readonly kept: boolean;
  edit(edit: PlanEdit): void;
  forward(): void;
  back(): void;
  first(): void;
  last(): void;
  goTo(stepId: string): void;
}

export function useClass(): ClassState {
  const [spec] = useState(() => classInWords(classes[0]));
  const [plan, setPlan] = useState(() => loadPlan(spec, browserStorage()));
  const [kept, setKept] = useState(true);
  const steps = useMemo(() => plannedSteps(spec, plan), [spec, plan]);
  const [position, setPosition] = useState(() => atStep(steps, stepInAddress(window.location.hash) ?? ''));
  const planned = steps.find(({ step }) => step.id === position.stepId) ?? steps[0]!;

  useEffect(() => noteStep(position.stepId), [position.stepId]);
  useEffect(() => {
    const onHash = (): void => {
      const wanted = stepInAddress(window.location.hash);
      if (wanted !== null && wanted !== '') setPosition((now) => (now.stepId === wanted ? now : atStep(steps, wanted)));
    };
    window.addEventListener('hashchange', onHash);
    return () => window.removeEventListener('hashchange', onHash);
  }, [steps]);

  const edit = useCallback((one: PlanEdit): void => {
    const next = editedPlan(spec, plan, one);
    setPlan(next);
    setKept(savePlan(next, browserStorage()));
  }, [spec, plan]);
  return {
    plan,
    steps,
    position,
    planned,
    kept,
    edit,
    forward: () => setPosition((now) => forward(steps, now)),
    back: () => setPosition((now) => back(steps, now)),
    first: () => setPosition(firstOf(steps)),
    last: () => setPosition(lastOf(steps)),
    goTo: (stepId) => setPosition(atStep(steps, stepId)),
  };
}
