import { useState } from 'react';
import { useUnsaved } from '../../components/unsaved.js';
import { tooMany } from '../../wording/brood-left.js';
import { plural } from '../../wording/figures.js';
import type { BenchParts } from './bench-parts.js';
import { cullOf, slipsOfCull, type CullSlips, type TypedCull } from './cull-count.js';

interface CullFryParts extends BenchParts {
  onClose: () => void;
  /** Counted while sorting. */
  locusId: string | null;
}

/** A cull of fry while it is typed; more than can be left are asked about once, then taken. */
export function useCullFry({ bench, entries, say, onClose, locusId: counting }: CullFryParts) {
  const [typed, setTyped] = useState<TypedCull>({
    ...{ number: '', reason: '', heritable: false, locusId: counting ?? '', phenotype: '' },
  });
  const [slips, setSlips] = useState<CullSlips>({});
  const [warned, setWarned] = useState<string | null>(null);
  useUnsaved(typed.number !== '' || typed.reason !== '' || typed.heritable);
  const type = (given: Partial<TypedCull>) => {
    setTyped((before) => ({ ...before, ...given }));
    if (given.number !== undefined) setWarned(null);
  };
  const save = async () => {
    const wrong = slipsOfCull(typed);
    setSlips(wrong);
    if (Object.keys(wrong).length > 0) return;
    const cull = cullOf(typed, bench.loci);
    const excess = tooMany(bench.brood, cull.number);
    if (excess !== null && warned !== excess) {
      setWarned(excess);
      return;
    }
    if (!(await entries.cullFry(cull))) return;
    say(`${plural(cull.number, 'fry', 'fry')} culled`);
    onClose();
  };
  return { typed, type, slips, warned, save };
}
