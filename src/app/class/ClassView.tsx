/** The class view: one step after the other over the whole screen, in the projector theme, driven by keys, pointer or a presenter's clicker. */
import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { shownMidi } from '../../notebook/noteNames';
import { useApp, useSession } from '../SessionContext';
import { leaveClass } from '../classDoor';
import { postureOf, shownTransposition } from '../describe';
import { ClassBar } from './ClassBar';
import { ClassStage } from './ClassStage';
import { PlanPanel } from './PlanPanel';
import { QuestionPart } from './QuestionPart';
import { YourTurn } from './YourTurn';
import { answerOf, endFrame, stepSentences } from './answer';
import { useClass } from './useClass';
import { useClassKeys } from './useClassKeys';
import { useFullScreen } from './useFullScreen';
import { useSound } from './useSound';
import { useStepScene } from './useStepScene';
import { answersFor } from './words';
import './class.css';
import { sayClass } from '../../words/class';

export function ClassView(): ReactNode {
  const { playhead } = useSession();
  const state = useClass();
  const { steps, position, planned } = state;
  const { step, title, words, toSay } = planned;
  const scene = useStepScene(steps, step);
  const { actors, motion } = scene;
  const [saying, setSaying] = useState(false);
  const [planning, setPlanning] = useState(false);
  const [sound, setSound] = useState(false);
  useSound(scene, sound);
  const root = useRef<HTMLDivElement>(null);
  const planButton = useRef<HTMLButtonElement>(null);
  const noteName = useNoteName();
  useProjector(root);
  useEffect(() => playhead.pause(), [playhead]);
  useEffect(() => {
    if (position.shown) motion.play();
    else motion.toStart();
  }, [motion, position]);

  const toKeys = useCallback((): void => root.current?.focus({ preventScroll: true }), []);
  const closePlan = useCallback((): void => {
    setPlanning(false);
    planButton.current?.focus();
  }, []);
  const screen = useFullScreen(leaveClass);
  const { forward, back, first, last } = state;
  useClassKeys({ forward, back, first, last, leave: planning ? closePlan : leaveClass, leaveField: toKeys });

  const lead = actors?.[0] ?? null;
  const answers = step.question === undefined || lead === null ? null : answersFor(step.question.about, postureOf(lead.analysis.record.player.instrument));
  const ended = useEnded(motion) && position.shown;
  const answer = useMemo(() => {
    const end = lead === null ? null : endFrame(step, lead);
    return step.question === undefined || lead === null || end === null ? null : answerOf(step.question.about, lead, end);
  }, [step, lead]);
  const seen = useMemo(() => stepSentences(step, actors ?? [], noteName), [step, actors, noteName]);
  const each = ended ? seen.each : NOTHING_SAID;
  const on = steps.filter((one) => one.on);
  const at = on.indexOf(planned);
  const count = at < 0 ? sayClass('countedOff') : sayClass('counted', { at: at + 1, of: on.length });
  const moves = step.plays.kind === 'line' || step.plays.kind === 'path';
  const isPair = step.who.length > 1;
  const toSpeaker = saying && toSay !== '' ? <p className="klass__say">{toSay}</p> : null;

  return (
    <div ref={root} className={isPair ? 'klass klass--pair' : 'klass'} tabIndex={-1} onPointerUp={(event) => giveKeysBack(event.target, toKeys)}>
      <main className="klass__main">
        <h1 className="only-heard">{sayClass('name')}</h1>
        <section className="klass__words" aria-label={title} tabIndex={0} data-scrolls-by-keys>
          <h2 className="klass__title">{title}</h2>
          <p className="klass__text">{words}</p>
          {step.question !== undefined && answers !== null ? (
            <QuestionPart key={step.id} question={step.question.words} answers={answers} answer={ended ? answer : null} />
          ) : null}
          {step.plays.kind === 'room' && lead !== null ? (
            <YourTurn key={lead.key} actor={lead} follower={scene.followers[0]!} motion={motion} noteName={noteName} />
          ) : null}
          {ended && seen.together !== null ? <Result words={seen.together} /> : null}
          {isPair ? toSpeaker : null}
        </section>
        <section className="klass__stage" aria-label={sayClass('picture')}>
          <ClassStage step={step} scene={scene} said={each} noteName={noteName} />
        </section>
        {isPair ? null : toSpeaker}
        {planning ? <PlanPanel state={state} onClose={closePlan} /> : null}
      </main>
      <ClassBar
        count={count}
        motion={motion}
        plays={moves && position.shown && actors !== null}
        toSay={saying}
        sound={step.plays.kind === 'path' ? sound : null}
        planning={planning}
        screen={screen}
        planButton={planButton}
        onForward={forward}
        onBack={back}
        onToSay={() => setSaying(!saying)}
        onSound={() => setSound(!sound)}
        onPlanning={() => setPlanning(!planning)}
        onLeave={leaveClass}
      />
      <p className="only-heard" aria-live="polite">
        {sayClass('announced', { at: count, title, words })} {step.question !== undefined && !position.shown ? step.question.words : null}
        {ended ? [answers !== null && answer !== null ? `${answers[answer]}.` : '', ...seen.each, seen.together ?? ''].join(' ') : null}
      </p>
    </div>
  );
}

const NOTHING_SAID: readonly string[] = [];

/** In a window that is too low for all the words, what was just shown is what has to be read. */
function Result({ words }: { readonly words: string }): ReactNode {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => line.current?.scrollIntoView({ block: 'nearest' }), [words]);
  return (
    <p ref={line} className="klass-result">
      {words}
    </p>
  );
}

/** Once a step has come to its end its numbers stay, also while it is played again. */
function useEnded(motion: { subscribe(listener: () => void): () => void; stands(): string }): boolean {
  const atEnd = useSyncExternalStore(motion.subscribe, () => motion.stands() === 'end');
  const [kept, setKept] = useState<unknown>(null);
  if (atEnd && kept !== motion) setKept(motion);
  return atEnd || kept === motion;
}

function useNoteName(): (midi: number) => string {
  const naming = useApp((state) => state.settings.naming);
  const transposition = useApp(shownTransposition);
  return useCallback((midi: number) => shownMidi(midi, transposition, naming), [transposition, naming]);
}

/** The projector's colours as long as the class lasts, and the keys with the class from its start. */
function useProjector(root: { readonly current: HTMLElement | null }): void {
  useEffect(() => {
    const { dataset } = document.documentElement;
    const before = dataset['theme'];
    dataset['theme'] = 'projector';
    root.current?.focus({ preventScroll: true });
    return () => {
      if (before !== undefined) dataset['theme'] = before;
    };
  }, [root]);
}

/** After a press on the picture or on plain words the next arrow key is a step again; who comes to them by Tab turns or scrolls them by keys. */
function giveKeysBack(target: EventTarget, toKeys: () => void): void {
  if (!(target instanceof Element)) return;
  const isWords = target.closest('.klass__words') !== null && target.closest(':is(input,select,textarea,button,label)') === null;
  if (isWords || target.closest('.klass__stage') !== null) toKeys();
}
