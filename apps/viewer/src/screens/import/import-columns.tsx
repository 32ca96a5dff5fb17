import { NativeSelect, TextInput } from '@mantine/core';
import type { ImportPreview } from '../../api/import.js';
import { TRAITS } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { plural } from '../../wording/figures.js';
import { columnSentence } from './import-words.js';
import { optionsOf, roleWord, type ImportColumnRole } from '../../wording/words.js';
import type { Trait } from '../../api/traits.js';
import type { Column } from '../../components/data-table.js';

export interface ColumnChoice {
  header: string;
  role: ImportColumnRole;
  traitId: string | null;
  traitName: string | null;
}

interface ImportColumnsProps {
  preview: ImportPreview;
  columns: readonly ColumnChoice[];
  busy: boolean;
  onChange: (columns: readonly ColumnChoice[]) => void;
}

/** Causes that lie in what the columns are read as. */
const ofColumns = new Set(['IMPORT_NO_TAG_COLUMN', 'IMPORT_COLUMN_MISSING', 'IMPORT_COLUMN_TWICE']);

/** What each column was taken for, with its first values; each can be chosen otherwise. */
export function ImportColumns({ preview, columns, busy, onChange }: ImportColumnsProps) {
  const traits = useRead(TRAITS, {});
  const known = traits.data?.traits ?? [];
  const change = (header: string, part: Partial<ColumnChoice>) =>
    onChange(columns.map((each) => (each.header === header ? { ...each, ...part } : each)));
  const rows = columns.map((choice) => ({
    choice,
    sample: preview.columns.find((each) => each.header === choice.header)?.sample ?? [],
  }));
  const unclear = preview.causes.some(({ code }) => ofColumns.has(code));
  return (
    <Section
      title="Columns"
      aside={`${preview.fileName}, ${plural(preview.rowCount, 'row')}${busy ? ', looking again…' : ''}`}
    >
      <p className="lw-words">{columnSentence(columns)}</p>
      <details className="lw-folded" open={unclear}>
        <summary>Change what a column is read as</summary>
        <DataTable
          caption="Columns of the file"
          rows={rows}
          rowKey={({ choice }) => choice.header}
          columns={choiceColumns(change, known)}
        />
      </details>
    </Section>
  );
}

interface TraitChoiceProps {
  choice: ColumnChoice;
  known: readonly { id: string; name: string }[];
  onChange: (part: Partial<ColumnChoice>) => void;
}

interface RoleChoiceProps {
  choice: ColumnChoice;
  onChange: (header: string, part: Partial<ColumnChoice>) => void;
}

function RoleChoice({ choice: { header, role }, onChange }: RoleChoiceProps) {
  return (
    <NativeSelect
      size="xs"
      aria-label={`Column ${header} is read as`}
      value={role}
      data={optionsOf(roleWord)}
      onChange={(event) => {
        const chosen = event.currentTarget.value as ImportColumnRole;
        const trait = chosen === 'TRAIT' ? header : null;
        onChange(header, { role: chosen, traitId: null, traitName: trait });
      }}
    />
  );
}

function choiceColumns(
  change: (header: string, part: Partial<ColumnChoice>) => void,
  known: Trait[],
): readonly Column<{ choice: ColumnChoice; sample: string[] }>[] {
  return [
    {
      key: 'header',
      title: 'In the file',
      cell: ({ choice }) => <strong>{choice.header}</strong>,
    },
    {
      key: 'role',
      title: 'Read as',
      cell: ({ choice }) => <RoleChoice choice={choice} onChange={change} />,
    },
    {
      key: 'trait',
      title: 'Trait',
      cell: ({ choice }) =>
        choice.role === 'TRAIT' && (
          <TraitChoice
            choice={choice}
            known={known}
            onChange={(part) => change(choice.header, part)}
          />
        ),
    },
    {
      key: 'sample',
      title: 'First values',
      wideOnly: true,
      cell: ({ sample }) => <span className="lw-quiet">{sample.slice(0, 4).join(', ')}</span>,
    },
  ];
}

function TraitChoice({ choice, known, onChange }: TraitChoiceProps) {
  return (
    <span className="lw-actions">
      <NativeSelect
        size="xs"
        aria-label={`Trait of column ${choice.header}`}
        value={choice.traitId ?? ''}
        data={[
          { value: '', label: 'a new trait' },
          ...known.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => {
          const id = event.currentTarget.value;
          onChange(
            id === ''
              ? { traitId: null, traitName: choice.header }
              : { traitId: id, traitName: null },
          );
        }}
      />
      {choice.traitId === null && <NewTraitName choice={choice} onChange={onChange} />}
    </span>
  );
}

function NewTraitName({ choice, onChange }: Omit<TraitChoiceProps, 'known'>) {
  return (
    <TextInput
      size="xs"
      aria-label={`Name of the new trait from column ${choice.header}`}
      defaultValue={choice.traitName ?? choice.header}
      onBlur={(event) => {
        const name = event.currentTarget.value.trim();
        if (name !== '' && name !== choice.traitName) onChange({ traitName: name });
      }}
    />
  );
}
