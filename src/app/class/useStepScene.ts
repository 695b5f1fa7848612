/** A step made ready to be seen: who is in it, what moves them, and the scenes of the picture. Other steps' players are made ready while nothing else is to be done. */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { NoteNaming } from '../../core/noteNaming';
import type { ClassStep, ClassWho } from '../../records/classSchema';
import { teeth } from '../../records/library';
import type { StagePart, StageProps, StageWords } from '../../stage/props';
import { useApp } from '../SessionContext';
import { prefersReducedMotion, usePrefersReducedMotion } from '../capabilities';
import { postureOf, shownTransposition, stageWords } from '../describe';
import { type Follower, createFollower } from '../follower';
import { type Actor, type Cast, createCast, whoKey } from './cast';
import { type ClassMotion, createClassMotion } from './motion';
import type { PlannedStep } from './plan';
import { swingLabel } from './words';

export interface StepScene {
  /** null where one of them cannot be shown. */
  readonly actors: readonly Actor[] | null;
  readonly followers: readonly Follower[];
  readonly motion: ClassMotion;
  readonly scenes: readonly { readonly key: string; readonly props: StageProps }[];
  readonly seen: readonly string[];
}

/** Milliseconds after the first picture, and between one player made ready and the next. */
const READY_AFTER_MS = 700;

export function useStepScene(steps: readonly PlannedStep[], step: ClassStep): StepScene {
  const own = useApp((state) => state.analysis);
  const naming = useApp((state) => state.settings.naming);
  const transposition = useApp(shownTransposition);
  const reducedMotion = usePrefersReducedMotion();
  const cast = useMemo(() => createCast(own), [own]);
  const acting = useMemo(() => actingIn(cast, step), [cast, step]);
  const { motion } = acting;
  useEffect(() => motion.dispose, [motion]);
  const ready = useMadeReady(cast, steps, step);

  // A player who has been seen is kept as last seen: what is not looked at need not be drawn anew at every step.
  const [lastSeen] = useState(() => new Map<string, StageProps>());
  const scenes = useMemo(() => {
    const propsOf = (actor: Actor, follower: Follower, of: ClassStep, moving: ClassMotion): StageProps => {
      const without: StagePart[] = [...of.shows.without, ...(of.plays.kind === 'room' ? [] : (['handle'] as const))];
      return {
        arch: actor.arch,
        teeth,
        rim: actor.analysis.record.rim,
        lips: actor.analysis.record.lips,
        lipLineMm: actor.analysis.home.lipLineMm,
        analysis: actor.analysis,
        path: without.includes('fan') ? NO_PATH : actor.path(of.view),
        live: follower,
        selected: null,
        camera: of.camera,
        horn: of.horn,
        showToothNumbers: of.shows.toothNumbers,
        showHeldGhost: of.shows.heldGhost,
        cutOpen: of.shows.cutOpen,
        without,
        theme: 'projector',
        reducedMotion,
        onDragStart: moving.pause,
        onDragTravel: moving.put,
        onDragEnd: NOTHING_TO_DO,
        onNudge: ({ upMm, rightMm }) => {
          const from = follower.current()?.travel ?? { upMm: 0, rightMm: 0 };
          moving.put({ upMm: from.upMm + upMm, rightMm: from.rightMm + rightMm });
        },
        words: classWords(actor, transposition, naming),
      };
    };
    const here = (acting.actors ?? []).map((actor, index) => ({ key: acting.keys[index]!, props: propsOf(actor, acting.followers[index]!, step, motion) }));
    for (const { key, props } of here) lastSeen.set(key, props);
    const others = ready
      .filter(({ key }) => !acting.keys.includes(key))
      .map(({ key, actor, of, still, motion: rest }) => {
        const seenBefore = lastSeen.get(key);
        const props = seenBefore?.analysis === actor.analysis ? seenBefore : propsOf(actor, still, of, rest);
        lastSeen.set(key, props);
        return { key, props };
      });
    return [...here, ...others];
  }, [acting, ready, step, motion, lastSeen, reducedMotion, transposition, naming]);
  return { actors: acting.actors, followers: acting.followers, motion, scenes, seen: acting.keys };
}

