import { Button } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { Link, useNavigate } from 'react-router';
import { FIRST_STEPS, type FirstSteps } from '../../api/founders.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { useOfTheHouse } from '../../session/may.js';
import { FoundersForm } from '../founders/founders-form.js';
import { NewLineForm } from '../lines/line-form.js';
import { SheetStarts } from '../score-sheets/sheet-starts.js';
import { NewSpawnForm } from '../spawn-list/new-spawn-form.js';
import { nextStep, type Step, stepsDone } from './steps.js';

/** An empty book: a line, its founders, the first pair, and what to score. */
export function StartScreen() {
  const read = useRead(FIRST_STEPS, {});
  return (
    <Screen
      title="Begin your book"
      lead="A line, its founders, then the first pair. Each step can be left for later."
      links={
        <Link className="lw-link-button" to="/import">
          Import a spreadsheet instead
        </Link>
      }
    >
      <Shown read={read} what="your book">
        {(found) => <Steps found={found} />}
      </Shown>
    </Screen>
  );
}

function Steps({ found }: { found: FirstSteps }) {
  const [open, setOpen] = useState<Step | null>(nextStep(found));
  const done = stepsDone(found);
  const [lineId, setLineId] = useState(found.lines.length === 1 ? found.lines[0]!.id : '');
  const at = (step: Step) => ({
    ...{ done: done[step], open: open === step, onOpen: () => setOpen(step) },
  });
  return (
    <>
      <OneStep title="1. A line" again="Another line" {...at('line')} said={linesText(found)}>
        <p className="lw-words">
          A line is a stock bred towards one goal. Tags of its fish begin with its code.
        </p>
        <NewLineForm
          onSaved={(id) => {
            setLineId(id);
            setOpen(done.founders ? null : 'founders');
          }}
        />
      </OneStep>
      <OneStep
        title="2. Founders"
        again="More founders"
        {...at('founders')}
        said="Founders are recorded."
      >
        <p className="lw-words">
          The fish the line begins with: bought or given. Say how many there are, and each gets a
          tag that you can change.
        </p>
        <FoundersForm key={lineId} lineId={lineId} onSaved={() => setOpen('pair')} />
      </OneStep>
      <OneStep
        title="3. The first pair"
        again="Another pair"
        {...at('pair')}
        said="A pair is on record."
      >
        <FirstPair lineId={lineId} />
      </OneStep>
      <WhatToScore found={found} />
    </>
  );
}

const linesText = ({ lines }: FirstSteps): ReactNode =>
  lines.map(({ id, code, name }) => (
    <span key={id}>
      <Link to={`/lines/${id}`}>
        {code} · {name}
      </Link>{' '}
    </span>
  ));

interface OneStepProps {
  title: string;
  /** Wording of the button that opens a step which is done. */
  again: string;
  done: boolean;
  open: boolean;
  onOpen: () => void;
  /** What stands there once it is done. */
  said: ReactNode;
  children: ReactNode;
}

function OneStep({ title, again, done, open, onOpen, said, children }: OneStepProps) {
  return (
    <Section title={title} {...(done ? { aside: 'done' } : {})}>
      {done && <p>{said}</p>}
      {open ? children : <Button onClick={onOpen}>{done ? again : 'Begin this step'}</Button>}
    </Section>
  );
}

/** A pair is chosen among those judged, or was put together before the book began. */
function FirstPair({ lineId }: { lineId: string }) {
  const [spawning, setSpawning] = useState(false);
  const navigate = useNavigate();
  const close = () => setSpawning(false);
  return (
    <>
      <p className="lw-words">
        “Next pairing” sets every male beside every female and says why each pair is good or bad.
        Has a pair spawned already? Record that.
      </p>
      <div className="lw-actions">
        <Link
          className="lw-link-button"
          to={lineId === '' ? '/next-pairing?view=list' : `/next-pairing?view=list&line=${lineId}`}
        >
          Choose the first pair
        </Link>
        <Button onClick={() => setSpawning(true)}>Record a spawn</Button>
      </div>
      <Sheet title="New spawn" opened={spawning} onClose={close}>
        <NewSpawnForm onCancel={close} onSaved={(id) => void navigate(`/spawns/${id}`)} />
      </Sheet>
    </>
  );
}

/** Traits and a sheet to begin with, for those who define them here. */
function WhatToScore({ found: { scoreSheets } }: { found: FirstSteps }) {
  const navigate = useNavigate();
  const [open, setOpen] = useState(false);
  if (!useOfTheHouse()) return null;
  return (
    <Section title="4. What you score" {...(scoreSheets.length > 0 ? { aside: 'done' } : {})}>
      {scoreSheets.length > 0 && (
        <p>
          <Link to="/score-sheets">{scoreSheets.map(({ name }) => name).join(', ')}</Link>
        </p>
      )}
      {open ? (
        <SheetStarts onMade={(id) => void navigate(`/score-sheets/${id}`)} />
      ) : (
        <>
          <p className="lw-words">
            A sheet is what you look at on one day: spread, body, fins. Begin with one that is
            commonly used, and change it.
          </p>
          <Button onClick={() => setOpen(true)}>Choose a sheet to begin with</Button>
        </>
      )}
    </Section>
  );
}
