import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { LOCI, type KnownLocus } from '../../api/crosses.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { DrawnLook } from '../../components/drawn-look.js';
import { Facts } from '../../components/facts.js';
import { Screen } from '../../components/screen.js';
import { useOfTheHouse } from '../../session/may.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { foundLoci, type LociWanted } from './found-loci.js';
import { OwnLocusActions } from './own-locus-actions.js';
import { OwnLocusForm } from './own-locus-form.js';
import { SettingsSection } from './settings-section.js';
import { ageText, plural } from '../../wording/figures.js';
import { confidenceText, confidenceWord, dominanceText } from '../../wording/pairing-words.js';
import styles from './loci-screen.module.css';

/** The catalogue of loci: what is known of each, how well, and from where. */
export function LociScreen() {
  const ofTheHouse = useOfTheHouse();
  const read = useRead(LOCI, {});
  const [wanted, setWanted] = useState<LociWanted>({ text: '', confidence: '' });
  const [defining, setDefining] = useState(false);
  return (
    <Screen
      title="Loci"
      lead="What is known about each locus, how sure it is, and where it comes from."
      actions={
        <>
          {ofTheHouse && <Button onClick={() => setDefining(true)}>Define a locus</Button>}
          <Link to="/crosses">Crosses</Link>
          <Link to="/inheritance">How a look is inherited</Link>
          <Link to="/contradictions">Contradictions</Link>
        </>
      }
    >
      <LociFilter wanted={wanted} onChange={(part) => setWanted({ ...wanted, ...part })} />
      <Shown read={read} what="the loci">
        {({ loci }) => (
          <>
            <FoundLoci found={foundLoci(loci, wanted)} />
            <SettingsSection loci={loci} />
          </>
        )}
      </Shown>
      <Sheet
        title="Define a locus of your own"
        opened={defining}
        onClose={() => setDefining(false)}
        size={760}
      >
        <OwnLocusForm locus={null} onClose={() => setDefining(false)} />
      </Sheet>
    </Screen>
  );
}

function FoundLoci({ found }: { found: readonly KnownLocus[] }) {
  return (
    <>
      <p className="lw-quiet" role="status">
        {plural(found.length, 'locus', 'loci')}
      </p>
      {found.length === 0 && (
        <Empty>No locus fits. Clear the text, or choose any confidence.</Empty>
      )}
      {found.map((locus) => (
        <Locus key={locus.id} locus={locus} />
      ))}
    </>
  );
}

interface LociFilterProps {
  wanted: LociWanted;
  onChange: (part: Partial<LociWanted>) => void;
}

function LociFilter({ wanted: { text, confidence }, onChange }: LociFilterProps) {
  return (
    <div className="lw-filter" role="search" aria-label="Filter the loci">
      <TextInput
        className="lw-filter-text"
        label="Find"
        type="search"
        placeholder="Name, symbol or appearance"
        value={text}
        onChange={(event) => onChange({ text: event.currentTarget.value })}
      />
      <NativeSelect
        className="lw-filter-wide"
        label="Confidence"
        value={confidence}
        onChange={(event) => onChange({ confidence: event.currentTarget.value })}
        data={[
          { value: '', label: 'any' },
          ...Object.entries(confidenceWord).map(([value, label]) => ({ value, label })),
        ]}
      />
    </div>
  );
}

function Locus({ locus }: { locus: KnownLocus }) {
  const titleId = `locus-${locus.id}`;
  return (
    <article className={styles['locus']} aria-labelledby={titleId}>
      <div className={styles['head']}>
        <h2 id={titleId}>{locus.name}</h2>
        <span>{confidenceText(locus.confidence)}</span>
        <span className="lw-quiet">
          {locus.computable ? 'worked out in crosses' : 'not worked out in crosses'}
          {locus.own && ` · your own, version ${locus.version}`}
        </span>
        {locus.computable && (
          <Link to={`/loci/${locus.id}/carriers`} aria-label={`Who carries ${locus.name}`}>
            Who carries it
          </Link>
        )}
      </div>
      {locus.isWithdrawn && (
        <div className="lw-notice lw-notice-caution" role="note">
          Withdrawn: records that use it say so, and it can be restored.
        </div>
      )}
      {locus.own && <OwnLocusActions locus={locus} />}
      {!locus.computable && (
        <p className="lw-words">
          <strong>Why not worked out: </strong>
          {locus.whyNotComputable ?? 'no reason is given'}
        </p>
      )}
      <LocusFacts locus={locus} />
    </article>
  );
}

function LocusFacts({ locus }: { locus: KnownLocus }) {
  return (
    <div className="lw-two-up">
      <Facts facts={factsOf(locus)} />
      <div>
        {locus.phenotypes.length > 0 && (
          <DataTable
            caption={`Appearance by genotype: ${locus.name}`}
            rows={locus.phenotypes}
            rowKey={({ genotype }) => genotype}
            columns={lookColumns(locus.id)}
          />
        )}
        <LocusSources locus={locus} />
      </div>
    </div>
  );
}

const lookColumns = (locusId: string): readonly Column<KnownLocus['phenotypes'][number]>[] => [
  {
    key: 'genotype',
    title: 'Genotype',
    cell: ({ genotype }) => <span className="lw-symbol">{genotype}</span>,
  },
  {
    key: 'look',
    title: 'Appearance',
    cell: ({ phenotype }) => (
      <DrawnLook words={phenotype} parts={[{ locusIds: [locusId], phenotype }]} />
    ),
  },
];

function LocusSources({ locus }: { locus: KnownLocus }) {
  if (locus.own) return <p className="lw-quiet">Source: your own definition.</p>;
  return (
    <details className="lw-folded">
      <summary aria-label={`Sources of ${locus.name}`}>
        {plural(locus.sources.length, 'source')}
      </summary>
      <ul className="lw-judged">
        {locus.sources.map((source) => (
          <li key={source}>{source}</li>
        ))}
      </ul>
    </details>
  );
}

function factsOf(locus: KnownLocus) {
  const optional = (name: string, value: string | null) =>
    value === null || value === '' ? [] : [{ name, value }];
  return [
    {
      name: 'Alleles',
      value: (
        <ul className={styles['plain-list']}>
          {locus.alleles.map(({ id, symbol, name }) => (
            <li key={id}>
              <span className="lw-symbol">{symbol}</span> {name}
            </li>
          ))}
        </ul>
      ),
    },
    {
      name: 'Dominance',
      value: `${dominanceText(locus.dominance)}${locus.own ? ' (from the appearances you defined)' : ''}`,
    },
    ...optional('More about it', locus.confidenceNote),
    ...optional('With other loci', locus.epistasis),
    ...optional('Risks', locus.risks),
    {
      name: 'Visible from',
      value: locus.scorableFromDays === null ? null : `${ageText(locus.scorableFromDays)} of age`,
    },
    ...(locus.alternativeSymbols.length === 0
      ? []
      : [
          {
            name: 'Other symbols',
            value: (
              <ul className={styles['plain-list']}>
                {locus.alternativeSymbols.map((each) => (
                  <li key={each}>{each}</li>
                ))}
              </ul>
            ),
          },
        ]),
    ...optional('Note', locus.note),
  ];
}