/** As on the page, but an angle that is as at home takes one short phrase: what stands in the picture here is large. */
function classWords({ analysis }: Actor, transposition: number, naming: NoteNaming): StageWords {
  const words = stageWords(analysis, transposition, naming);
  const home = analysis.home.follow.pose;
  const posture = postureOf(analysis.record.player.instrument);
  return {
    ...words,
    hornAngle: ({ elevationDeg, lateralDeg }) => swingLabel(posture, { elevationDeg: elevationDeg - home.elevationDeg, lateralDeg: lateralDeg - home.lateralDeg }),
  };
}

const NO_PATH: StageProps['path'] = [];
const NOTHING_TO_DO = (): void => undefined;

interface Acting {
  readonly actors: readonly Actor[] | null;
  readonly followers: readonly Follower[];
  readonly keys: readonly string[];
  readonly motion: ClassMotion;
}

function actingIn(cast: Cast, step: ClassStep): Acting {
  const found = step.who.map((who) => cast.actor(who));
  const actors = found.every((one) => one !== null) ? found : null;
  const options = { horn: step.horn, view: step.view };
  const followers = (actors ?? []).map((actor) => createFollower(() => ({ analysis: actor.analysis, live: actor.live, options })));
  const motion = createClassMotion({ plays: step.plays, actors: actors ?? [], followers, reducedMotion: prefersReducedMotion, clock: browserClock });
  return { actors, followers, keys: actors === null ? [] : sceneKeys(step), motion };
}

/** The same player twice in one step has two scenes. */
function sceneKeys(step: ClassStep): string[] {
  return step.who.map((who, index) => (index > 0 && whoKey(who) === whoKey(step.who[0]!) ? `${whoKey(who)} again` : whoKey(who)));
}

const browserClock = {
  request: (callback: (timeMs: number) => void) => window.requestAnimationFrame(callback),
  cancel: (handle: number) => window.cancelAnimationFrame(handle),
};

interface ReadyScene {
  readonly key: string;
  readonly actor: Actor;
  /** The step it will first be seen in. */
  readonly of: ClassStep;
  readonly still: Follower;
  readonly motion: ClassMotion;
}

/** One player after the other, the nearest steps first; each only once the one before stands, so that the hand is not kept waiting. */
function useMadeReady(cast: Cast, steps: readonly PlannedStep[], step: ClassStep): readonly ReadyScene[] {
  const [state, setState] = useState<{ readonly cast: Cast; readonly scenes: readonly ReadyScene[] }>({ cast, scenes: [] });
  const scenes = state.cast === cast ? state.scenes : NOBODY;
  const wanted = useRef<readonly { readonly who: ClassWho; readonly of: ClassStep }[]>([]);
  useEffect(() => {
    const at = steps.findIndex((one) => one.step.id === step.id);
    wanted.current = [...steps.slice(at), ...steps.slice(0, at)].filter(({ on }) => on).flatMap((one) => one.step.who.map((who) => ({ who, of: one.step })));
    const timer = setTimeout(() => {
      const next = wanted.current.find(({ who }) => !scenes.some(({ key }) => key === whoKey(who)) && cast.actor(who) !== null);
      if (next === undefined) return;
      const acting = actingIn(cast, next.of);
      const index = next.of.who.indexOf(next.who);
      const actor = acting.actors?.[index];
      if (actor === undefined) return;
      setState({ cast, scenes: [...scenes, { key: actor.key, actor, of: next.of, still: acting.followers[index]!, motion: acting.motion }] });
    }, READY_AFTER_MS);
    return () => clearTimeout(timer);
  }, [cast, steps, step, scenes]);
  return scenes;
}

const NOBODY: readonly ReadyScene[] = [];
