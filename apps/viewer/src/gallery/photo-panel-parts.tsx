import { Button } from '@mantine/core';
import { useState } from 'react';
import { FISH_PICTURES } from '../api/photos.js';
import { FishFace } from '../components/fish-face.js';
import { FishPictures } from '../panels/fish-pictures.js';
import { PicturedPedigree } from '../panels/pictured-pedigree.js';
import { PlanPairingSheet } from '../panels/plan-pairing-sheet.js';
import { PhotoAdd } from '../panels/photos/photo-add.js';
import { PhotoThumbs } from '../panels/photos/photo-thumbs.js';
import { PhotoViewer } from '../panels/photos/photo-viewer.js';
import { SideBySide } from '../panels/photos/side-by-side.js';
import { PhotosSection } from '../panels/photos/photos-section.js';
import { Answering, answers } from './invented-api.js';
import { dam, inventedPictures, pairWarnings, photos, sire } from './invented-records.js';
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
  SideBySide: {
    'two, over the page': () => <SideBySide of={of} photos={photos} hatchDate="2025-12-01" />,
  },
  FishPictures: {
    'a photo, a drawing and neither': () => (
      <Answering with={[answers(FISH_PICTURES, { fishPictures: [...inventedPictures] })]}>
        <FishPictures ids={['f1', 'f2', 'f3']}>
          <FishFace fish={sire} size="card" /> <FishFace fish={dam} size="card" />{' '}
          <FishFace fish={{ id: 'f3', tag: 'T24-07-03' }} size="card" />
        </FishPictures>
      </Answering>
    ),
  },
  PicturedPedigree: {
    'two parents and a young': () => (
      <Answering with={[answers(FISH_PICTURES, { fishPictures: [...inventedPictures] })]}>
        <PicturedPedigree
          focusId="f3"
          fish={[
            { ...sire, sex: 'male', sireId: null, damId: null },
            { ...dam, sex: 'female', sireId: null, damId: null },
            { id: 'f3', tag: 'T24-07-03', sex: 'unknown', sireId: 'f1', damId: 'f2' },
          ]}
          onOpenFish={nothing}
          height={240}
        />
      </Answering>
    ),
  },
  PhotoViewer: { 'over the page': () => <Viewed /> },
  PlanPairingSheet: {
    'over the page': () => <Planned free />,
    'refused, over the page': () => <Planned free={false} />,
  },
};
