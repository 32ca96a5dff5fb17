import { useState } from 'react';
import { MARKING_ERROR } from '../api/photos.js';
import { TRAITS, type Trait } from '../api/traits.js';
import { Loupe } from '../panels/measure/loupe.js';
import { MarkPicture } from '../panels/measure/mark-picture.js';
import { MarkedBefore } from '../panels/measure/marked-before.js';
import { emptyDraft, movedTo } from '../panels/measure/marking-draft.js';
import { MarkingFields } from '../panels/measure/marking-fields.js';
import { MarkedPoints, MarkingStage } from '../panels/measure/marking-stage.js';
import { MeasurePanel } from '../panels/measure/measure-panel.js';
import { Answering, answers } from './invented-api.js';
import { photos } from './invented-records.js';
import { nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const of = 'T24-07-12';
const photo = photos[0]!;
const begun = movedTo(emptyDraft('spread'), { x: 120, y: 150 }, photo);

const spread: Trait = {
  ...{ id: 't1', key: 'caudal_spread', name: 'Caudal spread', kind: 'MEASURED', unit: '°' },
  ...{ minimum: 0, maximum: 240, higherIsBetter: true, fromAgeDays: null, toAgeDays: null },
  ...{ description: null, grades: [], version: 1, revision: 1, mayChange: true, withdrawn: null },
};
const given = [
  answers(TRAITS, { traits: [spread] }),
  answers(MARKING_ERROR, {
    markingError: { deviation: 2.1, repeatability: 5.8, pictures: 3, markings: 7, byTwoPeople: 2 },
  }),
];

function Staged() {
  const [draft, setDraft] = useState(begun);
  return <MarkingStage photo={photo} of={of} draft={draft} onDraft={setDraft} />;
}

function Fielded({ kind }: { kind: 'spread' | 'length' | 'colour' }) {
  const [draft, setDraft] = useState(() => emptyDraft(kind));
  return <MarkingFields draft={draft} onDraft={setDraft} />;
}

/** Measuring on a picture. */
export const measureParts: Parts = {
  MeasurePanel: {
    'a trait in degrees': () => (
      <Answering with={given}>
        <MeasurePanel photo={photo} of={of} onSaved={nothing} onClose={nothing} />
      </Answering>
    ),
    'no trait that can be measured': () => (
      <Answering with={[answers(TRAITS, { traits: [] })]}>
        <MeasurePanel photo={photo} of={of} onSaved={nothing} onClose={nothing} />
      </Answering>
    ),
  },
  MarkPicture: {
    'nothing marked yet': () => (
      <Answering with={given}>
        <MarkPicture photo={photo} of={of} trait={spread} onSaved={nothing} />
      </Answering>
    ),
  },
  MarkingStage: { 'one point put': () => <Staged /> },
  MarkedPoints: {
    'of a spread': () => (
      <svg viewBox="0 0 400 300" width={200}>
        <MarkedPoints draft={begun} size={photo} />
      </svg>
    ),
  },
  MarkingFields: {
    spread: () => <Fielded kind="spread" />,
    length: () => <Fielded kind="length" />,
    colour: () => <Fielded kind="colour" />,
  },
  MarkedBefore: { once: () => <MarkedBefore photo={photo} traitId="t1" /> },
  Loupe: {
    'over a picture': () => (
      <div style={{ position: 'relative', height: 160 }}>
        <Loupe photo={photo} at={{ x: 200, y: 150 }} />
      </div>
    ),
  },
};
