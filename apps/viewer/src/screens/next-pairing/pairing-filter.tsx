import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { catalogue } from '@linewright/heredity';
import { useState } from 'react';
import { LOCUS_CHOICES } from '../../api/heredity.js';
import { useRead } from '../../api/use-read.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { useInLinesAlone } from '../../session/may.js';
import { SeveralField } from '../../pickers/several-field.js';
import { OFFER_AWAY, OFFER_UNPLACED } from './candidate-words.js';
import {
  firstDirection,
  largestFProblem,
  type Direction,
  type LinesOfPair,
  type PairingChoice,
  type PairingSort,
} from './pairing-choice.js';
import type { Choice } from '../../components/fields.js';

interface PairingFilterProps {
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}

/** Looks of the catalogue's loci and the person's own; those of the catalogue until the API has answered. */
function useLookChoices() {
  const { data } = useRead(LOCUS_CHOICES, {});
  const loci =
    data?.loci.filter((locus) => !locus.isWithdrawn) ??
    catalogue.map((locus) => ({ ...locus, visible: locus.phenotypes }));
  return loci
    .filter((locus) => locus.computable)
    .flatMap((locus) =>
      locus.visible.map((look) => ({
        value: `${locus.id}:${look.id}`,
        label: `${look.name} · ${locus.name}`,
      })),
    );
}

const sortChoices: { value: PairingSort; label: string }[] = [
  { value: 'WORTH', label: 'worth' },
  { value: 'INBREEDING', label: 'F of the brood' },
  { value: 'SIRE', label: 'sire' },
  { value: 'DAM', label: 'dam' },
];

const pairsChoices: { value: LinesOfPair; label: string }[] = [
  { value: 'WITHIN_FIRST', label: 'of one line first' },
  { value: 'WITHIN', label: 'of one line only' },
  { value: 'ANY', label: 'of any lines' },
];

const orderLabels: Record<PairingSort, Record<Direction, string>> = {
  WORTH: { DESC: 'best first', ASC: 'worst first' },
  INBREEDING: { ASC: 'smallest first', DESC: 'largest first' },
  SIRE: { ASC: 'from A to Z', DESC: 'from Z to A' },
  DAM: { ASC: 'from A to Z', DESC: 'from Z to A' },
};

export function PairingFilter({ choice, onChange }: PairingFilterProps) {
  const apart = useInLinesAlone();
  const lines = useLineChoices();
  const looks = useLookChoices();
  const [unfolded, setUnfolded] = useState(false);
  return (
    <>
      <div
        className={unfolded ? 'lw-filter' : 'lw-filter lw-filter-folds'}
        role="search"
        aria-label="Filter the pairs"
      >
        <LinesChoice lines={lines} choice={choice} onChange={onChange} />
        <Button
          className="lw-filter-more"
          aria-expanded={unfolded}
          onClick={() => setUnfolded(!unfolded)}
        >
          {unfolded ? 'Fewer filters' : 'Filters'}
        </Button>
        <TextInput
          label="Largest F, %"
          inputMode="decimal"
          placeholder="any"
          value={choice.largestF}
          error={largestFProblem(choice.largestF)}
          onChange={(event) => onChange({ largestF: event.currentTarget.value })}
        />
        <WantedChoice looks={looks} choice={choice} onChange={onChange} />
        <NativeSelect
          label="Pairs"
          value={choice.pairs}
          onChange={(event) => onChange({ pairs: event.currentTarget.value as LinesOfPair })}
          data={pairsChoices}
        />
        <SortChoice choice={choice} onChange={onChange} />
        <OrderChoice choice={choice} onChange={onChange} />
      </div>
      <Checkbox
        size="md"
        label="Show discouraged pairs (those with a stop warning)"
        checked={choice.discouraged}
        onChange={(event) => onChange({ discouraged: event.currentTarget.checked })}
      />
      <Checkbox
        size="md"
        label={apart ? OFFER_UNPLACED : OFFER_AWAY}
        checked={choice.partners}
        onChange={(event) => onChange({ partners: event.currentTarget.checked })}
      />
    </>
  );
}

function LinesChoice({
  lines,
  choice,
  onChange,
}: {
  lines: Choice[];
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}) {
  return (
    <div className="lw-filter-text lw-filter-wide">
      <SeveralField
        label="Lines"
        none="all lines"
        choices={lines}
        value={choice.lineIds}
        onChange={(lineIds) => onChange({ lineIds })}
      />
    </div>
  );
}

function WantedChoice({
  looks,
  choice,
  onChange,
}: {
  looks: { value: string; label: string }[];
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}) {
  return (
    <div className="lw-filter-wide">
      <SeveralField
        label="Appearance wanted"
        none="none in particular"
        choices={looks}
        value={choice.looks}
        onChange={(chosen) => onChange({ looks: chosen })}
      />
    </div>
  );
}

function OrderChoice({
  choice,
  onChange,
}: {
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}) {
  return (
    <NativeSelect
      label="Order"
      value={choice.direction}
      onChange={(event) => onChange({ direction: event.currentTarget.value as Direction })}
      data={(['DESC', 'ASC'] as const).map((value) => ({
        value,
        label: orderLabels[choice.sort][value],
      }))}
    />
  );
}

function SortChoice({
  choice,
  onChange,
}: {
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}) {
  return (
    <NativeSelect
      label="Sort by"
      value={choice.sort}
      onChange={(event) => {
        const sort = event.currentTarget.value as PairingSort;
        onChange({ sort, direction: firstDirection[sort] });
      }}
      data={sortChoices}
    />
  );
}
