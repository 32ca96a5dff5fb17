import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { CLUB_HERITABILITY, CLUB_LOAD, type PooledStage } from '../../api/club.js';
import { TRAITS } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { pooledFrom, STAGES, withInterval } from '../../wording/club-words.js';

/** Figures over the lines that count, worked out when they are asked for. */
export function PooledFigures() {
  const [open, setOpen] = useState(false);
  return (
    <Section
      title="Measured over several keepers"
      act
      actions={
        <Button size="xs" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Hide' : 'Work them out'}
        </Button>
      }
    >
      <p className="lw-words">
        From lines whose keepers ticked “Counted in the club’s figures”. A figure is told from three
        keepers or more, twelve broods or fish or more, and where no keeper has more than six in ten
        of them; to two digits; and not where one keeper alone came or went since it was told last.
        So nobody reads off what is one keeper’s. (Such thresholds are common practice of
        statistical offices; the numbers are ours.)
      </p>
      {open && (
        <>
          <LoadOverKeepers />
          <HeritabilityOverKeepers />
        </>
      )}
    </Section>
  );
}

function LoadOverKeepers() {
  const read = useRead(CLUB_LOAD, {});
  return (
    <>
      <h3>What inbreeding costs</h3>
      <p className="lw-quiet">
        Lethal equivalents a gamete by F of the young, with the interval of 95 %; each line has a
        level of its own (Morton, Crow and Muller 1956).
      </p>
      <Shown read={read} what="what inbreeding costs">
        {({ clubLoad }) => (
          <DataTable
            caption="What inbreeding costs over several keepers"
            rows={clubLoad}
            rowKey={({ stage }) => stage}
            columns={[
              { key: 'stage', title: 'Stage', cell: ({ stage }) => STAGES[stage] },
              { key: 'cost', title: 'Lethal equivalents', cell: costOf },
              {
                key: 'from',
                title: 'From',
                wideOnly: true,
                cell: (stage) => pooledFrom(stage, stage.broods, 'broods'),
              },
            ]}
          />
        )}
      </Shown>
    </>
  );
}

function costOf({ costs, whyNot }: PooledStage): string {
  const young = costs.find(({ column }) => column === 'YOUNG');
  if (young === undefined) return whyNot ?? 'not worked out';
  return withInterval(young.perGamete, young.low, young.high);
}

function HeritabilityOverKeepers() {
  const traits = useRead(TRAITS, {}).data?.traits ?? [];
  const [chosen, setChosen] = useState<string | null>(null);
  const traitId = chosen ?? traits[0]?.id ?? null;
  const read = useRead(CLUB_HERITABILITY, { traitId: traitId ?? '' }, { pause: traitId === null });
  return (
    <>
      <h3>How much of a trait is inherited</h3>
      {traitId === null ? (
        <Empty>No trait is recorded here that you see.</Empty>
      ) : (
        <>
          <NativeSelect
            label="Trait"
            data={traits.map(({ id, name }) => ({ value: id, label: name }))}
            value={traitId}
            onChange={(event) => setChosen(event.currentTarget.value)}
          />
          <Shown read={read} what="what is inherited">
            {({ clubHeritability: told }) => (
              <p className="lw-words">
                {told.mean === null
                  ? told.whyNot
                  : `Heritability ${withInterval(told.mean, told.low, told.high)}, with the band of 95 %; ${Math.round(100 * (told.fromPrior ?? 0))} of 100 of what is known came with what was taken as likely before.`}{' '}
                <span className="lw-quiet">{pooledFrom(told, told.fish, 'scored fish')}</span>
              </p>
            )}
          </Shown>
        </>
      )}
    </>
  );
}
