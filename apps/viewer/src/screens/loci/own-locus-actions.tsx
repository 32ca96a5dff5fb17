import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import type { KnownLocus } from '../../api/crosses.js';
import { LOCUS_VERSIONS, RESTORE_LOCUS, WITHDRAW_LOCUS } from '../../api/own-loci.js';
import { useRead } from '../../api/use-read.js';
import { useSave, type SaveOf } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { showTime } from '../../wording/figures.js';
import { OwnLocusForm } from './own-locus-form.js';

type Open = 'revise' | 'withdraw' | 'versions' | null;

/** What can be done with a locus of one's own: its next version, a withdrawal, a look at earlier versions. */
export function OwnLocusActions({ locus }: { locus: KnownLocus }) {
  const [open, setOpen] = useState<Open>(null);
  const restoring = useSave(RESTORE_LOCUS);
  const close = () => setOpen(null);
  const id = locus.recordId ?? '';
  return (
    <>
      <ActionButtons locus={locus} setOpen={setOpen} restoring={restoring} id={id} />
      <ProblemNotice problem={restoring.problem} />
      <Sheet title={`Revise ${locus.name}`} opened={open === 'revise'} onClose={close} size={760}>
        <OwnLocusForm locus={locus} onClose={close} />
      </Sheet>
      <Sheet title={`Versions of ${locus.name}`} opened={open === 'versions'} onClose={close}>
        <Versions locusId={locus.id} />
      </Sheet>
      <WithdrawRecord
        mutation={WITHDRAW_LOCUS}
        record={{ id, revision: locus.revision ?? 0 }}
        title={`Withdraw ${locus.name}`}
        what={`the locus ${locus.name}`}
        opened={open === 'withdraw'}
        onClose={close}
      />
    </>
  );
}

interface ActionButtonsProps {
  locus: KnownLocus;
  setOpen: Dispatch<SetStateAction<Open>>;
  restoring: SaveOf<typeof RESTORE_LOCUS>;
  id: string;
}

function ActionButtons({ locus, setOpen, restoring, id }: ActionButtonsProps) {
  return (
    <div className="lw-row-buttons">
      {!locus.isWithdrawn && (
        <>
          <Button size="xs" onClick={() => setOpen('revise')} aria-label={`Revise ${locus.name}`}>
            Revise
          </Button>
          <Button
            size="xs"
            onClick={() => setOpen('withdraw')}
            aria-label={`Withdraw ${locus.name}`}
          >
            Withdraw
          </Button>
        </>
      )}
      {locus.isWithdrawn && (
        <Button size="xs" loading={restoring.saving} onClick={() => void restoring.save({ id })}>
          Restore
        </Button>
      )}
      <Button
        size="xs"
        onClick={() => setOpen('versions')}
        aria-label={`Versions of ${locus.name}`}
      >
        Versions
      </Button>
    </div>
  );
}

function Versions({ locusId }: { locusId: string }) {
  const read = useRead(LOCUS_VERSIONS, { locusId });
  return (
    <Shown read={read} what="the versions">
      {({ locusVersions }) => (
        <ol reversed>
          {locusVersions.map(({ version, at, by, locus }) => (
            <li key={version}>
              <strong>{locus.name}</strong>
              {locus.isWithdrawn && ' (withdrawn)'}, version {version}, {showTime(String(at))} by{' '}
              {by}
              <ul>
                {locus.phenotypes.map((one) => (
                  <li key={one.genotype}>
                    <span className="lw-symbol">{one.genotype}</span> {one.phenotype}
                  </li>
                ))}
              </ul>
              {locus.note !== null && <p className="lw-quiet">{locus.note}</p>}
            </li>
          ))}
        </ol>
      )}
    </Shown>
  );
}
