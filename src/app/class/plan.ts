/** A class as a teacher has it: their order, what they skip, their own words. Each edit is a new value; nothing of the class itself changes. */
import type { ClassPlan, ClassSpec, ClassStep, StepWords } from '../../records/classSchema';

export interface PlannedStep {
  readonly step: ClassStep;
  /** Shown when the class is gone through. */
  readonly on: boolean;
  /** With the teacher's own words where there are some. */
  readonly title: string;
  readonly words: string;
  readonly toSay: string;
  /** Something of the words is the teacher's own. */
  readonly worded: boolean;
}

export type PlanEdit =
  | { readonly kind: 'move'; readonly id: string; readonly by: 1 | -1 }
  | { readonly kind: 'switch'; readonly id: string; readonly on: boolean }
  | { readonly kind: 'word'; readonly id: string; readonly words: StepWords }
  | { readonly kind: 'words as they came'; readonly id: string }
  | { readonly kind: 'all as it came' };

export const asItCame = (spec: ClassSpec): ClassPlan => ({ classId: spec.id, order: [], shown: {}, words: {} });

/** The steps in the teacher's order. Steps the plan does not know stand where they came, after the one before them. */
export function plannedSteps(spec: ClassSpec, plan: ClassPlan): readonly PlannedStep[] {
  return orderOf(spec, plan).map((step) => {
    const own = plan.words[step.id] ?? {};
    return {
      step,
      on: plan.shown[step.id] ?? step.off !== true,
      title: own.title ?? step.title,
      words: own.words ?? step.words,
      toSay: own.toSay ?? step.toSay,
      worded: Object.keys(own).length > 0,
    };
  });
}

export function editedPlan(spec: ClassSpec, plan: ClassPlan, edit: PlanEdit): ClassPlan {
  switch (edit.kind) {
    case 'move': {
      const order = orderOf(spec, plan).map(({ id }) => id);
      const from = order.indexOf(edit.id);
      const to = from + edit.by;
      if (from < 0 || to < 0 || to >= order.length) return plan;
      order.splice(to, 0, ...order.splice(from, 1));
      return { ...plan, order };
    }
    case 'switch': {
      const steps = plannedSteps(spec, plan);
      const others = steps.some(({ step, on }) => on && step.id !== edit.id);
      // A class without a step could not be shown.
      if (!steps.some(({ step }) => step.id === edit.id) || (!edit.on && !others)) return plan;
      return { ...plan, shown: { ...plan.shown, [edit.id]: edit.on } };
    }
    case 'word': {
      const step = spec.steps.find(({ id }) => id === edit.id);
      if (step === undefined) return plan;
      const words = ownWords(step, { ...plan.words[edit.id], ...edit.words });
      const { [edit.id]: _before, ...others } = plan.words;
      return { ...plan, words: Object.keys(words).length === 0 ? others : { ...others, [edit.id]: words } };
    }
    case 'words as they came': {
      const { [edit.id]: _own, ...others } = plan.words;
      return { ...plan, words: others };
    }
    case 'all as it came':
      return asItCame(spec);
  }
}

export const isAsItCame = (plan: ClassPlan): boolean =>
  plan.order.length === 0 && Object.keys(plan.shown).length === 0 && Object.keys(plan.words).length === 0;

function orderOf(spec: ClassSpec, plan: ClassPlan): readonly ClassStep[] {
  const ordered = plan.order.flatMap((id) => spec.steps.find((step) => step.id === id) ?? []).filter((step, index, all) => all.indexOf(step) === index);
  spec.steps.forEach((step, index) => {
    if (ordered.includes(step)) return;
    const before = spec.steps[index - 1];
    ordered.splice(before === undefined ? 0 : ordered.indexOf(before) + 1, 0, step);
  });
  return ordered;
}

/** What differs from the words that came. A heading cannot be empty: emptied, it is as it came. */
function ownWords(step: ClassStep, words: StepWords): StepWords {
  const { title, words: forRoom, toSay } = words;
  return {
    ...(title !== undefined && title.trim() !== '' && title !== step.title && { title }),
    ...(forRoom !== undefined && forRoom !== step.words && { words: forRoom }),
    ...(toSay !== undefined && toSay !== step.toSay && { toSay }),
  };
}
