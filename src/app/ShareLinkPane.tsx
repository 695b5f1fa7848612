import { type ReactNode, useMemo } from 'react';
import { useStore } from 'zustand';
import { lessonOf } from '../core/lessons';
import { LinkPart } from '../notebook/share/LinkPart';
import type { ShownLink } from '../notebook/share/props';
import { linkCode } from '../print/linkCode';
import { linkOf } from '../records/pictureLink';
import { pictureOf } from '../records/sharedPicture';
import { linkBase } from './address';
import { choiceFor, sharing } from './sharing';
import { type Given, useGiven } from './useGiven';

/** The picture as a link, worked out anew whenever the picture or what goes along has changed. */
export function ShareLinkPane(): ReactNode {
  const given = useGiven();
  const shared = useStore(sharing);
  const link = useMemo(() => shownLink(given, linkBase()), [given]);
  const { player, lessonId } = given;
  const lesson = lessonOf(player, lessonId);
  return (
    <LinkPart
      choice={choiceFor(shared, player.id)}
      readings={lesson.readings.length}
      tryOuts={lesson.tryOuts.length}
      measurings={lesson.measurings?.length ?? 0}
      onExtent={shared.choose}
      onTicks={(ticks) => shared.tick(player.id, ticks)}
      link={link}
      onHandOn={'share' in navigator ? handOn : null}
    />
  );
}

function shownLink({ player, lessonId, view, choice }: Given, base: string | null): ShownLink {
  if (base === null) return { kind: 'no-address' };
  try {
    const made = linkOf(pictureOf(player, lessonId, view, choice), base);
    return made.kind === 'link' ? { ...made, code: linkCode(made.address) } : made;
  } catch (error) {
    // A value that is being typed may be one that nothing keeps.
    return { kind: 'refused', message: error instanceof Error ? error.message : String(error) };
  }
}

/** The reader may think better of it, which is no fault. */
function handOn(url: string): void {
  navigator.share({ url }).catch(() => undefined);
}
