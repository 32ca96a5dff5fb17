import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { END_TOKEN, MAKE_TOKEN, type NewToken, type WaysIn } from '../../api/ways-in.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { requiredText } from '../../components/field-rules.js';
import { ChoiceField, TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { ShownOnce } from '../../components/shown-once.js';
import { showTime } from '../../wording/figures.js';
import { endColumn } from './end-column.js';
import { OwnPasswordField, ownPassword } from './password-field.js';

type Token = WaysIn['tokens'][number];

/** By which programs ask in a person's name. */
export function TokensSection({ tokens }: { tokens: readonly Token[] }) {
  const [making, setMaking] = useState(false);
  const [made, setMade] = useState<NewToken | null>(null);
  return (
    <Section
      title="Tokens for programs"
      actions={
        <Button
          onClick={() => {
            setMade(null);
            setMaking(true);
          }}
        >
          Make a token
        </Button>
      }
    >
      <p className="lw-words">
        A program of yours can ask for records, or record, in your name. It sends a token in place
        of your password, sees what you see, and can change neither accounts nor the install.
      </p>
      {made !== null && (
        <ShownOnce secrets={[made.secret]}>
          The token for {made.token.name}, shown this once. The program sends it in the header{' '}
          <code>Authorization: Bearer …</code>; it works until {showTime(made.token.expiresAt)}.
        </ShownOnce>
      )}
      {tokens.length > 0 && <Tokens tokens={tokens} />}
      <Sheet title="Make a token" opened={making} onClose={() => setMaking(false)}>
        <MakeToken
          onMade={(token) => {
            setMaking(false);
            setMade(token);
          }}
          onCancel={() => setMaking(false)}
        />
      </Sheet>
    </Section>
  );
}

function Tokens({ tokens }: { tokens: readonly Token[] }) {
  const { save, saving, problem } = useSave(END_TOKEN);
  return (
    <>
      <DataTable
        caption="Tokens for programs"
        rows={tokens}
        rowKey={({ id }) => id}
        columns={[
          { key: 'name', title: 'Program', cell: ({ name }) => name },
          {
            key: 'may',
            title: 'May',
            cell: ({ mayRecord }) => (mayRecord ? 'read and record' : 'read'),
          },
          {
            key: 'used',
            title: 'Last used',
            unbroken: true,
            wideOnly: true,
            cell: ({ usedAt }) => (usedAt === null ? 'never' : showTime(usedAt)),
          },
          {
            key: 'until',
            title: 'Ends',
            unbroken: true,
            cell: ({ expiresAt }) => showTime(expiresAt),
          },
          endColumn<Token>({
            ...{ word: 'End', saving },
            label: ({ name }) => `End the token for ${name}`,
            onEnd: ({ id }) => void save({ id }),
          }),
        ]}
      />
      <ProblemNotice problem={problem} />
    </>
  );
}

const schema = z.object({
  name: requiredText('Say which program the token is for.'),
  may: z.enum(['read', 'record']),
  days: z.enum(['30', '90', '366']),
  ...ownPassword,
});

function MakeToken({
  onMade,
  onCancel,
}: {
  onMade: (token: NewToken) => void;
  onCancel: () => void;
}) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { name: '', may: 'read' as const, days: '90' as const, password: '' },
  });
  const { save, saving, problem } = useSave(MAKE_TOKEN);
  return (
    <RecordForm
      form={form}
      submit="Make the token"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ name, may, days, password }) => {
        const input = { name, mayRecord: may === 'record', days: Number(days) };
        const saved = await save({ password, input });
        if (saved !== null) onMade(saved.makeToken);
      }}
    >
      <TextField name="name" label="For which program" required />
      <ChoiceField
        name="may"
        label="It may"
        choices={[
          { value: 'read', label: 'read' },
          { value: 'record', label: 'read and record' },
        ]}
      />
      <ChoiceField
        name="days"
        label="For"
        choices={[
          { value: '30', label: '30 days' },
          { value: '90', label: '90 days' },
          { value: '366', label: 'a year' },
        ]}
      />
      <OwnPasswordField />
    </RecordForm>
  );
}
