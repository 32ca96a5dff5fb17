import { daysBetween } from '@linewright/care';
import { MONTH_DAYS, percent, plainNumber, plural } from './figures.js';
import { routeDoubts } from './route-words.js';

interface NamedProblem {
  readonly kind: string;
  readonly brood: number | null;
  readonly days: number | null;
  readonly fish: { readonly tag: string } | null;
  readonly sex: string | null;
  readonly allele: string | null;
  readonly chance: number | null;
  readonly inbreeding: number | null;
  readonly plannedInbreeding: number | null;
  readonly version: number | null;
}

interface NamedBrood {
  readonly brood: number;
  readonly generation: number;
  readonly spawn: { readonly tag: string } | null;
}

/** "generation 2", and with the brood where a generation has two. */
export function broodName(place: number | null, steps: readonly NamedBrood[]): string {
  const step = steps.find(({ brood }) => brood === place);
  if (step === undefined) return 'the plan';
  const same = steps.filter(({ generation }) => generation === step.generation);
  const number = same.indexOf(step) + 1;
  const name = `generation ${step.generation}`;
  return same.length > 1 ? `${name}, brood ${number}` : name;
}

/** Why a plan is off course, in one sentence. */
export function problemText(problem: NamedProblem, steps: readonly NamedBrood[]): string {
  const { kind, brood, days, fish, sex, allele, chance, inbreeding, plannedInbreeding } = problem;
  const name = broodName(brood, steps);
  const tag = steps.find((step) => step.brood === brood)?.spawn?.tag ?? 'the brood';
  switch (kind) {
    case 'LATE':
      return `The pair of ${name} has not spawned, ${plural(days ?? 0, 'day')} after the day planned.`;
    case 'PARENT_GONE':
      return `${fish?.tag ?? 'A parent'} was to be a parent of ${name} and is no longer in use here.`;
    case 'NO_YOUNG':
      return `All young of ${tag} are sorted, and no ${sex === 'MALE' ? 'male' : 'female'} of it is in use here.`;
    case 'ALLELE_NOT_FOUND':
      return `No young of ${tag} is likely to carry ${allele ?? 'the wanted allele'}: the highest chance is ${percent(chance ?? 0, 0)}.`;
    case 'INBREEDING':
      return `F of ${tag} is ${percent(inbreeding ?? 0, 1)}, and ${percent(plannedInbreeding ?? 0, 1)} was planned.`;
    case 'PURPOSE_CHANGED':
      return `After this plan was made, a newer version (${problem.version ?? ''}) of the line’s purpose was saved.`;
    default:
      return `Something of ${name} came otherwise than planned.`;
  }
}

interface ReachedPlan {
  readonly reachedBy: number | null;
  readonly share: number;
  readonly ceiling: number;
  readonly steps: readonly (NamedBrood & {
    readonly recorded: number | null;
    readonly passed: number | null;
    readonly notPassed: number | null;
    readonly inbreeding: number | null;
  })[];
}

/** By which brood the target was reached, with the counts behind it. */
export function reachedText({ reachedBy, share, ceiling, steps }: ReachedPlan): string {
  const step = steps.find(({ brood }) => brood === reachedBy);
  if (step === undefined) return '';
  const { inbreeding, spawn } = step;
  return `The target is reached by ${spawn?.tag ?? 'a brood'} (${broodName(reachedBy, steps)}): ${youngText(step)} At least ${percent(share, 0)} had to; its F of ${percent(inbreeding ?? 0, 1)} is within ${percent(ceiling, 0)}. Young without a record of their own are not counted.`;
}

/** "Of 12 on record 9 pass, 2 do not, of 1 it is not known." */
export function youngText({
  recorded,
  passed,
  notPassed,
}: Pick<ReachedPlan['steps'][number], 'recorded' | 'passed' | 'notPassed'>): string {
  const [all, good, not] = [recorded ?? 0, passed ?? 0, notPassed ?? 0];
  const open = all - good - not;
  const parts = [
    `${good} ${good === 1 ? 'passes' : 'pass'}`,
    ...(not > 0 ? [`${not} ${not === 1 ? 'does' : 'do'} not`] : []),
    ...(open > 0 ? [`of ${open} it is not known`] : []),
  ];
  return `Of ${all} on record ${parts.join(', ')}.`;
}

interface DoubtedPlan {
  readonly chance: number;
  readonly simulations: number;
  readonly ceiling: number;
  readonly steps: readonly (NamedBrood & { readonly plannedInbreeding: number | null })[];
}

/** Why not to rely on a plan even while it is on course, in sentences: none where there is no such reason. */
export function planDoubts({ chance, simulations, ceiling, steps }: DoubtedPlan): string[] {
  const over = steps.filter(({ plannedInbreeding }) => (plannedInbreeding ?? 0) > ceiling + 1e-12);
  const named = over.map(
    ({ brood, plannedInbreeding }) =>
      `${broodName(brood, steps)} (${percent(plannedInbreeding ?? 0, 0)})`,
  );
  return [
    ...routeDoubts({ chance, simulations, endedByCeiling: 0 }),
    ...(over.length === 0
      ? []
      : [
          `The F that is planned is above the ceiling of ${percent(ceiling, 0)}: ${named.join(', ')}.`,
        ]),
  ];
}

/** "12 days later than planned", "on the day planned". */
export function lateText(days: number | null): string {
  if (days === null) return '';
  if (days === 0) return 'on the day planned';
  return `${plural(Math.abs(days), 'day')} ${days > 0 ? 'later' : 'earlier'} than planned`;
}

/** "5.1 months after the plan began". */
export const monthsText = (from: string, to: string): string => {
  return `${plainNumber(daysBetween(from, to) / MONTH_DAYS, 1)} months`;
};
