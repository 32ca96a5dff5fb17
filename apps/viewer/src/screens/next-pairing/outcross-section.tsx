import { decimalIn } from '@linewright/care';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { LOCI } from '../../api/crosses.js';
import { OUTCROSSES, type Outcross } from '../../api/pairing-candidates.js';
import { TRAITS } from '../../api/traits.js';
import { useRead, type Read } from '../../api/use-read.js';
import { FishLink, PlaceMark } from '../../components/fish-marks.js';
import { ReasonList, WarningList } from '../../components/pair-judgement.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { SeveralField } from '../../pickers/several-field.js';
import { plural } from '../../wording/figures.js';
import { leastPercent } from '../../wording/inbreeding-words.js';
import { numberProblem } from './pairing-choice.js';
import styles from './outcross-section.module.css';
import type { Choice } from '../../components/fields.js';
import type { Trait } from '../../api/traits.js';

const SUGGESTIONS = 12;
/** As many as the server lists. */
const MOST_SUGGESTIONS = 100;

/** Partners from outside a line, least related first, that carry what is wanted. */
export function OutcrossSection({ lineId, partners }: { lineId: string; partners: boolean }) {
  const [chosen, setChosen] = useState<string | null>(null);
  const [alleles, setAlleles] = useState<string[]>([]);
  const [traitId, setTraitId] = useState('');
  const [minimum, setMinimum] = useState('');
  const lines = useLineChoices();
  const loci = useRead(LOCI, {});
  const traits = useRead(TRAITS, { includeWithdrawn: false });
  const line = chosen ?? lineId;
  const [least] = useDebouncedValue(minimum, 300);
  const alleleChoices = (loci.data?.loci ?? []).flatMap((locus) =>
    locus.alleles.map((allele) => ({
      value: `${locus.id}:${allele.id}`,
      label: `${allele.symbol} ${allele.name} · ${locus.name}`,
    })),
  );
  return (
    <div id="outcross" tabIndex={-1}>
      <Section title="Outcross partners">
        <p className="lw-quiet lw-words">
          Fish in use outside a line, those least related to it first, with what they would bring
          and what speaks against them.
        </p>
        <OutcrossFilter
          line={line}
          setChosen={setChosen}
          lines={lines}
          alleleChoices={alleleChoices}
          alleles={alleles}
          setAlleles={setAlleles}
          traitId={traitId}
          setTraitId={setTraitId}
          traits={traits}
          minimum={minimum}
          setMinimum={setMinimum}
        />
        {line !== '' && (
          <Suggestions
            lineId={line}
            partners={partners}
            alleles={alleles}
            trait={traitId === '' ? null : { traitId, minimum: decimalIn(least) }}
          />
        )}
      </Section>
    </div>
  );
}

interface SuggestionsProps {
  lineId: string;
  partners: boolean;
  alleles: readonly string[];
  trait: { traitId: string; minimum: number | null } | null;
}

function OutcrossFilter({
  line,
  setChosen,
  lines,
  alleleChoices,
  alleles,
  setAlleles,
  traitId,
  setTraitId,
  traits,
  minimum,
  setMinimum,
}: {
  line: string;
  setChosen: Dispatch<SetStateAction<string | null>>;
  lines: Choice[];
  alleleChoices: { value: string; label: string }[];
  alleles: string[];
  setAlleles: Dispatch<SetStateAction<string[]>>;
  traitId: string;
  setTraitId: Dispatch<SetStateAction<string>>;
  traits: Read<{ traits: Trait[] }>;
  minimum: string;
  setMinimum: Dispatch<SetStateAction<string>>;
}) {
  return (
    <div className="lw-filter" role="group" aria-label="Outcross partners">
      <NativeSelect
        className="lw-filter-wide"
        label="Line to outcross"
        value={line}
        onChange={(event) => setChosen(event.currentTarget.value)}
        data={[{ value: '', label: 'choose' }, ...lines]}
      />
      <div className="lw-filter-wide">
        <SeveralField
          label="Alleles it should carry"
          none="none in particular"
          choices={alleleChoices}
          value={alleles}
          onChange={setAlleles}
        />
      </div>
      <NativeSelect
        className="lw-filter-wide"
        label="Trait it should have"
        value={traitId}
        onChange={(event) => setTraitId(event.currentTarget.value)}
        data={[
          { value: '', label: 'none in particular' },
          ...(traits.data?.traits ?? []).map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      {traitId !== '' && (
        <TextInput
          label="Scored at least"
          inputMode="decimal"
          value={minimum}
          error={numberProblem(minimum)}
          onChange={(event) => setMinimum(event.currentTarget.value)}
        />
      )}
    </div>
  );
}

function Suggestions({ lineId, partners, alleles, trait }: SuggestionsProps) {
  const [first, setFirst] = useState(SUGGESTIONS);
  const read = useRead(OUTCROSSES, {
    input: {
      lineId,
      first,
      ...(partners && { includePartners: true }),
      ...(alleles.length > 0 && {
        wantAlleles: alleles.map((each) => {
          const [locusId = '', alleleId = ''] = each.split(':');
          return { locusId, alleleId };
        }),
      }),
      ...(trait?.minimum != null && {
        minimumTraits: [{ traitId: trait.traitId, minimum: trait.minimum }],
      }),
    },
  });
  return (
    <Shown read={read} what="the outcross partners">
      {({ outcrosses }) =>
        outcrosses.length === 0 ? (
          <Empty>
            No fish in use outside this line fits. Ask for less, or record fish from elsewhere.
          </Empty>
        ) : (
          <>
            <p className="lw-quiet" role="status">
              {plural(outcrosses.length, 'partner')}, the best first
              {outcrosses.length === first && ', and there may be more'}.
            </p>
            <div role="list" aria-label="Suggested outcross partners">
              {outcrosses.map((each) => (
                <Suggestion key={each.fish.id} suggestion={each} />
              ))}
            </div>
            {outcrosses.length === first && (
              <p className="lw-quiet">
                {first < MOST_SUGGESTIONS ? (
                  <Button
                    size="xs"
                    onClick={() => setFirst(Math.min(MOST_SUGGESTIONS, first + SUGGESTIONS))}
                  >
                    Show more
                  </Button>
                ) : (
                  `No more than ${MOST_SUGGESTIONS} are listed: ask above for alleles or a trait to see others.`
                )}
              </p>
            )}
          </>
        )
      }
    </Shown>
  );
}

function Suggestion({ suggestion }: { suggestion: Outcross }) {
  const { fish, meanCoancestry, basis, reasons, warnings } = suggestion;
  return (
    <div className={styles['outcross']} role="listitem">
      <h3>
        <FishLink fish={fish} /> <PlaceMark fish={fish} />{' '}
        <span className="lw-quiet">
          {fish.line?.code ?? 'no line'} · mean coancestry with the line{' '}
          {leastPercent(meanCoancestry, basis === 'KNOWN')}
        </span>
      </h3>
      <div className="lw-two-up">
        <ReasonList reasons={reasons} />
        <WarningList warnings={warnings} />
      </div>
    </div>
  );
}
