import { Button } from '@mantine/core';
import { LINKAGE, type LinkageAnswer } from '../../api/inheritance.js';
import { useRead } from '../../api/use-read.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { plainNumber } from '../../wording/figures.js';
import { BroodFields } from './brood-fields.js';
import { linkageVerdict, recombinationText } from './inheritance-words.js';
import { RecordsChoice } from './records-choice.js';
import { type TypedBroods, useTypedBroods } from './use-typed-broods.js';
import styles from './inheritance.module.css';

/** Two looks: broods as counted, and what they say. */
export function LinkageSection() {
  const broods = useTypedBroods();
  const { asked } = broods;
  const read = useRead(LINKAGE, { broods: asked }, { pause: asked.length === 0 });
  return (
    <Section title="Two looks inherited together?">
      <p className="lw-quiet">
        For two looks that a fish shows only with two copies. Use broods of a parent that carries
        both looks hidden: with a partner that shows both looks, or with one that carries both too.
        Count all young at an age when both looks can be seen. Blank is 0.
      </p>
      <RecordsChoice onFound={broods.take} />
      <CountedBroods broods={broods} />
      <Button variant="default" onClick={broods.add}>
        Add a brood
      </Button>
      {asked.length > 0 && (
        <Shown read={read} what="the answer">
          {({ linkage }) => <Answer found={linkage} />}
        </Shown>
      )}
    </Section>
  );
}

function CountedBroods({ broods: { typed, change, remove } }: { broods: TypedBroods }) {
  return (
    <ul className={styles['broods']} aria-label="Broods counted">
      {typed.map((brood, place) => (
        <li key={brood.key} className={styles['brood']}>
          <BroodFields
            brood={brood}
            number={place + 1}
            onChange={(part) => change(brood.key, part)}
            onRemove={remove && (() => remove(brood.key))}
          />
        </li>
      ))}
    </ul>
  );
}

function Answer({ found }: { found: LinkageAnswer }) {
  return (
    <>
      <p role="status">
        <strong>{linkageVerdict(found)}</strong>
      </p>
      <Facts facts={answerFacts(found)} />
      <p className="lw-quiet">
        In brackets: where the LOD score lies within 1 of its top. A LOD score of 3 is the customary
        line for linkage, −2 against it. Young that died before they were counted, more of one kind
        than of another, can look like linkage.
      </p>
    </>
  );
}

const answerFacts = (found: LinkageAnswer) => [
  { name: 'Part in', value: recombinationText(found) },
  { name: 'LOD score', value: plainNumber(found.lod, 2) },
  { name: 'Young counted', value: found.young },
  ...(found.inSires === null
    ? []
    : [{ name: 'In sires alone', value: recombinationText(found.inSires) }]),
  ...(found.inDams === null
    ? []
    : [{ name: 'In dams alone', value: recombinationText(found.inDams) }]),
];
