import { decimalIn } from '@linewright/pedigree';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { Link } from 'react-router';
import { LOCI } from '../../api/crosses.js';
import { OUTCROSSES, type Outcross } from '../../api/pairing-candidates.js';
import { TRAITS } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { FishLink, PlaceMark } from '../../components/fish-marks.js';
import { ReasonList, WarningList } from '../../components/pair-judgement.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { SeveralField } from '../../pickers/several-field.js';
import { plural } from '../../wording/figures.js';
import { leastPercent } from '../../wording/inbreeding-words.js';
import { outcrossPath } from '../outcross/chosen-partner.js';
import { OUTCROSS_SHARES } from '@linewright/mating';
import { OutcrossCautions } from '../outcross/outcross-cautions.js';
import { numberProblem } from './pairing-choice.js';
import styles from './outcross-section.module.css';
import type { Choice } from '../../components/fields.js';

const SUGGESTIONS = 12;
/** As many as the server lists. */
const MOST_SUGGESTIONS = 100;

interface Wanted {
  /** The line chosen here; that of the judged pairs while none is. */
  lineId: string | null;
  /** Locus and allele, read by `alleleKeys`. */
  alleles: string[];
  traitId: string;
  /** The least score, as typed. */
  minimum: string;
}

const nothing: Wanted = { lineId: null, alleles: [], traitId: '', minimum: '' };

/** Partners from outside a line, least related first, that carry what is wanted. */
export function OutcrossSection({ lineId, partners }: { lineId: string; partners: boolean }) {
  const [wanted, setWanted] = useState(nothing);
  const [least] = useDebouncedValue(wanted.minimum, 300);
  const line = wanted.lineId ?? lineId;
  const { alleles, traitId } = wanted;
  return (
    <Section title="Outcross partners">
      <p className="lw-quiet lw-words">
        Fish in use outside a line, those least related to it first, with what they would bring and
        what speaks against them.
      </p>
      <OutcrossCautions />
      <p className="lw-quiet lw-words">{OUTCROSS_SHARES}</p>
      <OutcrossFilter
        line={line}
        wanted={wanted}
        onChange={(part) => setWanted((before) => ({ ...before, ...part }))}
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
  );
}

interface OutcrossFilterProps {
  line: string;
  wanted: Wanted;
  onChange: (part: Partial<Wanted>) => void;
}

function OutcrossFilter({ line, wanted, onChange }: OutcrossFilterProps) {
  const lines = useLineChoices();
  const alleles = useAlleleChoices();
  return (
    <div className="lw-filter" role="group" aria-label="Outcross partners">
      <NativeSelect
        className="lw-filter-wide"
        label="Line to outcross"
        value={line}
        onChange={(event) => onChange({ lineId: event.currentTarget.value })}
        data={[{ value: '', label: 'choose' }, ...lines]}
      />
      <div className="lw-filter-wide">
        <SeveralField
          label="Alleles it should carry"
          none="none in particular"
          choices={alleles}
          value={wanted.alleles}
          onChange={(chosen) => onChange({ alleles: chosen })}
        />
      </div>
      <TraitFields wanted={wanted} onChange={onChange} />
    </div>
  );
}

function TraitFields({ wanted, onChange }: Omit<OutcrossFilterProps, 'line'>) {
  const traits = useRead(TRAITS, { includeWithdrawn: false }).data?.traits ?? [];
  return (
    <>
      <NativeSelect
        className="lw-filter-wide"
        label="Trait it should have"
        value={wanted.traitId}
        onChange={(event) => onChange({ traitId: event.currentTarget.value })}
        data={[
          { value: '', label: 'none in particular' },
          ...traits.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      {wanted.traitId !== '' && (
        <TextInput
          label="Scored at least"
          inputMode="decimal"
          value={wanted.minimum}
          error={numberProblem(wanted.minimum)}
          onChange={(event) => onChange({ minimum: event.currentTarget.value })}
        />
      )}
    </>
  );
}

/** Every allele of the catalogue: "dt double tail · Double tail". */
function useAlleleChoices(): Choice[] {
  const loci = useRead(LOCI, {}).data?.loci ?? [];
  return loci.flatMap((locus) =>
    locus.alleles.map((allele) => ({
      value: `${locus.id}:${allele.id}`,
      label: `${allele.symbol} ${allele.name} · ${locus.name}`,
    })),
  );
}

const alleleKeys = (choice: string): { locusId: string; alleleId: string } => {
  const [locusId = '', alleleId = ''] = choice.split(':');
  return { locusId, alleleId };
};

interface SuggestionsProps {
  lineId: string;
  partners: boolean;
  alleles: readonly string[];
  trait: { traitId: string; minimum: number | null } | null;
}

function Suggestions({ lineId, partners, alleles, trait }: SuggestionsProps) {
  const [first, setFirst] = useState(SUGGESTIONS);
  const read = useRead(OUTCROSSES, {
    input: {
      lineId,
      first,
      ...(partners && { includePartners: true }),
      ...(alleles.length > 0 && { wantAlleles: alleles.map(alleleKeys) }),
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
          <SuggestionList
            lineId={lineId}
            suggestions={outcrosses}
            first={first}
            onMore={setFirst}
          />
        )
      }
    </Shown>
  );
}

interface SuggestionListProps {
  lineId: string;
  suggestions: readonly Outcross[];
  /** How many were asked for: as many found means that there may be more. */
  first: number;
  onMore: (first: number) => void;
}

function SuggestionList({ lineId, suggestions, first, onMore }: SuggestionListProps) {
  const more = suggestions.length === first;
  return (
    <>
      <p className="lw-quiet" role="status">
        {plural(suggestions.length, 'partner')}, the best first
        {more && ', and there may be more'}.
      </p>
      <div role="list" aria-label="Suggested outcross partners">
        {suggestions.map((each) => (
          <Suggestion key={each.fish.id} lineId={lineId} suggestion={each} />
        ))}
      </div>
      {more && (
        <p className="lw-quiet">
          {first < MOST_SUGGESTIONS ? (
            <Button
              size="xs"
              onClick={() => onMore(Math.min(MOST_SUGGESTIONS, first + SUGGESTIONS))}
            >
              Show more
            </Button>
          ) : (
            `No more than ${MOST_SUGGESTIONS} are listed: ask above for alleles or a trait to see others.`
          )}
        </p>
      )}
    </>
  );
}

function Suggestion({ lineId, suggestion }: { lineId: string; suggestion: Outcross }) {
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
      <p>
        <Link to={outcrossPath(lineId, { partnerId: fish.id })}>
          What an outcross to {fish.tag} gives
        </Link>
      </p>
    </div>
  );
}
