import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import { TRAITS, WITHDRAW_TRAIT, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { useOfTheHouse } from '../../session/may.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
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
  const ofTheHouse = useOfTheHouse();
  const read = useRead(TRAITS, {});
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const close = () => setSheet(null);
  return (
    <Screen
      title="Traits"
      lead="What you score, and how."
      actions={
        ofTheHouse && (
          <Button className="lw-primary" onClick={() => setSheet({ kind: 'new' })}>
            New trait
          </Button>
        )
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
      <TraitSheets sheet={sheet} onClose={close} />
    </Screen>
  );
}

interface TraitSheetsProps {
  sheet: OpenSheet;
  onClose: () => void;
}

function TraitSheets({ sheet, onClose }: TraitSheetsProps) {
  return (
    <>
      <Sheet title="New trait" opened={sheet?.kind === 'new'} onClose={onClose}>
        <TraitForm trait={null} onSaved={onClose} onCancel={onClose} />
      </Sheet>
      {sheet?.kind === 'correct' && (
        <Sheet title={`Correct ${sheet.trait.name}`} opened onClose={onClose}>
          <TraitForm trait={sheet.trait} onSaved={onClose} onCancel={onClose} />
        </Sheet>
      )}
      {sheet?.kind === 'withdraw' && (
        <WithdrawRecord
          mutation={WITHDRAW_TRAIT}
          record={sheet.trait}
          title={`Withdraw ${sheet.trait.name}`}
          what={`trait ${sheet.trait.name}`}
          onClose={onClose}
        />
      )}
    </>
  );
}

const plainColumns: readonly Column<Trait>[] = [
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
];

function traitColumns(setSheet: Dispatch<SetStateAction<OpenSheet>>): readonly Column<Trait>[] {
  return [
    ...plainColumns,
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (trait) => trait.mayChange && <TraitActions trait={trait} onOpen={setSheet} />,
    },
  ];
}

interface TraitActionsProps {
  trait: Trait;
  onOpen: (sheet: OpenSheet) => void;
}

function TraitActions({ trait, onOpen }: TraitActionsProps) {
  return (
    <span className="lw-row-buttons">
      <button
        type="button"
        aria-label={`Correct ${trait.name}`}
        onClick={() => onOpen({ kind: 'correct', trait })}
      >
        Correct
      </button>
      <button
        type="button"
        aria-label={`Withdraw ${trait.name}`}
        onClick={() => onOpen({ kind: 'withdraw', trait })}
      >
        Withdraw
      </button>
    </span>
  );
}
