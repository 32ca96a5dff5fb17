import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useEffect, useState, type SetStateAction, type Dispatch } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CAPTION_PHOTO, WITHDRAW_PHOTO, type Photo } from '../../api/photos.js';
import { useSave } from '../../api/use-save.js';
import { optionalDate, optionalText } from '../../components/field-rules.js';
import { DateField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { WithdrawForm } from '../../components/withdraw-form.js';
import { dayOf } from '../../wording/figures.js';
import { useMayAdd } from '../../session/may.js';
import { MeasurePanel } from '../measure/measure-panel.js';
import { photoWords } from './photo-words.js';
import styles from './photos.module.css';

type Doing = 'caption' | 'withdraw' | 'measure' | null;

interface PhotoViewerProps {
  of: string;
  photos: readonly Photo[];
  shown: string | null;
  onShow: (id: string) => void;
  onClose: () => void;
  onChanged: () => void;
}

/** One picture large; arrow keys go to its neighbours, Escape closes. */
export function PhotoViewer({ of, photos, shown, onShow, onClose, onChanged }: PhotoViewerProps) {
  const at = photos.findIndex((photo) => photo.id === shown);
  const photo = photos[at];
  const [doing, setDoing] = useState<Doing>(null);
  const before = photos[at - 1];
  const after = photos[at + 1];
  useEffect(() => {
    if (photo === undefined || doing !== null) return undefined;
    const step = (event: KeyboardEvent) => {
      if (event.key === 'ArrowLeft' && before !== undefined) onShow(before.id);
      if (event.key === 'ArrowRight' && after !== undefined) onShow(after.id);
    };
    window.addEventListener('keydown', step);
    return () => window.removeEventListener('keydown', step);
  }, [photo, before, after, doing, onShow]);
  if (photo === undefined) return null;
  const close = () => {
    setDoing(null);
    onClose();
  };
  return (
    <Sheet
      title={`Photo ${at + 1} of ${photos.length}`}
      opened
      onClose={doing === null ? close : () => setDoing(null)}
      size={1000}
    >
      {doing === 'measure' ? (
        <MeasurePanel
          key={photo.id}
          photo={photo}
          of={of}
          onSaved={onChanged}
          onClose={() => setDoing(null)}
        />
      ) : (
        <LargePhoto photo={photo} of={of} />
      )}
      <ViewerSteps
        photo={photo}
        before={before}
        doing={doing}
        onShow={onShow}
        after={after}
        setDoing={setDoing}
      />
      <PhotoFacts photo={photo} />
      <CaptionShown doing={doing} photo={photo} setDoing={setDoing} onChanged={onChanged} />
      <WithdrawShown
        doing={doing}
        photo={photo}
        setDoing={setDoing}
        close={close}
        onChanged={onChanged}
      />
    </Sheet>
  );
}

function LargePhoto({ photo, of }: { photo: Photo; of: string }) {
  return (
    <img
      className={styles['large']}
      src={photo.path}
      alt={photoWords(photo, of)}
      width={photo.width}
      height={photo.height}
    />
  );
}

interface PhotoFormProps {
  photo: Photo;
  onSaved: () => void;
  onCancel: () => void;
}

const schema = z.object({ caption: optionalText, takenOn: optionalDate });

function PhotoFacts({ photo }: { photo: Photo }) {
  return (
    <p>
      {photo.caption !== null && (
        <>
          {photo.caption}
          <br />
        </>
      )}
      <span className="lw-quiet">
        {photo.takenOn === null ? 'date not recorded' : `taken on ${photo.takenOn}`}, added on{' '}
        {dayOf(photo.addedAt)}
      </span>
    </p>
  );
}

function CaptionShown({
  doing,
  photo,
  setDoing,
  onChanged,
}: {
  doing: string | null;
  photo: Photo;
  setDoing: Dispatch<SetStateAction<Doing>>;
  onChanged: () => void;
}) {
  return (
    doing === 'caption' && (
      <CaptionForm
        key={photo.id}
        photo={photo}
        onCancel={() => setDoing(null)}
        onSaved={() => {
          setDoing(null);
          onChanged();
        }}
      />
    )
  );
}

function WithdrawShown({
  doing,
  photo,
  setDoing,
  close,
  onChanged,
}: {
  doing: string | null;
  photo: Photo;
  setDoing: Dispatch<SetStateAction<Doing>>;
  close: () => void;
  onChanged: () => void;
}) {
  return (
    doing === 'withdraw' && (
      <WithdrawPhoto
        key={photo.id}
        photo={photo}
        onCancel={() => setDoing(null)}
        onSaved={() => {
          setDoing(null);
          close();
          onChanged();
        }}
      />
    )
  );
}

interface ViewerStepsProps {
  photo: Photo;
  before: Photo | undefined;
  doing: string | null;
  onShow: (id: string) => void;
  after: Photo | undefined;
  setDoing: Dispatch<SetStateAction<Doing>>;
}

function ViewerSteps({ photo, before, doing, onShow, after, setDoing }: ViewerStepsProps) {
  const mayChange = useMayAdd();
  return (
    <div className={styles['steps']}>
      <div>
        <Button
          disabled={before === undefined || doing !== null}
          onClick={() => before !== undefined && onShow(before.id)}
        >
          ← Before
        </Button>
        <Button
          disabled={after === undefined || doing !== null}
          onClick={() => after !== undefined && onShow(after.id)}
        >
          Next →
        </Button>
      </div>
      {mayChange && (
        <div>
          {isOfFish(photo) && doing !== 'measure' && (
            <Button onClick={() => setDoing('measure')}>Measure</Button>
          )}
          <Button
            aria-expanded={doing === 'caption'}
            onClick={() => setDoing(doing === 'caption' ? null : 'caption')}
          >
            Caption
          </Button>
          <Button
            aria-expanded={doing === 'withdraw'}
            onClick={() => setDoing(doing === 'withdraw' ? null : 'withdraw')}
          >
            Withdraw
          </Button>
        </div>
      )}
    </div>
  );
}

const isOfFish = ({ subjectKind }: Photo): boolean =>
  subjectKind === 'FISH' || subjectKind === 'SHEET_SCORING';

function CaptionForm({ photo, onSaved, onCancel }: PhotoFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { caption: photo.caption ?? '', takenOn: photo.takenOn ?? '' },
  });
  const { save, saving, problem } = useSave(CAPTION_PHOTO);
  return (
    <RecordForm
      form={form}
      submit="Save caption"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (values) => {
        const input = { id: photo.id, revision: photo.revision, ...values };
        if ((await save({ input })) !== null) onSaved();
      }}
    >
      <FieldRow>
        <TextField
          name="caption"
          label="Caption"
          hint="What it shows; screen readers read it aloud."
        />
        <DateField name="takenOn" label="Taken on" />
      </FieldRow>
    </RecordForm>
  );
}

function WithdrawPhoto({ photo, onSaved, onCancel }: PhotoFormProps) {
  const { save, saving, problem } = useSave(WITHDRAW_PHOTO);
  return (
    <WithdrawForm
      what="this photo"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (reason) => {
        const input = { id: photo.id, reason, revision: photo.revision };
        if ((await save({ input })) !== null) onSaved();
      }}
    />
  );
}
