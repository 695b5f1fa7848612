/**
 * The hand-out alone, amid a page that is not to be printed, with invented players. The address says which:
 * ?player=up|down|tuba|broad|one|none|many (&label=…&try=…&theme=…&bands&findings).
 */
import latinUrl from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?url';
import { useMemo, useState } from 'react';
import { createRoot } from 'react-dom/client';
import '../../../src/app/styles/fonts.css';
import '../../../src/app/styles/theme.css';
import '../../../src/app/styles/base.css';
import '../../../src/app/styles/notebook.css';
import '../../../src/staff/signs/signs.css';
import { staffInstrument, readingsInOrder, staffNotes } from '../../../src/app/staffNotes';
import { postureOf } from '../../../src/app/describe';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { shownNote } from '../../../src/notebook/noteNames';
import { HandOutPreview } from '../../../src/print/HandOutPreview';
import { CONTENT_WIDTH_MM } from '../../../src/print/paper';
import { PrintedStaff } from '../../../src/staff/PrintedStaff';
import { printedSystems } from '../../../src/staff/printLayout';
import { staffFonts } from '../../../src/staff/printFonts';
import { inventedFindings, inventedPlayer } from '../../support/handOutPlayers';

const query = new URLSearchParams(location.search);
document.documentElement.dataset['theme'] = query.get('theme') ?? 'paper';
const record = inventedPlayer(query.get('player') ?? 'up');
const analysis = analyse(record);
const bands = query.has('bands') ? computeBands(analysis) : null;
const posture = postureOf(record.player.instrument);
const instrument = staffInstrument(record.player.instrument, null);
const inOrder = readingsInOrder(analysis);
const noteLabel = (note: string): string => shownNote(note, 0);
const rows = posture === 'lap' ? (['forward °', 'left °'] as const) : (['up °', 'right °'] as const);
const fonts = [...staffFonts, { family: 'Source Sans 3', url: latinUrl, weight: '200 900' }];

function Page() {
  const [whatToTry, setWhatToTry] = useState(query.get('try') ?? '');
  const staff = useMemo(
    () => (
      <PrintedStaff
        notes={staffNotes(inOrder, instrument, { sideways: 'player', unit: 'mm', noteNames: 'sounding', shownTransposition: 0 })}
        instrument={instrument}
        swing={inOrder.map(({ reading }) => reading.changeFromHome)}
        rowNames={rows}
        widthMm={CONTENT_WIDTH_MM}
      />
    ),
    [],
  );
  return (
    <>
      <p>Not to be printed: above</p>
      <div className="notebook" style={{ padding: '1rem' }}>
        <section className="chapter">
          <h2>Hand-out</h2>
          <HandOutPreview
            analysis={analysis}
            findings={query.has('findings') ? inventedFindings : null}
            bands={bands}
            label={query.get('label') ?? record.player.label}
            instrumentName={instrument.name}
            posture={posture}
            date="2026-03-01"
            whatToTry={whatToTry}
            noteLabel={noteLabel}
            staff={staff}
            staffSystems={printedSystems(inOrder.length)}
            fonts={fonts}
            onWhatToTry={setWhatToTry}
          />
        </section>
      </div>
      <p style={{ height: 3000 }}>Not to be printed: below</p>
    </>
  );
}

createRoot(document.getElementById('root') as HTMLElement).render(<Page />);
