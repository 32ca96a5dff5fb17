import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import type { ResultOf } from '../../api/graphql.js';
import { ADD_FISH_TO_SPAWN, SPAWN_FISH } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { wholeNumber } from '../../components/field-rules.js';
import { ChoiceField, NumberField } from '../../components/fields.js';
import { FishFace } from '../../components/fish-face.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { plural } from '../../wording/figures.js';
import { optionsOf, sexWord } from '../../wording/words.js';

export function SpawnFishSection({ spawnId }: { spawnId: string }) {
  const [adding, setAdding] = useState(false);
  const read = useRead(SPAWN_FISH, { id: spawnId });
  const fish = read.data?.spawn.fish ?? [];
  return (
    <Section
      title="Fish of this spawn"
      aside={fish.length > 0 ? plural(fish.length, 'record') : undefined}
      actions={
        <>
          {fish.length > 0 && (
            <>
              <Link to={`/spawns/${spawnId}/sort`}>Sort them</Link>
              <Link to={`/spawns/${spawnId}/contact-sheet`}>Contact sheet</Link>
            </>
          )}
          <Button size="xs" onClick={() => setAdding(true)}>
            Add jarred fish
          </Button>
        </>
      }
    >
      <Shown read={read} what="the fish">
        {({ spawn }) =>
          spawn.fish.length === 0 ? (
            <NoneJarred />
          ) : (
            <FishPictures ids={spawn.fish.map((each) => each.id)}>
              <FishTable fish={spawn.fish} />
            </FishPictures>
          )
        }
      </Shown>
      <Sheet title="Add jarred fish" opened={adding} onClose={() => setAdding(false)}>
        <AddFishForm spawnId={spawnId} onClose={() => setAdding(false)} />
      </Sheet>
    </Section>
  );
}

function NoneJarred() {
  return (
    <Empty>
      No fish of this spawn has a record of its own yet. Add them when they are jarred: give the
      number, the tags are made for you.
    </Empty>
  );
}

type SpawnFish = ResultOf<typeof SPAWN_FISH>['spawn']['fish'];

function FishTable({ fish }: { fish: SpawnFish }) {
  return (
    <DataTable
      caption="Fish of this spawn"
      rows={fish}
      rowKey={({ id }) => id}
      columns={[
        { key: 'face', title: 'Looks', cell: (each) => <FishFace fish={each} /> },
        { key: 'tag', title: 'Tag', cell: ({ id, tag }) => <FishLink fish={{ id, tag }} /> },
        { key: 'sex', title: 'Sex', cell: ({ sex }) => <SexMark sex={sex} /> },
        {
          key: 'now',
          title: 'Decision',
          cell: ({ disposition }) => <DispositionMark disposition={disposition} />,
        },
        {
          key: 'why',
          title: 'Reason',
          wideOnly: true,
          cell: ({ dispositionReason }) => dispositionReason ?? '',
        },
      ]}
    />
  );
}

const schema = z.object({
  number: wholeNumber(1, 200),
  sex: z.enum(['MALE', 'FEMALE', 'UNSEXED', 'UNCERTAIN']),
  disposition: z.enum(['UNSORTED', 'KEEPER', 'HOLD']),
});

function AddFishForm({ spawnId, onClose }: { spawnId: string; onClose: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { number: '1', sex: 'UNSEXED' as const, disposition: 'UNSORTED' as const },
  });
  const { save, saving, problem } = useSave(ADD_FISH_TO_SPAWN);
  return (
    <RecordForm
      form={form}
      submit="Add fish"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        if ((await save({ input: { spawnId, ...values } })) !== null) onClose();
      }}
    >
      <JarredFields />
      <p className="lw-quiet">
        Each gets the next free tag of the spawn; correct a tag later on the fish’s own page.
      </p>
    </RecordForm>
  );
}

function JarredFields() {
  return (
    <FieldRow>
      <NumberField name="number" label="Number of fish" required />
      <ChoiceField name="sex" label="Sex" choices={optionsOf(sexWord)} />
      <ChoiceField
        name="disposition"
        label="Decision"
        choices={[
          { value: 'UNSORTED', label: 'unsorted' },
          { value: 'KEEPER', label: 'keeper' },
          { value: 'HOLD', label: 'hold' },
        ]}
      />
    </FieldRow>
  );
}
