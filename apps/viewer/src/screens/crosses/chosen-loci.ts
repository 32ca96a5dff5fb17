import type { KnownLocus } from '../../api/crosses.js';

/** One locus of a cross with the genotype of each parent. */
export interface ChosenLocus {
  locusId: string;
  sire: string;
  dam: string;
}

/** A locus starts with both parents carrying one of each of its first two alleles, where there is such a genotype. */
export function startAt(locus: KnownLocus): ChosenLocus {
  const mixed =
    locus.phenotypes.find(({ genotype }) => {
      const [one, other] = allelesOf(genotype);
      return one !== other;
    }) ?? locus.phenotypes[0];
  const genotype = mixed?.genotype ?? '';
  return { locusId: locus.id, sire: genotype, dam: genotype };
}

export function allelesOf(genotype: string): [string, string] {
  const [one = '', other = ''] = genotype.split('/');
  return [one, other];
}

export interface Square {
  sire: readonly { label: string; fraction: string }[];
  dam: readonly { label: string; fraction: string }[];
  cells: readonly (readonly { genotype: string; classId: string }[])[];
  classes: readonly { id: string; label: string; fraction: string }[];
}

function gametesOf(genotype: string): { label: string; fraction: string }[] {
  const [one, other] = allelesOf(genotype);
  return one === other
    ? [{ label: one, fraction: '1' }]
    : [
        { label: one, fraction: '1/2' },
        { label: other, fraction: '1/2' },
      ];
}

/**
 * The square of one locus: every gamete of the sire by every gamete of the dam, with the look of each meeting. Each cell
 * is as likely as the next. Null when a meeting makes a genotype that the catalogue does not list.
 */
export function squareOf(locus: KnownLocus, { sire, dam }: ChosenLocus): Square | null {
  const listed = (a: string, b: string) =>
    locus.phenotypes.find(({ genotype }) => genotype === `${a}/${b}` || genotype === `${b}/${a}`);
  const across = gametesOf(sire);
  const down = gametesOf(dam);
  const meetings = down.map((fromDam) =>
    across.map((fromSire) => listed(fromSire.label, fromDam.label)),
  );
  const counts = new Map<string, number>();
  for (const meeting of meetings.flat()) {
    if (meeting === undefined) return null;
    counts.set(meeting.phenotype, (counts.get(meeting.phenotype) ?? 0) + 1);
  }
  const total = across.length * down.length;
  return {
    sire: across,
    dam: down,
    cells: meetings.map((row) =>
      row.map((meeting) => ({
        genotype: meeting?.genotype ?? '',
        classId: meeting?.phenotype ?? '',
      })),
    ),
    classes: [...counts].map(([look, count]) => ({
      id: look,
      label: look,
      fraction: shareText(count, total),
    })),
  };
}

/** `count` of 1, 2 or 4 equal cells in lowest terms. */
function shareText(count: number, total: number): string {
  if (count === total) return '1';
  return count * 2 === total ? '1/2' : `${count}/${total}`;
}
