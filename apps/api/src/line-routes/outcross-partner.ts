import {
  type DescribedFish,
  looksHidden,
  planningEffect,
  standingWarnings,
  withDescribedFish,
} from '@linewright/mating';
import type { EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { candidateRows, toCandidate } from '../stock/candidate-rows.js';
import type { BelievedLine } from './line-beliefs.service.js';
import type { DescribedFishInput } from './outcross.inputs.js';

/** Place of a described fish among those on record, whose ids are UUIDs. */
const DESCRIBED = 'described';
const ASSUMED =
  'The partner is not on record: it is taken to be related to no fish here and not inbred, as good in each trait as fish nothing is known of, with all alleles of a locus equally common but for what it shows. Record its parents or its scores where you can.';

/** Whether a fish on record can be the partner at all, and what is to be known before. */
export interface PartnerStanding {
  readonly id: string;
  readonly whyNone: string | null;
  readonly cautions: readonly string[];
}

/** @throws RequestError NOT_FOUND; VALIDATION for a fish of the line itself. */
export const partnerOnRecord = async (
  manager: EntityManager,
  partnerId: string,
  lineId: string,
): Promise<PartnerStanding> => {
  const [row] = await candidateRows(manager, [partnerId], null);
  const { id, tag, sex, lineId: of } = row!;
  if (of === lineId) {
    const message = `${tag} is of this line: choose a fish of another line, or of none.`;
    throw fieldError({ field: 'partnerId', message });
  }
  if (sex !== 'male' && sex !== 'female')
    return { id, cautions: [], whyNone: `The sex of ${tag} is not recorded: record it first.` };
  const told = standingWarnings(toCandidate(row!), sex === 'male' ? 'sire' : 'dam');
  const stopped = told.find((one) => planningEffect(one) === 'refuse');
  return {
    id,
    whyNone: stopped?.text ?? null,
    cautions: told.map(({ text }) => text),
  };
};

/** The fish of the line, and behind them the described one. */
export const withDescribed = (
  believed: BelievedLine,
  { sex, shows }: DescribedFishInput,
): BelievedLine => {
  const all = Object.fromEntries(shows.map(({ locusId, phenotype }) => [locusId, phenotype]));
  const loci = believed.belief.loci.map(({ locus }) => locus);
  const known = new Set(loci.map(({ id }) => id));
  const unused = Object.keys(all).filter((id) => !known.has(id));
  const hidden = looksHidden(loci, all);
  for (const id of [...unused, ...hidden.map(({ locus }) => locus.id)]) delete all[id];
  const described: DescribedFish = {
    id: DESCRIBED,
    sex: sex === 'male' ? 'male' : 'female',
    shows: all,
  };
  return {
    ...believed,
    belief: withDescribedFish(believed.belief, described),
    ofLine: Uint8Array.from([...believed.ofLine, 0]),
    leftOut: [
      ASSUMED,
      ...unused.map(
        (id) =>
          `What it shows at ${id} changes nothing here: the line wants no look that needs it.`,
      ),
      ...hidden.map(({ locus, why }) => `What it shows at ${locus.name} is not counted. ${why}`),
      ...believed.leftOut,
    ],
  };
};
