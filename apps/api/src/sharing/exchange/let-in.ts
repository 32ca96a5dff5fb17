import type { GrantLevel } from '../../access/grant.js';
import type { ShareGroup } from '../share-fields.js';
import type { SharePlanItem } from '../share-plan.js';
import type { KeptOut } from '../share-planning.js';

/** What one may add who may score. */
const scored: readonly ShareGroup[] = ['scores', 'sheetScorings'];
/** What other lines rest on as well: changed only by whose it is. */
const common: readonly ShareGroup[] = [
  'lines',
  'traits',
  'scoreSheets',
  'ownLoci',
  'locusSettings',
  'carePlans',
];

const NOT_GRANTED = 'grant';

/**
 * What of a partner's changes is let in without a look: of a line to look at, nothing; of one to score as well, new scores; of one to
 * breed with, everything new and every change of what was given to them, but for what other lines rest on.
 *
 * @param given ids of the records that were given to the partner
 * @param persons ids by which the partner is known here and there
 */
export const letIn =
  (level: GrantLevel, given: ReadonlySet<string>, persons: ReadonlySet<string>): KeptOut =>
  ({ kind, record, outcome }: SharePlanItem) => {
    if (level === 'look') return NOT_GRANTED;
    const isTheirs = persons.has(record['personId'] as string);
    if (level === 'score')
      return outcome === 'added' &&
        (scored.includes(kind.group) || (isTheirs && common.includes(kind.group)))
        ? null
        : NOT_GRANTED;
    if (outcome === 'added' || isTheirs) return null;
    return given.has(record.id) && !common.includes(kind.group) ? null : NOT_GRANTED;
  };
