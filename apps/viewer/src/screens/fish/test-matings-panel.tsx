import { NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { TEST_MATINGS, type CarrierLocus, type TestMatings } from '../../api/carriers.js';
import { useRead } from '../../api/use-read.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { wholeNumber } from '../../components/field-rules.js';
import { FishLink } from '../../components/fish-marks.js';
import { Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { chanceText } from '../../wording/chances.js';
import { plural } from '../../wording/figures.js';

const fryRule = wholeNumber(1, 100);

interface TestMatingsPanelProps {
  fishId: string;
  locus: CarrierLocus;
}

/** What is to be tested, with whom and on how many young. */
function useTestMatings({ fishId, locus }: TestMatingsPanelProps) {
  const uncertain = [...locus.alleles].sort(
    (a, b) => Math.abs(a.probability - 0.5) - Math.abs(b.probability - 0.5),
  );
  const [allele, setAllele] = useState(uncertain[0]?.alleleId ?? '');
  const [typed, setTyped] = useState('20');
  const [lineId, setLineId] = useState('');
  const fry = fryRule.safeParse(typed);
  const input = {
    ...{ fishId, locusId: locus.locusId, allele, fry: fry.success ? fry.data : 20 },
    ...(lineId !== '' && { lineId }),
  };
  const read = useRead(TEST_MATINGS, { input }, { pause: !fry.success });
  const asked = { allele, setAllele, typed, setTyped, lineId, setLineId, valid: fry.success };
  return { read, asked };
}

/** Partners ranked by how much a brood with them would tell about what the fish carries. */
export function TestMatingsPanel(props: TestMatingsPanelProps) {
  const { locus } = props;
  const { read, asked } = useTestMatings(props);
  return (
    <>
      <TestChoices locus={locus} asked={asked} />
      <Shown read={read} what="the test matings">
        {({ testMatings }) =>
          testMatings.waiting === null ? (
            <Ranked found={testMatings} founders={locus.founders} />
          ) : (
            <WaitingComputation
              computation={testMatings.waiting}
              what="the stock"
              onDone={read.reload}
            />
          )
        }
      </Shown>
    </>
  );
}

interface TestChoicesProps {
  locus: CarrierLocus;
  asked: ReturnType<typeof useTestMatings>['asked'];
}

function TestChoices({ locus, asked }: TestChoicesProps) {
  const lines = useLineChoices();
  return (
    <div className="lw-filter" role="group" aria-label="What to test">
      <NativeSelect
        label="Does it carry"
        value={asked.allele}
        onChange={(event) => asked.setAllele(event.currentTarget.value)}
        data={locus.alleles.map((one) => ({
          value: one.alleleId,
          label: `${one.symbol} · ${one.name} (${chanceText(one.probability)})`,
        }))}
      />
      <NativeSelect
        label="Partners of line"
        value={asked.lineId}
        onChange={(event) => asked.setLineId(event.currentTarget.value)}
        data={[{ value: '', label: 'any' }, ...lines]}
      />
      <TextInput
        label="Young you can score"
        inputMode="numeric"
        value={asked.typed}
        error={asked.valid ? undefined : 'Give a whole number from 1 to 100.'}
        onChange={(event) => asked.setTyped(event.currentTarget.value)}
      />
    </div>
  );
}

function comparedWords({ partnerCount, judgedCount, matings }: TestMatings): string {
  const fish = plural(partnerCount, 'fish', 'fish');
  const here = `${fish} in use here could be the partner`;
  const told = matings.filter(({ partner }) => partner !== null).length;
  const shown = told < judgedCount ? ` The ${told} most telling are listed.` : '';
  if (judgedCount === partnerCount) return `${here}; all were compared.${shown}`;
  return `${here}; ${judgedCount.toLocaleString('en')} were compared, the first by tag. Choose a line to compare others.${shown}`;
}

type Mating = TestMatings['matings'][number];

function Partner({ mating: { partner, name, notKnown } }: { mating: Mating }) {
  return (
    <>
      {partner === null ? (
        name
      ) : (
        <>
          <FishLink fish={partner} />
          {name.slice(partner.tag.length)}
        </>
      )}
      {notKnown !== null && <div className="lw-quiet">{notKnown}</div>}
    </>
  );
}

function showingText({ showing }: Mating): string {
  if (showing === null) return 'not known';
  return showing > 0 ? chanceText(showing) : 'none';
}

const columns: readonly Column<Mating>[] = [
  { key: 'partner', title: 'Partner', cell: (one) => <Partner mating={one} /> },
  {
    key: 'tells',
    title: 'Uncertainty removed',
    number: true,
    cell: (one) => (one.share === null ? 'not known' : chanceText(one.share)),
  },
  { key: 'shows', title: 'Young that show it', number: true, wideOnly: true, cell: showingText },
  {
    key: 'fry',
    title: 'Fry to be 95 % sure',
    number: true,
    cell: (one) => one.fryNeeded ?? (one.notKnown === null ? 'out of reach' : 'not known'),
  },
];

function Ranked({ found, founders }: { found: TestMatings; founders: string }) {
  return (
    <>
      <DataTable
        caption="Test matings, most informative first"
        rows={found.matings}
        rowKey={(one) => one.name}
        columns={columns}
      />
      <p className="lw-quiet">{comparedWords(found)}</p>
      {found.notKnownCount > 0 && (
        <p className="lw-quiet">
          Of {plural(found.notKnownCount, 'fish', 'fish')} it is not known, because other loci may
          hide what there would be to see: these stand last.
        </p>
      )}
      <p className="lw-quiet">{founders}</p>
      {found.assumed.map((one) => (
        <p className="lw-quiet" key={one}>
          {one}
        </p>
      ))}
      <p className="lw-quiet">
        “Uncertainty removed” is the share of the uncertainty about its genotype that such a brood
        is expected to take away. “Fry” are those to score before a carrier would show itself; “out
        of reach” where this partner may not show it however many are raised. Young on which another
        locus hides it do not count. Every fry raised needs a home.
      </p>
    </>
  );
}
