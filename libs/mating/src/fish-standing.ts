import { type FishStanding, nameOf, type PairingCandidate } from './candidate.js';
import type { OwnWarningCode, PairingWarning, Severity } from './reason.js';

/** What a warning means for planning the pair: it may be planned, only after a word of confirmation, or not at all. */
export type PlanningEffect = 'free' | 'confirm' | 'refuse';

const REFUSES: readonly string[] = ['WITHDRAWN', 'DEAD', 'CULLED'] satisfies OwnWarningCode[];
const CONFIRMS: readonly string[] = [
  'PARENT_ONLY',
  'PLACED',
  'WITH_PARTNER',
  'PLACE_UNKNOWN',
  'IN_QUARANTINE',
  'TOO_YOUNG',
  'RESTING',
] satisfies OwnWarningCode[];

/** What a warning means for planning. */
export function planningEffect({ code }: Pick<PairingWarning, 'code'>): PlanningEffect {
  if (REFUSES.includes(code)) return 'refuse';
  return CONFIRMS.includes(code) ? 'confirm' : 'free';
}

/**
 * Warnings about whether one fish is there to be paired: dead, culled, withdrawn, passed on, with a partner, or never here. A fish
 * without a standing is taken as alive and here. At most one is given, the gravest.
 */
export function standingWarnings(fish: PairingCandidate, role: 'sire' | 'dam'): PairingWarning[] {
  const { standing } = fish;
  const told = standing === undefined ? null : tell(nameOf(fish), standing);
  if (told === null) return [];
  const [code, severity, text] = told;
  const figures = {
    fish: nameOf(fish),
    ...(standing?.on !== undefined && { on: standing.on }),
    ...(standing?.swimsWith != null && { swimsWith: standing.swimsWith }),
    ...(standing?.lentUntil !== undefined && { lentUntil: standing.lentUntil }),
  };
  return [{ code, severity, concerns: role, text, figures, basis: 'its record' }];
}

/** True when the fish can be paired no more, so that its age and rest do not matter. */
export function isGone({ standing }: PairingCandidate): boolean {
  return (
    standing?.withdrawn !== undefined || standing?.state === 'died' || standing?.state === 'culled'
  );
}

function tell(name: string, standing: FishStanding): [OwnWarningCode, Severity, string] | null {
  const { state, on, reason, swimsWith, lentUntil, withdrawn } = standing;
  const when = on === undefined ? '' : ` on ${on}`;
  const why = reason === undefined ? '' : ` (${reason})`;
  if (withdrawn !== undefined) {
    const text = `The record of ${name} was withdrawn (${withdrawn}), so it cannot be paired.`;
    return ['WITHDRAWN', 'stop', text];
  }
  switch (state) {
    case 'died':
      return ['DEAD', 'stop', `${name} died${when}${why}, so it cannot be paired.`];
    case 'culled': {
      const text = `${name} was culled${when}${why}, so it cannot be paired. If it is alive, record it as a keeper first.`;
      return ['CULLED', 'stop', text];
    }
    case 'parent-only': {
      const text = `${name} is recorded as an ancestor only: it lived elsewhere.`;
      return ['PARENT_ONLY', 'stop', text];
    }
    case 'placed':
    case 'alive':
      break;
  }
  if (swimsWith === undefined) return null;
  if (swimsWith !== null) {
    const where =
      lentUntil === undefined
        ? `swims with ${swimsWith}, not here`
        : `is on loan with ${swimsWith} until ${lentUntil}, not here`;
    return ['WITH_PARTNER', 'caution', `${name} ${where}: ask them before you plan with it.`];
  }
  if (state === 'placed') {
    const text = `${name} was placed${when}${why}, and who has it now is not on record.`;
    return ['PLACED', 'stop', text];
  }
  return ['PLACE_UNKNOWN', 'caution', `Where ${name} swims is not on record.`];
}
