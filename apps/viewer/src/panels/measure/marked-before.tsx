import { useState } from 'react';
import { Button } from '@mantine/core';
import type { MarkedScore, Photo } from '../../api/photos.js';
import { DataTable } from '../../components/data-table.js';
import { MarkedPoints } from './marking-stage.js';
import { type Draft, emptyDraft } from './marking-draft.js';
import { figureWords } from './measure-words.js';
import styles from './measure.module.css';

interface MarkedBeforeProps {
  photo: Photo;
  traitId: string;
}

/** What was marked on this picture before, to be checked point by point; hidden until asked for, so that a second marking is made without it. */
export function MarkedBefore({ photo, traitId }: MarkedBeforeProps) {
  const [opened, setOpened] = useState(false);
  const [shown, setShown] = useState<string | null>(null);
  const marked = photo.markings.filter((one) => one.trait.id === traitId);
  if (marked.length === 0) return null;
  const one = marked.find(({ id }) => id === shown);
  return (
    <>
      <Button aria-expanded={opened} onClick={() => setOpened(!opened)}>
        Marked before ({marked.length})
      </Button>
      {opened && (
        <DataTable
          caption="Marked before"
          rows={marked}
          rowKey={({ id }) => id}
          columns={[
            { key: 'who', title: 'By', cell: ({ scorer }) => scorer },
            {
              key: 'value',
              title: 'Figure',
              number: true,
              cell: ({ value, trait }) => figureWords(value, trait.unit),
            },
            {
              key: 'flat',
              title: 'Side on',
              cell: ({ marking }) => (marking?.flat === true ? 'yes' : 'not said'),
            },
            {
              key: 'show',
              title: 'Points',
              cell: ({ id, scorer }) => (
                <Button
                  size="xs"
                  aria-pressed={id === shown}
                  aria-label={`Show the points of ${scorer}`}
                  onClick={() => setShown(id === shown ? null : id)}
                >
                  Show
                </Button>
              ),
            },
          ]}
        />
      )}
      {opened && one?.marking != null && <MarkedThen photo={photo} one={one} />}
    </>
  );
}

function MarkedThen({ photo, one }: { photo: Photo; one: MarkedScore }) {
  if (one.marking === null) return null;
  return (
    <div className={styles['stage']}>
      <svg
        viewBox={`0 0 ${photo.width} ${photo.height}`}
        role="img"
        aria-label={`Points marked by ${one.scorer}`}
      >
        <image href={photo.path} width={photo.width} height={photo.height} />
        <MarkedPoints draft={draftOf(one.marking)} size={photo} />
      </svg>
    </div>
  );
}

/** A marking that was kept, as it is drawn. */
function draftOf({ kind, points, scale, colour }: NonNullable<MarkedScore['marking']>): Draft {
  const kinds = { SPREAD: 'spread', LENGTH: 'length', COUNT: 'count', COLOUR: 'colour' } as const;
  const all = [
    ...points.map((at) => ({ at, role: 'point' as const })),
    ...(scale === null ? [] : [scale.from, scale.to].map((at) => ({ at, role: 'scale' as const }))),
    ...(colour === null ? [] : [{ at: colour.at, role: 'colour' as const }]),
  ];
  const places = all.map((one, k) => ({ ...one, name: String(k) }));
  return { ...emptyDraft(kinds[kind]), places, active: -1 };
}
