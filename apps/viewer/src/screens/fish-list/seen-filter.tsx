import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedCallback } from '@mantine/hooks';
import { useState } from 'react';
import { LOCI } from '../../api/crosses.js';
import { TRAITS } from '../../api/traits.js';
import { VESSEL_CODES } from '../../api/vessels.js';
import { useRead } from '../../api/use-read.js';
import { useKeepsRecords } from '../../session/may.js';
import { useLookChoices } from '../line-purpose/use-look-choices.js';

export interface AddressFilter {
  readonly valueOf: (name: string) => string;
  readonly set: (parts: Readonly<Record<string, string>>) => void;
}

/** Narrows the list by what was seen, scored and photographed, and by age: open when the address asks for any of it. */
export function SeenFilter({ filter, begun }: { filter: AddressFilter; begun: boolean }) {
  const [open, setOpen] = useState(begun);
  return (
    <>
      <Button className="lw-middle" aria-expanded={open} onClick={() => setOpen(!open)}>
        More filters
      </Button>
      {open && <SeenFields filter={filter} />}
    </>
  );
}

const any = { value: '', label: 'any' };

function SeenFields({ filter }: { filter: AddressFilter }) {
  const looks = useLookChoices();
  const keeps = useKeepsRecords();
  const choose = (name: string) => (event: { currentTarget: { value: string } }) =>
    filter.set({ [name]: event.currentTarget.value });
  return (
    <>
      <NativeSelect
        label="Look"
        value={filter.valueOf('look')}
        data={[any, ...looks.choices]}
        onChange={choose('look')}
      />
      <AlleleChoice filter={filter} />
      <ScoreChoice filter={filter} />
      <TypedNumber filter={filter} name="older" label="Age from, weeks" />
      <TypedNumber filter={filter} name="younger" label="Age to, weeks" />
      {keeps && <VesselChoice filter={filter} />}
      {keeps && (
        <NativeSelect
          label="Photo"
          value={filter.valueOf('photo')}
          data={[any, { value: 'no', label: 'missing' }, { value: 'yes', label: 'there' }]}
          onChange={choose('photo')}
        />
      )}
    </>
  );
}

function VesselChoice({ filter }: { filter: AddressFilter }) {
  const read = useRead(VESSEL_CODES, { after: null });
  return (
    <NativeSelect
      label="Vessel"
      value={filter.valueOf('vessel')}
      data={[
        any,
        ...(read.data?.vessels.edges ?? []).map(({ node: { id, code } }) => ({
          value: id,
          label: code,
        })),
      ]}
      onChange={(event) => filter.set({ vessel: event.currentTarget.value })}
    />
  );
}

/** Of what stands in a genotype on record; who is likely to carry it, the page of the locus tells. */
function AlleleChoice({ filter }: { filter: AddressFilter }) {
  const loci = (useRead(LOCI, {}).data?.loci ?? []).filter(({ isWithdrawn }) => !isWithdrawn);
  return (
    <NativeSelect
      label="Gene on record"
      value={filter.valueOf('allele')}
      data={[
        any,
        ...loci.flatMap((locus) =>
          locus.alleles.map(({ id, symbol, name }) => ({
            value: [locus.id, ...new Set([id, symbol])].join(':'),
            label: `${symbol} ${name} · ${locus.name}`,
          })),
        ),
      ]}
      onChange={(event) => filter.set({ allele: event.currentTarget.value })}
    />
  );
}

function ScoreChoice({ filter }: { filter: AddressFilter }) {
  const traits = useRead(TRAITS, { includeWithdrawn: false }).data?.traits ?? [];
  const chosen = filter.valueOf('trait');
  return (
    <>
      <NativeSelect
        label="Scored for"
        value={chosen}
        data={[any, ...traits.map(({ id, name }) => ({ value: id, label: name }))]}
        onChange={(event) => {
          const trait = event.currentTarget.value;
          filter.set(trait === '' ? { trait, least: '', most: '' } : { trait });
        }}
      />
      {chosen !== '' && (
        <>
          <TypedNumber filter={filter} name="least" label="At least" />
          <TypedNumber filter={filter} name="most" label="At most" />
        </>
      )}
    </>
  );
}

interface TypedNumberProps {
  filter: AddressFilter;
  name: string;
  label: string;
}

function TypedNumber({ filter, name, label }: TypedNumberProps) {
  const [text, setText] = useState(filter.valueOf(name));
  const setSoon = useDebouncedCallback((value: string) => filter.set({ [name]: value }), 300);
  return (
    <TextInput
      label={label}
      inputMode="decimal"
      value={text}
      onChange={(event) => {
        setText(event.currentTarget.value);
        setSoon(event.currentTarget.value);
      }}
    />
  );
}
