import {
  inbreedingBands,
  measuredEffects,
  noBettaFigure,
  outcrossIsATrial,
  type MeasuredEffect,
} from '@linewright/kinship';
import { DataTable } from '../../components/data-table.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Why } from '../../components/why.js';
import { percent } from '../../wording/figures.js';
import type { Column } from '../../components/data-table.js';

const changeText = ({ changePercent }: MeasuredEffect): string => {
  const signed = (value: number): string => `${value > 0 ? '+' : ''}${value} %`;
  if (changePercent === null) return 'in words';
  return typeof changePercent === 'number'
    ? signed(changePercent)
    : `${signed(changePercent[0])} to ${signed(changePercent[1])}`;
};

/** What such figures can tell and what they cannot. */
export function CautionSection() {
  return (
    <Section title="Before you act on these figures">
      <Caution>{noBettaFigure}</Caution>
      <Caution>{outcrossIsATrial}</Caution>
      <Why
        about="What inbreeding cost in other fish"
        figure="What F of 25 % and 37.5 % cost in other fish"
      >
        <DataTable
          caption="Measured effects of inbreeding in other fish"
          rows={measuredEffects}
          rowKey={({ trait, inbreeding, source }) => `${source} ${trait} ${String(inbreeding)}`}
          columns={effectColumns()}
        />
      </Why>
      <BandsOfF />
    </Section>
  );
}

function BandsOfF() {
  return (
    <Why about="Bands of F" figure="Bands of F are guides, not limits">
      <p className="lw-words">
        The bands are our own: each border is the F of a simple mating of otherwise unrelated fish,
        not a step in any measured harm.
      </p>
      <DataTable
        caption="Bands of F"
        rows={inbreedingBands}
        rowKey={({ name }) => name}
        columns={[
          {
            key: 'from',
            title: 'From F',
            number: true,
            cell: ({ from }) => (from > 0 && from < 1e-9 ? 'above 0' : percent(from)),
          },
          { key: 'name', title: 'Band', cell: ({ name }) => name },
          { key: 'meaning', title: 'Meaning', cell: ({ meaning }) => meaning },
        ]}
      />
    </Why>
  );
}

function effectColumns(): readonly Column<MeasuredEffect>[] {
  return [
    { key: 'species', title: 'Fish', cell: ({ species }) => species },
    {
      key: 'f',
      title: 'F',
      number: true,
      cell: ({ inbreeding }) => (inbreeding === null ? 'several' : percent(inbreeding, 1)),
    },
    { key: 'trait', title: 'What', cell: ({ trait }) => trait },
    { key: 'change', title: 'Change', number: true, cell: changeText },
    { key: 'finding', title: 'Finding', cell: ({ finding }) => finding },
    {
      key: 'source',
      title: 'Source',
      cell: ({ source, basis }) => `${source} (${basis})`,
    },
  ];
}
