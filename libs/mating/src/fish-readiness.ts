import { addDays, daysBetween } from './calendar.js';
import { nameOf, type PairingCandidate } from './candidate.js';
import { isGone, standingWarnings } from './fish-standing.js';
import { type OwnWarningCode, type PairingWarning, SAID_OF_LINE, type Severity } from './reason.js';
import { DEFAULT_SETTINGS, type PairingSettings } from './settings.js';

const PRACTICE = 'common practice, no source';

/**
 * Warnings about one fish on the day `asOf`: whether it is there to be paired, its quarantine, its age, and its rest since the last spawn. Of a
 * dead, culled or withdrawn fish only that is told.
 *
 * An unknown hatch date is a note; an unknown last spawn is taken for none. All limits are settings; their defaults are
 * breeders' practice. A fish that hatches or spawns after `asOf` counts as 0 days old or rested.
 */
export function readinessWarnings(
  fish: PairingCandidate,
  role: 'sire' | 'dam',
  asOf: string,
  settings: PairingSettings,
): PairingWarning[] {
  const standing = standingWarnings(fish, role);
  if (isGone(fish)) return standing;
  const found = [
    quarantineWarning(fish, role, asOf),
    ageWarning(fish, role, asOf, settings),
    restWarning(fish, role, asOf, settings),
  ];
  return [...standing, ...found.flatMap((warning) => (warning ? [warning] : []))];
}

function quarantineWarning(
  fish: PairingCandidate,
  role: 'sire' | 'dam',
  asOf: string,
): PairingWarning | null {
  const until = fish.standing?.quarantineUntil;
  if (until === undefined || until < asOf) return null;
  const name = nameOf(fish);
  const text = `${name} is in quarantine until ${until}: it may carry what the other fish do not have.`;
  return {
    ...{ code: 'IN_QUARANTINE', severity: 'stop', concerns: role, text },
    ...{ figures: { fish: name, until }, basis: 'its record', passesOn: addDays(until, 1) },
  };
}

function ageWarning(
  fish: PairingCandidate,
  role: 'sire' | 'dam',
  asOf: string,
  { ages }: PairingSettings,
): PairingWarning | null {
  const name = nameOf(fish);
  if (fish.hatchedOn === undefined) {
    const text = `The hatch date of ${name} is not on record, so its age could not be checked.`;
    return warning('AGE_UNKNOWN', 'note', role, text, { fish: name });
  }
  const age = Math.max(0, daysBetween(fish.hatchedOn, asOf));
  const weeks = Math.floor(age / 7);
  const months = Math.floor(age / 30.44);
  const figures = { fish: name, ageDays: age };
  if (age < ages.capableFrom) {
    const text = `${name} is ${count(weeks, 'week')} old; fish are just capable of spawning from ${weeksText(ages.capableFrom)}.`;
    const passesOn = addDays(fish.hatchedOn, ages.capableFrom);
    return {
      ...warning('TOO_YOUNG', 'stop', role, text, { ...figures, limitDays: ages.capableFrom }),
      passesOn,
    };
  }
  if (age < ages.preferredFrom) {
    const text = `${name} is ${count(weeks, 'week')} old; ${weeksText(ages.preferredFrom)} or more is preferred.`;
    const passesOn = addDays(fish.hatchedOn, ages.preferredFrom);
    return {
      ...warning('YOUNG', 'caution', role, text, { ...figures, limitDays: ages.preferredFrom }),
      passesOn,
    };
  }
  if (age > ages.fertileUntil) {
    const text = `${name} is ${count(months, 'month')} old; fertility has usually fallen by then.`;
    return warning('OLD', 'caution', role, text, { ...figures, limitDays: ages.fertileUntil });
  }
  if (age > ages.bestUntil) {
    const text = `${name} is ${count(months, 'month')} old, past the best breeding age; fertility usually falls from here.`;
    return warning('PAST_BEST_AGE', 'note', role, text, { ...figures, limitDays: ages.bestUntil });
  }
  return null;
}

function restWarning(
  fish: PairingCandidate,
  role: 'sire' | 'dam',
  asOf: string,
  settings: PairingSettings,
): PairingWarning | null {
  if (fish.lastSpawnedOn === undefined) return null;
  const rest = role === 'sire' ? settings.rest.male : settings.rest.female;
  const days = Math.max(0, daysBetween(fish.lastSpawnedOn, asOf));
  if (days >= rest.preferred) return null;
  const name = nameOf(fish);
  const resting = days < rest.least;
  const limit = resting ? rest.least : rest.preferred;
  const text = resting
    ? `${name} spawned ${count(days, 'day')} ago and should rest at least ${count(limit, 'day')}.`
    : `${name} spawned ${count(days, 'day')} ago; a rest of ${count(limit, 'day')} is preferred.`;
  const figures = { fish: name, days, limitDays: limit };
  return {
    ...warning(
      resting ? 'RESTING' : 'SHORT_REST',
      resting ? 'stop' : 'caution',
      role,
      text,
      figures,
    ),
    passesOn: addDays(fish.lastSpawnedOn, limit),
  };
}

function warning(
  code: OwnWarningCode,
  severity: Severity,
  concerns: 'sire' | 'dam',
  text: string,
  figures: PairingWarning['figures'],
): PairingWarning {
  return {
    code,
    severity,
    concerns,
    text,
    figures,
    basis: basisOf(code, concerns, figures['limitDays']),
  };
}

/** A limit that is the built-in one has its basis; any other was said of the line. */
function basisOf(code: OwnWarningCode, role: 'sire' | 'dam', limit: unknown): string {
  if (code === 'AGE_UNKNOWN') return 'computed';
  const { ages, rest } = DEFAULT_SETTINGS;
  const own = role === 'sire' ? rest.male : rest.female;
  const builtIn: Partial<Record<OwnWarningCode, number>> = {
    ...{ TOO_YOUNG: ages.capableFrom, YOUNG: ages.preferredFrom },
    ...{ PAST_BEST_AGE: ages.bestUntil, OLD: ages.fertileUntil },
    ...{ RESTING: own.least, SHORT_REST: own.preferred },
  };
  return limit === builtIn[code] ? PRACTICE : SAID_OF_LINE;
}

function weeksText(days: number): string {
  return count(Math.round(days / 7), 'week');
}

function count(number: number, unit: string): string {
  return `${String(number)} ${unit}${number === 1 ? '' : 's'}`;
}
