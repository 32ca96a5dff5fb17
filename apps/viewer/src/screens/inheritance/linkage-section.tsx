import { Button } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useCallback, useState } from 'react';
import { type BroodOnRecord, LINKAGE, type LinkageAnswer } from '../../api/inheritance.js';
import { useRead } from '../../api/use-read.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { plainNumber } from '../../wording/figures.js';
import { BroodFields } from './brood-fields.js';
import { linkageVerdict, recombinationText } from './inheritance-words.js';
import { RecordsChoice } from './records-choice.js';
import { blankBrood, broodsOf, type TypedBrood, withRecords } from './typed-broods.js';
import styles from './inheritance.module.css';

/** Two looks: broods as counted, and what they say. */
export function LinkageSection() {
  const [typed, setTyped] = useState<readonly TypedBrood[]>([blankBrood(1)]);
  // The same function at each drawing, so that what was changed by hand is not taken anew.
  const take = useCallback(
    (found: readonly BroodOnRecord[]) => setTyped((before) => withRecords(before, found)),
    [],
  );
  const [settled] = useDebouncedValue(typed, 300);
  const broods = broodsOf(settled);
  const read = useRead(LINKAGE, { broods: broods ?? [] }, { pause: (broods ?? []).length === 0 });
  const change = (key: number, part: Partial<TypedBrood>) =>
    setTyped(typed.map((brood) => (brood.key === key ? { ...brood, ...part } : brood)));
  return (
    <Section title="Two looks inherited together?">
      <p className="lw-quiet">
        For two looks that a fish shows only with two copies. Use broods of a parent that carries
        both looks hidden: with a partner that shows both looks, or with one that carries both too.
        Count all young at an age when both looks can be seen. Blank is 0.
      </p>
      <RecordsChoice onFound={take} />
      <ul className={styles['broods']} aria-label="Broods counted">
        {typed.map((brood, place) => (
          <li key={brood.key} className={styles['brood']}>
            <BroodFields
              brood={brood}
              number={place + 1}
              onChange={(part) => change(brood.key, part)}
              onRemove={
                typed.length > 1
                  ? () => setTyped(typed.filter(({ key }) => key !== brood.key))
                  : undefined
              }
            />
          </li>
        ))}
      </ul>
      <Button
        variant="default"
        onClick={() => setTyped([...typed, blankBrood(1 + Math.max(...typed.map((b) => b.key)))])}
      >
        Add a brood
      </Button>
      {(broods ?? []).length > 0 && (
        <Shown read={read} what="the answer">
          {({ linkage }) => <Answer found={linkage} />}
        </Shown>
      )}
    </Section>
  );
}

function Answer({ found }: { found: LinkageAnswer }) {
  return (
    <>
      <p role="status">
        <strong>{linkageVerdict(found)}</strong>
      </p>
      <Facts
        facts={[
          { name: 'Part in', value: recombinationText(found) },
          { name: 'LOD score', value: plainNumber(found.lod, 2) },
          { name: 'Young counted', value: found.young },
          ...(found.inSires === null
            ? []
            : [{ name: 'In sires alone', value: recombinationText(found.inSires) }]),
          ...(found.inDams === null
            ? []
            : [{ name: 'In dams alone', value: recombinationText(found.inDams) }]),
        ]}
      />
      <p className="lw-quiet">
        In brackets: where the LOD score lies within 1 of its top. A LOD score of 3 is the customary
        line for linkage, −2 against it. Young that died before they were counted, more of one kind
        than of another, can look like linkage.
      </p>
    </>
  );
}
