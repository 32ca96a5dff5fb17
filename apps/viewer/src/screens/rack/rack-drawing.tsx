import { clsx } from 'clsx';
import { useMemo } from 'react';
import type { Vessel } from '../../api/vessels.js';
import { SexMark } from '../../components/fish-marks.js';
import { companyWord, whoWords } from '../../wording/vessel-words.js';
import { racksOf, type Rack } from './racks.js';
import type { Carried } from './use-moves.js';
import styles from './rack.module.css';

interface RackDrawingProps {
  vessels: readonly Vessel[];
  chosen: string | null;
  /** Somebody is picked up: the next tap puts it down. */
  carrying: boolean;
  mayMove: boolean;
  onTap: (vessel: Vessel) => void;
  onDrop: (carried: Carried, vessel: Vessel) => void;
}

/** Kind of what is dragged, so that nothing else is taken for a fish. */
const DRAGGED = 'application/x-linewright-stay';

/** Shelves and positions as they stand; each vessel is a button, and who is in it is dragged to another. */
export function RackDrawing(props: RackDrawingProps) {
  const { racks, loose } = useMemo(() => racksOf(props.vessels), [props.vessels]);
  return (
    <div className={clsx(props.carrying && styles['carrying'])}>
      {racks.map((rack) => (
        <DrawnRack key={rack.name} rack={rack} {...props} />
      ))}
      {loose.length > 0 && (
        <section aria-label="On no rack" className={styles['rack']}>
          <h2>{racks.length === 0 ? 'Vessels' : 'On no rack'}</h2>
          <Row {...props} vessels={loose} />
        </section>
      )}
    </div>
  );
}

function DrawnRack({ rack, ...props }: RackDrawingProps & { rack: Rack<Vessel> }) {
  return (
    <section aria-label={rack.name} className={styles['rack']}>
      <h2>{rack.name}</h2>
      {rack.shelves.map(({ number, positions }) => (
        <div key={number} className={styles['shelf']} role="group" aria-label={`Shelf ${number}`}>
          {positions.map((here, k) =>
            here.length === 0 ? (
              <span key={k} className={styles['bare']} aria-hidden="true" />
            ) : (
              here.map((vessel) => <Cell key={vessel.id} vessel={vessel} {...props} />)
            ),
          )}
        </div>
      ))}
      {rack.somewhere.length > 0 && <Row {...props} vessels={rack.somewhere} />}
    </section>
  );
}

function Row({ vessels, ...props }: RackDrawingProps) {
  return (
    <div className={styles['row']}>
      {vessels.map((vessel) => (
        <Cell key={vessel.id} vessel={vessel} vessels={vessels} {...props} />
      ))}
    </div>
  );
}

const carriedOf = ({ fish, spawn }: Vessel['stays'][number]): Carried =>
  fish == null
    ? { spawnId: spawn?.id ?? '', words: whoWords([{ fish: null, spawn }]) }
    : { fishId: fish.id, words: fish.tag };

const heardOf = ({ code, kind, stays }: Vessel, carrying: boolean): string => {
  const [first] = stays;
  const why = first?.company == null || stays.length < 2 ? '' : `, ${companyWord[first.company]}`;
  const who = stays.length === 0 ? 'empty' : `${whoWords(stays)}${why}`;
  return `${carrying ? 'Put into ' : ''}${code}${kind === 'OTHER' ? '' : `, ${kind.toLowerCase()}`}: ${who}`;
};

type CellProps = RackDrawingProps & { vessel: Vessel };

function Cell({ vessel, chosen, carrying, mayMove, onTap, onDrop }: CellProps) {
  const { stays } = vessel;
  const [one] = stays;
  return (
    <button
      type="button"
      className={clsx(styles['cell'], stays.length === 0 && styles['empty'])}
      aria-pressed={vessel.id === chosen}
      aria-label={heardOf(vessel, carrying)}
      draggable={mayMove && stays.length === 1}
      onClick={() => onTap(vessel)}
      onDragStart={(event) => {
        if (one !== undefined) event.dataTransfer.setData(DRAGGED, JSON.stringify(carriedOf(one)));
      }}
      onDragOver={(event) => {
        if (mayMove && event.dataTransfer.types.includes(DRAGGED)) event.preventDefault();
      }}
      onDrop={(event) => {
        event.preventDefault();
        const dragged = event.dataTransfer.getData(DRAGGED);
        if (dragged !== '') onDrop(JSON.parse(dragged) as Carried, vessel);
      }}
    >
      <span className={styles['code']}>{vessel.code}</span>
      {stays.length === 0 && <span className={styles['none']}>empty</span>}
      {stays.slice(0, SHOWN).map(({ id, fish, spawn }) => (
        <span key={id} className={styles['who']}>
          {fish != null && <SexMark sex={fish.sex} bare />}
          {fish?.tag ?? `spawn ${spawn?.tag ?? ''}`}
        </span>
      ))}
      {stays.length > SHOWN && (
        <span className={styles['none']}>and {stays.length - SHOWN} more</span>
      )}
    </button>
  );
}

const SHOWN = 2;
