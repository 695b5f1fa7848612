import type { KEEPING as ENGLISH } from '../en/keeping';
import type { Translation } from '../messageFormat';

export const KEEPING: Translation<typeof ENGLISH> = {
  missing: 'Dieser Browser hat keinen Ort, an dem eine Seite etwas aufbewahren kann; es bleibt also nichts erhalten: vor dem Schließen eine Datei sichern.',
  cannotKeep:
    'Dieser Browser lässt die Seite nichts aufbewahren (ein privates Fenster oder eine Einstellung); es bleibt also nichts erhalten: vor dem Schließen eine Datei sichern.',
  newerDatabase:
    'Eine neuere Version dieses Programms bewahrt Spieler in diesem Browser auf. Sie bleiben, wie sie sind; die Seite neu laden, um jene Version zu bekommen. Bis dahin bleibt nichts erhalten: vor dem Schließen eine Datei sichern.',
  noAnswer:
    'Der Speicher des Browsers antwortet nicht. Andere Tabs dieser Seite schließen und sie neu laden; bis dahin bleibt nichts erhalten: vor dem Schließen eine Datei sichern.',
  otherTabOld:
    'Eine ältere Version dieser Seite ist in einem anderen Tab offen. Jenen Tab schließen und diesen neu laden; bis dahin bleibt nichts erhalten: vor dem Schließen eine Datei sichern.',
  takenByNewer: 'Eine neuere Version dieser Seite wurde in einem anderen Tab geöffnet; hier bleibt nichts mehr erhalten: eine Datei sichern, dann neu laden.',
  full: 'Der Speicher des Browsers ist voll, die letzten Änderungen bleiben nicht erhalten: eine Datei sichern, dann in den Einstellungen des Browsers Platz schaffen.',
  unreadable:
    'Die letzten Änderungen bleiben nicht erhalten, weil sie sich nicht wieder lesen ließen ({fault}). Sie rückgängig machen oder ändern, was hier genannt ist; was vorher aufbewahrt war, bleibt.',
  failed:
    'Der Speicher des Browsers hat versagt{named, select, yes { ({name})} other {}}, die letzten Änderungen bleiben nicht erhalten: vor dem Schließen eine Datei sichern.',
  damagedRow: 'Was unter {id} aufbewahrt ist, lässt sich nicht lesen und bleibt, wie es ist: {why}',
  oldUnreadable: 'Der in diesem Browser aufbewahrte Datensatz lässt sich nicht lesen: {why}',
  oldNotTaken: 'Der in diesem Browser aufbewahrte Datensatz ließ sich nicht übernehmen.',

  openElsewhere: 'Dieser Spieler ist in einem anderen Tab offen und wird hier nur gezeigt.',
  noRelease: 'Der andere Tab gibt diesen Spieler nicht frei. Jenen Tab schließen, dann noch einmal versuchen.',
  keptBoth: 'Ein anderer Tab hat diesen Spieler auch geändert, deshalb bleiben beide erhalten; dieser hier ist jetzt die Kopie aus diesem Tab.',
  keptAgain: 'Dieser Spieler war in einem anderen Tab entfernt worden. Er wird wieder aufbewahrt, weil er hier geändert wurde.',
  copyEnding: ' (Kopie aus diesem Tab)',
  newPlayer: 'Neuer Spieler',

  measuringGone: 'Die Messung, aus der diese Ablesung stammt, ist gelöscht; ihr Bild kann nicht gezeigt werden.',
  measuringUnreadable: 'Die Messung, aus der diese Ablesung stammt, lässt sich nicht lesen ({why}).',
  measuringWithoutPicture: 'Die Messung, aus der diese Ablesung stammt, enthält ihr Bild nicht mehr.',
  deletingMeasuring:
    'Ihre Marken und was verfolgt wurde, werden gelöscht, auch ein mit ihr aufbewahrter Film. {count, plural, =0 {Keine Ablesung stammt aus ihr.} one {Die {count} Ablesung, die aus ihr stammt, bleibt, lässt sich aber nicht mehr zu einem Bild zurückverfolgen oder neu messen.} other {Die {count} Ablesungen, die aus ihr stammen, bleiben, lassen sich aber nicht mehr zu einem Bild zurückverfolgen oder neu messen.}}',

  labelBecomes: 'Bezeichnung: aus „{before}“ wird „{after}“',
  instrumentBecomes: 'Instrument: aus {before} wird {after}',
  otherArch: 'der Zahnbogen ist ein anderer',
  otherLips: 'die Lippen sind andere',
  lessonsMore: '{count, plural, one {{count} Stunde} other {{count} Stunden}} mehr: {lessons}',
  lessonsFewer: '{count, plural, one {{count} Stunde} other {{count} Stunden}} weniger: {lessons} {count, plural, one {ginge} other {gingen}} verloren',
  lessonChanges: 'Stunde {lesson}: {changes}',
  lessonsOrder: 'die Stunden stehen in anderer Reihenfolge',
  lessonWithoutDay: 'ohne Tag ({id})',
  lessonOf: 'vom {date}',
  dayBecomes: 'ihr Tag wird {date}',
  dayUnknown: 'unbekannt',
  theRim: 'der Rand',
  theForce: 'die Kraft',
  theHome: 'die Grundstellung',
  theShare: 'der Oberlippenanteil',
  theRemark: 'die Bemerkung',
  theHomework: 'was zu Hause zu versuchen ist',
  and: '{first} und {second}',
  changed: '{parts} geändert',
  readingsChanged: '{count, plural, one {{count} Ablesung} other {{count} Ablesungen}} geändert',
  readingsMore: '{count, plural, one {{count} Ablesung} other {{count} Ablesungen}} mehr',
  readingsFewer: '{count, plural, one {{count} Ablesung} other {{count} Ablesungen}} weniger',
  readingsOrder: 'die Ablesungen stehen in anderer Reihenfolge',
  tryOutsChanged: '{count, plural, one {{count} Versuch} other {{count} Versuche}} geändert',
  tryOutsMore: '{count, plural, one {{count} Versuch} other {{count} Versuche}} mehr',
  tryOutsFewer: '{count, plural, one {{count} Versuch} other {{count} Versuche}} weniger',
  measuringsChanged: '{count, plural, one {{count} Messung} other {{count} Messungen}} geändert',
  measuringsMore: '{count, plural, one {{count} Messung} other {{count} Messungen}} mehr',
  measuringsFewer: '{count, plural, one {{count} Messung} other {{count} Messungen}} weniger',
};
