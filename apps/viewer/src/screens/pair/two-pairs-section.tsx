import { Button } from '@mantine/core';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import { PAIR_DIFFERENCE, PLANNED_BROOD, type PlannedBrood } from '../../api/pairings.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { damSexes, sireSexes } from '../../wording/words.js';
import { OTHER_PAIR, otherPairOf, type PairChoiceInput } from './choice-of-address.js';
import { differenceWords, sideBySide, speaksFor } from './two-pairs.js';

interface TwoPairsSectionProps {
  brood: PlannedBrood;
  input: PairChoiceInput | null;
}

/** This pair beside another: why not the one I had in mind? */
export function TwoPairsSection({ brood, input }: TwoPairsSectionProps) {
  const [search, setSearch] = useSearchParams();
  const other = otherPairOf(search);
  const choose = (sireId: string, damId: string) => {
    const next = new URLSearchParams(search);
    next.set(OTHER_PAIR, `${sireId},${damId}`);
    setSearch(next, { replace: true, preventScrollReset: true });
  };
  return (
    <Section title="Beside another pair">
      <OtherPairForm key={search.get(OTHER_PAIR)} other={other} onChoose={choose} />
      {other !== null && <Compared brood={brood} input={input} other={other} />}
    </Section>
  );
}

interface OtherPair {
  readonly sireId: string;
  readonly damId: string;
}

function OtherPairForm({
  other,
  onChoose,
}: {
  other: OtherPair | null;
  onChoose: (sireId: string, damId: string) => void;
}) {
  const [sireId, setSireId] = useState(other?.sireId ?? null);
  const [damId, setDamId] = useState(other?.damId ?? null);
  return (
    <form
      className="lw-filter"
      onSubmit={(event) => {
        event.preventDefault();
        if (sireId !== null && damId !== null) onChoose(sireId, damId);
      }}
    >
      <div className="lw-filter-text">
        <FishPicker label="Other sire" value={sireId} onChange={setSireId} sexes={sireSexes} />
      </div>
      <div className="lw-filter-text">
        <FishPicker label="Other dam" value={damId} onChange={setDamId} sexes={damSexes} />
      </div>
      <Button type="submit" disabled={sireId === null || damId === null}>
        Compare
      </Button>
    </form>
  );
}

function Compared({ brood, input, other }: TwoPairsSectionProps & { other: OtherPair }) {
  // Both by one line's purpose, or their points could not be held against each other.
  const lineId = brood.basis.lineId;
  const shared =
    input ??
    (lineId === null
      ? { includeDiscouraged: true }
      : { includeDiscouraged: true, lineIds: [lineId] });
  const read = useRead(PLANNED_BROOD, { ...other, broodSize: null, input: shared });
  const { sire, dam } = brood;
  const apart = useRead(PAIR_DIFFERENCE, {
    ...{ sireId: sire.id, damId: dam.id, otherSireId: other.sireId, otherDamId: other.damId },
    input: shared,
  });
  return (
    <Shown read={read} what="the other pair">
      {({ plannedBrood }) => (
        <>
          {apart.data !== undefined && brood.basis.version > 0 && (
            <p className="lw-words" role="status">
              {differenceWords(brood, plannedBrood, apart.data.pairDifference)}
            </p>
          )}
          <SideBySide brood={brood} other={plannedBrood} />
        </>
      )}
    </Shown>
  );
}

function SideBySide({ brood, other }: { brood: PlannedBrood; other: PlannedBrood }) {
  const name = ({ sire, dam }: PlannedBrood) => `${sire.tag} by ${dam.tag}`;
  return (
    <>
      <DataTable
        caption="Two pairs side by side"
        rows={sideBySide(brood, other)}
        rowKey={(row) => row.name}
        columns={[
          { key: 'name', title: '', cell: (row) => row.name },
          { key: 'this', title: name(brood), number: true, cell: (row) => row.texts[0] },
          { key: 'other', title: name(other), number: true, cell: (row) => row.texts[1] },
        ]}
      />
      {([brood, other] as const).map((pair, k) => (
        <p key={k} className="lw-words">
          For {name(pair)}: {speaksFor(brood, other, k === 0 ? 'first' : 'second')}
        </p>
      ))}
    </>
  );
}
