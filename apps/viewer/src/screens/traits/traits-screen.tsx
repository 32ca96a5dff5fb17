import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import { TRAITS, WITHDRAW_TRAIT, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';
import { ageText, span } from '../../wording/figures.js';
import { rangeText } from '../../wording/scores.js';
import { traitKindWord } from '../../wording/words.js';
import { TraitForm } from './trait-form.js';
import type { Column } from '../../components/data-table.js';

type OpenSheet = { kind: 'new' } | { kind: 'correct' | 'withdraw'; trait: Trait } | null;

function scoringAge({ fromAgeDays, toAgeDays }: Trait): string {
  if (fromAgeDays === null && toAgeDays === null) return 'any age';
  if (toAgeDays === null) return `from ${ageText(fromAgeDays ?? 0)}`;
  return span(ageText(fromAgeDays ?? 0), ageText(toAgeDays));
}

export function TraitsScreen() {
  const read = useRead(TRAITS, {});
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const close = () => setSheet(null);
  return (
    <Screen
      title="Traits"
      lead="What you score, and how."
      actions={
        <Button className="lw-primary" onClick={() => setSheet({ kind: 'new' })}>
          New trait
        </Button>
      }
    >
      <Shown read={read} what="the traits">
        {({ traits }) =>
          traits.length === 0 ? (
            <Empty>
              No trait yet. Start with what decides who stays: spread in degrees, body length in mm,
              ventrals from 1 to 10.
            </Empty>
          ) : (
            <DataTable
              caption="Traits"
              rows={traits}
              rowKey={(trait) => trait.id}
              columns={traitColumns(setSheet)}
            />
          )
        }
      </Shown>
      <Sheet title="New trait" opened={sheet?.kind === 'new'} onClose={close}>
        <TraitForm trait={null} onSaved={close} onCancel={close} />
      </Sheet>
      {sheet?.kind === 'correct' && (
        <Sheet title={`Correct ${sheet.trait.name}`} opened onClose={close}>
          <TraitForm trait={sheet.trait} onSaved={close} onCancel={close} />
        </Sheet>
      )}
      {sheet?.kind === 'withdraw' && <WithdrawTraitSheet trait={sheet.trait} onClose={close} />}
    </Screen>
  );
}

function traitColumns(setSheet: Dispatch<SetStateAction<OpenSheet>>): readonly Column<Trait>[] {
  return [
    {
      key: 'name',
      title: 'Trait',
      cell: (trait) => (
        <>
          <Link to={`/traits/${trait.id}`}>{trait.name}</Link>{' '}
          <span className="lw-quiet">{trait.key}</span>
          {trait.description !== null && <div className="lw-quiet">{trait.description}</div>}
        </>
      ),
    },
    {
      key: 'kind',
      title: 'Kind',
      wideOnly: true,
      cell: (trait) => traitKindWord[trait.kind],
    },
    {
      key: 'range',
      title: 'Range',
      cell: (trait) => [rangeText(trait), trait.unit].filter(Boolean).join(' '),
    },
    {
      key: 'better',
      title: 'Better',
      wideOnly: true,
      cell: ({ higherIsBetter }) =>
        higherIsBetter === null ? '' : higherIsBetter ? 'higher' : 'lower',
    },
    { key: 'when', title: 'Scored at', wideOnly: true, cell: scoringAge },
    {
      key: 'version',
      title: 'Version',
      number: true,
      wideOnly: true,
      cell: (trait) => trait.version,
    },
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (trait) => (
        <span className="lw-row-buttons">
          <button
            type="button"
            aria-label={`Correct ${trait.name}`}
            onClick={() => setSheet({ kind: 'correct', trait })}
          >
            Correct
          </button>
          <button
            type="button"
            aria-label={`Withdraw ${trait.name}`}
            onClick={() => setSheet({ kind: 'withdraw', trait })}
          >
            Withdraw
          </button>
        </span>
      ),
    },
  ];
}

function WithdrawTraitSheet({ trait, onClose }: { trait: Trait; onClose: () => void }) {
  const { save, saving, problem } = useSave(WITHDRAW_TRAIT);
  return (
    <WithdrawSheet
      title={`Withdraw ${trait.name}`}
      opened
      onClose={onClose}
      what={`trait ${trait.name}`}
      saving={saving}
      problem={problem}
      onSubmit={async (reason) => {
        const input = { id: trait.id, reason, revision: trait.revision };
        if ((await save({ input })) !== null) onClose();
      }}
    />
  );
}
