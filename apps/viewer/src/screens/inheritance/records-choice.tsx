import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { type BroodOnRecord, LINKAGE_BROODS, type Look } from '../../api/inheritance.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { LookChoice, lastLook } from './look-choice.js';
import styles from './inheritance.module.css';

type OnFound = (broods: readonly BroodOnRecord[]) => void;

/** Takes the broods that tell of two looks from the records. */
export function RecordsChoice({ onFound }: { onFound: OnFound }) {
  const read = useRead(LOCUS_CHOICES, {});
  return (
    <Shown read={read} what="the loci">
      {({ loci }) => (
        <TwoLooks loci={loci.filter((locus) => locus.visible.length > 1)} onFound={onFound} />
      )}
    </Shown>
  );
}

function TwoLooks({ loci, onFound }: { loci: readonly LocusChoice[]; onFound: OnFound }) {
  const [one, two] = loci;
  const [looks, setLooks] = useState<readonly [Look, Look] | null>(() =>
    one === undefined || two === undefined ? null : [lastLook(one), lastLook(two)],
  );
  const [asked, setAsked] = useState<readonly [Look, Look] | null>(null);
  if (looks === null) return null;
  const [first, second] = looks;
  return (
    <>
      <div className={styles['choice']}>
        <LookChoice
          which="First"
          loci={loci}
          look={first}
          onChange={(look) => setLooks([look, ofAnother(loci, look, second)])}
        />
        <LookChoice
          which="Second"
          loci={loci.filter(({ id }) => id !== first.locusId)}
          look={second}
          onChange={(look) => setLooks([first, look])}
        />
      </div>
      <p>
        <Button variant="default" onClick={() => setAsked(looks)}>
          Take broods from the records
        </Button>
      </p>
      {asked !== null && <Found first={asked[0]} second={asked[1]} onFound={onFound} />}
    </>
  );
}

/** The second look, or one of another locus when the first is now of its own. */
function ofAnother(loci: readonly LocusChoice[], first: Look, second: Look): Look {
  if (first.locusId !== second.locusId) return second;
  const other = loci.find(({ id }) => id !== first.locusId);
  return other === undefined ? second : lastLook(other);
}

function Found({ first, second, onFound }: { first: Look; second: Look; onFound: OnFound }) {
  const read = useRead(LINKAGE_BROODS, { one: first, other: second });
  return (
    <Shown read={read} what="the broods">
      {({ linkageBroods }) => <Taken broods={linkageBroods} onFound={onFound} />}
    </Shown>
  );
}

function Taken({ broods, onFound }: { broods: readonly BroodOnRecord[]; onFound: OnFound }) {
  useEffect(() => {
    onFound(broods);
  }, [broods, onFound]);
  return (
    <p role="status">
      {broods.length === 0
        ? 'No brood on record helps with these two looks: none has a parent that shows neither and young that show each.'
        : `${plural(broods.length, 'brood')} taken from the records. Look them over.`}
    </p>
  );
}
