import { Button } from '@mantine/core';
import { useState } from 'react';
import { MARKING_ERROR, SCORE_FROM_PICTURE, type Photo } from '../../api/photos.js';
import type { Trait } from '../../api/traits.js';
import { newId } from '../../api/new-id.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { type Draft, emptyDraft, kindFor, markingOf, oneLess } from './marking-draft.js';
import { MarkingFields } from './marking-fields.js';
import { MarkingStage } from './marking-stage.js';
import { MarkedBefore } from './marked-before.js';
import { aPixelOff, ASKEW, errorWords, figureWords, howToMark } from './measure-words.js';
import { type Measured, useMeasured } from './use-measured.js';
import styles from './measure.module.css';

interface MarkPictureProps {
  photo: Photo;
  of: string;
  trait: Trait;
  onSaved: () => void;
}

const KINDS = { spread: 'SPREAD', length: 'LENGTH', count: 'COUNT', colour: 'COLOUR' } as const;

export function MarkPicture({ photo, of, trait, onSaved }: MarkPictureProps) {
  const kind = kindFor(trait) ?? 'count';
  const [draft, setDraft] = useState(() => emptyDraft(kind));
  const [saved, setSaved] = useState<string | null>(null);
  const marking = markingOf(draft);
  const measured = useMeasured(photo, marking);
  const { save, saving, problem } = useSave(SCORE_FROM_PICTURE);
  const change = (how: (before: Draft) => Draft) => {
    setSaved(null);
    setDraft(how);
  };
  const keep = async () => {
    if (marking === null) return;
    const heads = draft.heads === 'left' ? ('LEFT' as const) : ('RIGHT' as const);
    const { points, scale, colour, flat } = marking;
    const sent = {
      ...{ kind: KINDS[kind], points: [...points], flat, scale: scale ?? null },
      ...{ colour: colour ?? null, heads: kind === 'spread' ? heads : null },
    };
    const input = { id: newId(), photoId: photo.id, traitId: trait.id, marking: sent };
    const answer = await save({ input });
    if (answer === null) return;
    setSaved(figureWords(answer.scoreFromPicture.value, trait.unit));
    setDraft(emptyDraft(kind));
    onSaved();
  };
  return (
    <>
      <p className="lw-quiet">{howToMark[kind]}</p>
      <MarkingStage photo={photo} of={of} draft={draft} onDraft={change} />
      <Places draft={draft} onDraft={change} />
      <MarkingFields draft={draft} onDraft={change} />
      <Figure measured={measured} draft={draft} unit={trait.unit} />
      {marking !== null && !draft.flat && (
        <div className="lw-notice lw-notice-caution" role="alert">
          <strong>Askew? </strong>
          {ASKEW}
        </div>
      )}
      <ProblemNotice problem={problem} />
      {saved !== null && (
        <Done>
          Scored: {trait.name} {saved}, on {photo.takenOn}.
        </Done>
      )}
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          loading={saving}
          disabled={measured.value === null}
          onClick={() => void keep()}
        >
          Save as score
        </Button>
      </div>
      <ErrorOfMarking trait={trait} />
      <MarkedBefore photo={photo} traitId={trait.id} />
    </>
  );
}

interface DraftProps {
  draft: Draft;
  onDraft: (change: (before: Draft) => Draft) => void;
}

/** The points by name, to choose one to move. */
function Places({ draft, onDraft }: DraftProps) {
  const put = draft.places.some(({ at }) => at !== null);
  return (
    <div className={styles['places']} role="group" aria-label="Points">
      {draft.places.map(({ name, at }, k) => (
        <button
          key={name}
          type="button"
          aria-pressed={k === draft.active}
          onClick={() => onDraft((before) => ({ ...before, active: k }))}
        >
          {at === null ? '' : '✓ '}
          {name}
        </button>
      ))}
      <button type="button" disabled={!put} onClick={() => onDraft(oneLess)}>
        Take the last point away
      </button>
    </div>
  );
}

interface FigureProps {
  measured: Measured;
  draft: Draft;
  unit: string | null;
}

function Figure({ measured: { value, problem }, draft, unit }: FigureProps) {
  const marking = markingOf(draft);
  const off = marking === null || value === null ? null : aPixelOff(marking);
  return (
    <p aria-live="polite">
      {value === null ? (
        (problem ?? 'The figure comes once all points are there.')
      ) : (
        <>
          <strong className={styles['figure']}>{figureWords(value, unit)}</strong>
          {off !== null && ` A pixel off changes it by up to ${figureWords(off, unit)}.`}
          {off !== null && off > 3 && ' That is much: a larger picture would be better.'}
        </>
      )}
    </p>
  );
}

function ErrorOfMarking({ trait }: { trait: Trait }) {
  const { data } = useRead(MARKING_ERROR, { traitId: trait.id });
  if (data === undefined) return null;
  return <p className="lw-quiet">{errorWords(data.markingError, trait.unit)}</p>;
}
