import { Button } from '@mantine/core';
import { useState } from 'react';
import { PlanPairingSheet } from '../panels/plan-pairing-sheet.js';
import { PhotoAdd } from '../panels/photos/photo-add.js';
import { PhotoThumbs } from '../panels/photos/photo-thumbs.js';
import { PhotoViewer } from '../panels/photos/photo-viewer.js';
import { PhotosSection } from '../panels/photos/photos-section.js';
import { Answering } from './invented-api.js';
import { dam, pairWarnings, photos, sire } from './invented-records.js';
import { nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const of = 'T24-07-12';
const subjects = [
  { kind: 'fish', id: 'f1', label: 'the fish' },
  { kind: 'sheet_scoring', id: 'c1', label: 'scoring of 2026-03-12' },
] as const;

function Viewed() {
  const [shown, setShown] = useState<string | null>(null);
  return (
    <Answering with={[]}>
      <Button onClick={() => setShown(photos[0]!.id)}>Bring up: photo</Button>
      <PhotoViewer
        of={of}
        photos={photos}
        shown={shown}
        onShow={setShown}
        onClose={() => setShown(null)}
        onChanged={nothing}
      />
    </Answering>
  );
}

function Planned({ free }: { free: boolean }) {
  const [open, setOpen] = useState(false);
  return (
    <Answering with={[]}>
      <Button onClick={() => setOpen(true)}>Bring up: {free ? 'plan' : 'refused plan'}</Button>
      {open && (
        <PlanPairingSheet
          sire={sire}
          dam={dam}
          warnings={free ? pairWarnings.slice(1) : pairWarnings}
          onClose={() => setOpen(false)}
          onPlanned={nothing}
        />
      )}
    </Answering>
  );
}

/** Pictures, and the plan of a pair. */
export const photoPanelParts: Parts = {
  PhotoAdd: {
    'nothing chosen': () => <PhotoAdd of={of} subjects={subjects} onSent={nothing} />,
  },
  PhotoThumbs: {
    two: () => (
      <Answering with={[]}>
        <PhotoThumbs of={of} photos={photos} onChanged={nothing} />
      </Answering>
    ),
  },
  PhotosSection: {
    two: () => (
      <Answering with={[]}>
        <PhotosSection of={of} subjects={subjects} photos={photos} onChanged={nothing} />
      </Answering>
    ),
    none: () => (
      <Answering with={[]}>
        <PhotosSection of={of} subjects={subjects} photos={[]} onChanged={nothing} />
      </Answering>
    ),
  },
  PhotoViewer: { 'over the page': () => <Viewed /> },
  PlanPairingSheet: {
    'over the page': () => <Planned free />,
    'refused, over the page': () => <Planned free={false} />,
  },
};
