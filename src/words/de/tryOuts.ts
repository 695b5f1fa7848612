import type { TRY_OUTS as ENGLISH } from '../en/tryOuts';
import type { Translation } from '../messageFormat';

export const TRY_OUTS: Translation<typeof ENGLISH> = {
  heading: 'Versuche',
  explained:
    'Eine kleine Änderung, bei denselben Noten versucht und mit dem gewohnten Spiel verglichen. Das Modell sagt, was es von der Änderung erwartet, nicht, ob sie gut ist: Das wird gehört und gespürt.',
  full: 'Eine Stunde fasst bis zu {most} Versuche.',
  begin: 'Ein neuer Versuch',
  whatToTry: 'Was versucht wird',
  holdHorn: 'das Instrument festhalten',
  letFollow: 'das Instrument mitgehen lassen',
  placeHigher: 'den Rand höher ansetzen',
  placeLower: 'den Rand tiefer ansetzen',
  bringRight: 'das Instrument nach rechts führen',
  bringLeft: 'das Instrument nach links führen',
  byHowMuch: 'Um wie viel',
  beginThis: 'Diesen Versuch beginnen',
  numbered: '{number}. {name}',
  notCompared: 'Nicht verglichen.',
  whatWasSeen: 'Was bei diesem Versuch gesehen wurde',
  howItFelt: 'Wie es sich anfühlte und klang',
  tryOut: 'Versuch {number}',
  undoBack: 'Rückgängig machen bringt ihn zurück.',
  addReading: 'Ablesung hinzufügen',
  takeOut: '{note} herausnehmen',

  holdHornSays: 'Der Rand darf wandern, wie er will; das Instrument behält den Winkel der Grundstellung.',
  letFollowSays:
    'Das Instrument darf mitschwenken, wenn der Rand wandert, sodass der Rand auf den in beiden Richtungen gewölbten Zähnen gleichmäßig aufliegt.',
  placeRimSays:
    'Der Rand beginnt an einer anderen Stelle, mit {lip, select, upper {mehr Oberlippe} other {mehr Unterlippe}} darin. Der Weg zählt von der neuen Stelle aus.',
  bringRoundSays: 'Das Instrument zeigt von Anfang an zu einer Seite und wird dort gehalten, was auch immer der Rand tut.',

  expectForce:
    'Bei {note} erwartet das Modell {tried}\u00a0% der Kraft auf der {half, select, upper {oberen} lower {unteren} right {rechten} other {linken}} Hälfte des Rands; mit mitgehendem Instrument wären es {usual}\u00a0%.',
  expectLittle: 'Bei {note} erwartet das Modell kaum einen Schwenk {from, select, home {gegenüber der Grundstellung} other {gegenüber derselben Note wie gewohnt}}.',
  expectSwing: 'Bei {note} erwartet das Modell, dass {clause}, {from, select, home {von der Grundstellung} other {von derselben Note wie gewohnt}} aus gezählt.',
  easeSame:
    '{notes, plural, one {Bei einer Note} other {Bei {notes} Noten}} war die Ansprache so leicht wie gewohnt{spreads, select, yes {; von Note zu Note unterscheidet sich das um {spread}} other {}}.',
  easeOther:
    '{notes, plural, one {Bei einer Note} other {Bei {notes} Noten}} war die Ansprache im Mittel um {size} {way, select, easier {leichter} other {schwerer}} als gewohnt, auf der Skala von 1 (schwer) bis 5 (leicht){spreads, select, yes {; von Note zu Note unterscheidet sich das um {spread}} other {}}.',
  'air-down': 'abwärts',
  'air-up': 'aufwärts',
  'air-unsure': 'unsicher',

  compared: '{name}, verglichen',
  caption: '{name}: jede Note wie gewohnt und im Versuch, mit der Änderung des Instruments, wie sie das Modell erwartet hat und wie sie gesehen wurde',
  note: 'Note',
  played: 'Gespielt',
  air: 'Luft',
  ease: 'Ansprache',
  hornChange: 'Änderung, °',
  asUsual: 'wie gewohnt',
  tried: 'Versuch',
  ascending: ', aufwärts',
  descending: ', abwärts',
  expected: 'erwartet',
  seen: 'gesehen',
  kindHeard: '{kind}: ',
  countedNote:
    'Nach oben und zur Rechten des Spielers ist +. Die Änderung zählt {from, select, home {von der Grundstellung} other {von derselben Note wie gewohnt}} aus: vom Modell {expected} neben dem gewohnten Spiel, {seen} neben dem Versuch; ± ist ein halber 95-%-Bereich.',
};
