import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useRef, type RefObject } from 'react';
import { Done } from '../../components/notice.js';
import { FieldRow } from '../../components/record-form.js';
import { plural } from '../../wording/figures.js';
import type { Chosen } from './chosen-photo.js';
import type { PhotoSubjectChoice } from './photo-words.js';
import { useChosenPhotos } from './use-chosen-photos.js';
import styles from './photos.module.css';

interface PhotoAddProps {
  of: string;
  subjects: readonly PhotoSubjectChoice[];
  onSent: () => void;
}

// Asking for these, phones hand over a JPEG where their own format is another.
const ACCEPTED = 'image/jpeg,image/png,image/webp';

/** Takes or chooses pictures and sends them; one that failed stays chosen until it is sent or left out. */
export function PhotoAdd({ of, subjects, onSent }: PhotoAddProps) {
  const camera = useRef<HTMLInputElement>(null);
  const files = useRef<HTMLInputElement>(null);
  const { chosen, sent, choose, change, leaveOut, send } = useChosenPhotos(subjects, onSent);
  return (
    <div>
      <PhotoButtons camera={camera} files={files} choose={choose} />
      {chosen.map((one) => (
        <ChosenPhoto
          key={one.id}
          of={of}
          one={one}
          subjects={subjects}
          onChange={(changes) => change(one.id, changes)}
          onSend={() => void send(one)}
          onLeaveOut={() => leaveOut(one.id)}
        />
      ))}
      {sent > 0 && chosen.length === 0 && <Done>{plural(sent, 'photo')} added.</Done>}
    </div>
  );
}

function PhotoButtons({
  camera,
  files,
  choose,
}: {
  camera: RefObject<HTMLInputElement | null>;
  files: RefObject<HTMLInputElement | null>;
  choose: (list: FileList | null) => void;
}) {
  return (
    <div className="lw-actions">
      <Button onClick={() => camera.current?.click()}>Take photo</Button>
      <Button onClick={() => files.current?.click()}>Choose photos</Button>
      {[camera, files].map((input, k) => (
        <input
          key={k}
          ref={input}
          hidden
          type="file"
          accept={ACCEPTED}
          data-testid={k === 0 ? 'camera' : 'files'}
          {...(k === 0 ? { capture: 'environment' as const } : { multiple: true })}
          onChange={(event) => {
            choose(event.currentTarget.files);
            // So that the same file can be chosen again.
            event.currentTarget.value = '';
          }}
        />
      ))}
    </div>
  );
}

interface ChosenPhotoProps {
  of: string;
  one: Chosen;
  subjects: readonly PhotoSubjectChoice[];
  onChange: (changes: Partial<Chosen>) => void;
  onSend: () => void;
  onLeaveOut: () => void;
}

function ChosenPhoto({ of, one, subjects, onChange, onSend, onLeaveOut }: ChosenPhotoProps) {
  const sending = one.share !== null;
  return (
    <div className={styles['chosen']} role="group" aria-label={`Chosen: ${one.file.name}`}>
      <img src={one.preview} alt={`Chosen file ${one.file.name}`} />
      <div className="lw-form">
        <PhotoFields of={of} one={one} sending={sending} onChange={onChange} subjects={subjects} />
        {one.failure !== null && (
          <div className="lw-notice lw-notice-problem" role="alert">
            <p>
              <strong aria-hidden="true">! </strong>
              {one.failure}
            </p>
          </div>
        )}
        {sending && (
          <progress max={1} value={one.share ?? 0} aria-label={`Sending ${one.file.name}`} />
        )}
        <div className="lw-form-buttons">
          <Button className="lw-primary" loading={sending} onClick={onSend}>
            {one.failure === null ? 'Add photo' : 'Try again'}
          </Button>
          <Button disabled={sending} onClick={onLeaveOut}>
            Remove
          </Button>
        </div>
      </div>
    </div>
  );
}

interface PhotoFieldsProps {
  of: string;
  one: Chosen;
  sending: boolean;
  onChange: (changes: Partial<Chosen>) => void;
  subjects: readonly PhotoSubjectChoice[];
}

function PhotoFields({ of, one, sending, onChange, subjects }: PhotoFieldsProps) {
  return (
    <FieldRow>
      <TextInput
        label="Caption"
        description={`Blank: "Photo of ${of}" with the date.`}
        value={one.caption}
        maxLength={500}
        disabled={sending}
        onChange={(event) => onChange({ caption: event.currentTarget.value })}
      />
      <TextInput
        label="Taken on"
        description="From the file; correct it."
        type="date"
        value={one.taken}
        disabled={sending}
        onChange={(event) => onChange({ taken: event.currentTarget.value })}
      />
      {subjects.length > 1 && (
        <NativeSelect
          label="Shows"
          description="What it is filed under."
          value={one.subject}
          disabled={sending}
          onChange={(event) => onChange({ subject: event.currentTarget.value })}
          data={subjects.map(({ label }, k) => ({ value: String(k), label }))}
        />
      )}
    </FieldRow>
  );
}
