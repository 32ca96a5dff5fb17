import { useState, type SetStateAction, type Dispatch } from 'react';
import { SPAWN_CARE, type LogRecord, type SpawnCare } from '../../api/care.js';
import { SPAWN_PHOTOS, type Photo } from '../../api/photos.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead, type Read } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { PhotoAdd } from '../../panels/photos/photo-add.js';
import { PhotoThumbs } from '../../panels/photos/photo-thumbs.js';
import { happenedOn, showTime } from '../../wording/figures.js';
import { useMayAdd, useMayChange } from '../../session/may.js';
import { LogRecordForm } from './log-record-form.js';
import { LogTaps } from './log-taps.js';
import { logWarnings } from './log-warnings.js';
import styles from './log-section.module.css';

/** The spawn's log: each event and each bit of care, recorded with one tap as it happens. */
export function LogSection({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(SPAWN_CARE, { id: spawn.id });
  // All pictures of the spawn and its events in one query, the one that the photos below use too.
  const pictures = useRead(SPAWN_PHOTOS, { id: spawn.id });
  const [corrected, setCorrected] = useState<LogRecord | null>(null);
  const [pictured, setPictured] = useState<LogRecord | null>(null);
  const acts = { onCorrect: setCorrected, onPhoto: setPictured };
  const close = () => setCorrected(null);
  return (
    <Section
      title="Log"
      aside={read.data === undefined ? undefined : read.data.spawn.care.log.length}
    >
      <Shown read={read} what="the log">
        {({ spawn: { care } }) => <Log spawn={spawn} care={care} pictures={pictures} acts={acts} />}
      </Shown>
      {corrected !== null && (
        <Sheet title={`Correct: ${corrected.title}`} opened onClose={close}>
          <LogRecordForm spawnId={spawn.id} record={corrected} onClose={close} />
        </Sheet>
      )}
      <PictureSheet {...{ pictured, setPictured, spawn, pictures }} />
    </Section>
  );
}

type Pictures = Read<{ spawn: { id: string; photos: Photo[] } }>;

interface LogActs {
  onCorrect: (record: LogRecord) => void;
  onPhoto: (record: LogRecord) => void;
}

interface LogProps {
  spawn: SpawnFacts;
  care: SpawnCare;
  pictures: Pictures;
  acts: LogActs;
}

function Log({ spawn, care, pictures, acts }: LogProps) {
  const events = new Set(spawn.events.map(({ id }) => id));
  const inForce = spawn.withdrawn === null;
  const mayChange = useMayChange();
  const mayAdd = useMayAdd();
  return (
    <>
      {logWarnings(spawn, care.log).map((warning) => (
        <Caution key={warning}>{warning}</Caution>
      ))}
      {inForce && mayChange && <LogTaps spawn={spawn} care={care} />}
      <LogTable
        log={care.log}
        tag={spawn.tag}
        photos={pictures.data?.spawn.photos ?? []}
        takesPhotos={({ id }) => inForce && mayAdd && events.has(id)}
        onPhotosChanged={pictures.reload}
        {...acts}
      />
    </>
  );
}

const shownBy = (record: LogRecord, tag: string): string => `${record.title}, spawn ${tag}`;

interface LogTableProps extends LogActs {
  log: readonly LogRecord[];
  tag: string;
  /** Of the whole spawn. */
  photos: readonly Photo[];
  takesPhotos: (record: LogRecord) => boolean;
  onPhotosChanged: () => void;
}

function PictureSheet({
  pictured,
  setPictured,
  spawn,
  pictures,
}: {
  pictured: LogRecord | null;
  setPictured: Dispatch<SetStateAction<LogRecord | null>>;
  spawn: SpawnFacts;
  pictures: Pictures;
}) {
  return (
    pictured !== null && (
      <Sheet
        title={`Photo: ${pictured.title}, ${showTime(pictured.at)}`}
        opened
        onClose={() => setPictured(null)}
      >
        <PhotoAdd
          of={shownBy(pictured, spawn.tag)}
          subjects={[{ kind: 'spawn_event', id: pictured.id, label: pictured.title }]}
          onSent={pictures.reload}
        />
      </Sheet>
    )
  );
}

function LogWords({ record, tag, photos, onPhotosChanged }: LogTableProps & { record: LogRecord }) {
  return (
    <>
      {record.action === 'SKIPPED' && 'skipped: '}
      {record.title}
      {record.note !== null && <span className="lw-quiet"> {record.note}</span>}
      <PhotoThumbs
        of={shownBy(record, tag)}
        photos={photos.filter(({ subjectId }) => subjectId === record.id)}
        onChanged={onPhotosChanged}
      />
    </>
  );
}

function LogTable(props: LogTableProps) {
  const { log } = props;
  return (
    <DataTable
      caption="Log of this spawn, latest first"
      low={log.length > 9}
      rows={[...log].reverse()}
      rowKey={(record) => record.id}
      columns={[
        {
          key: 'at',
          title: 'When',
          unbroken: true,
          cell: (record) => (record.dayOnly ? happenedOn(record) : showTime(record.at)),
        },
        { key: 'what', title: 'What', cell: (record) => <LogWords {...props} record={record} /> },
        {
          key: 'do',
          changes: true,
          title: <span className="lw-heard">Actions</span>,
          cell: (record) => record.editable && <LogActions {...props} record={record} />,
        },
      ]}
    />
  );
}

interface LogActionsProps extends LogActs {
  record: LogRecord;
  takesPhotos: (record: LogRecord) => boolean;
}

function LogActions({ record, takesPhotos, onPhoto, onCorrect }: LogActionsProps) {
  const about = `${record.title}, ${showTime(record.at)}`;
  return (
    <div className={styles['actions']}>
      {takesPhotos(record) && (
        <button
          type="button"
          className="lw-small-button"
          aria-label={`Photo of ${about}`}
          onClick={() => onPhoto(record)}
        >
          Photo
        </button>
      )}
      <button
        type="button"
        className="lw-small-button"
        aria-label={`Correct ${about}`}
        onClick={() => onCorrect(record)}
      >
        Correct
      </button>
    </div>
  );
}
