import { catalogue } from '../catalogue/catalogue.js';
import type { Locus } from '../locus.js';
import type { CrossOptions, CrossParents } from './cross-types.js';

/** Readers know a locus by its name, not by its symbol. */
const nameOf = (id: string): string =>
  catalogue.find((locus) => locus.id === id)?.name.toLowerCase() ?? id;

/** What to keep in mind when reading the classes of a cross. */
export function notesOn(
  loci: readonly Locus[],
  parents: CrossParents,
  options: CrossOptions,
): string[] {
  const ids = new Set(loci.map((locus) => locus.id));
  const interacting = new Set((options.interactions ?? []).flatMap((one) => one.loci));
  const notes: string[] = [];
  for (const locus of loci) {
    for (const gate of interacting.has(locus.id) ? [] : locus.hiddenBy) {
      if (!ids.has(gate.locus)) {
        notes.push(
          `${locus.name}: assumed not hidden by ${nameOf(gate.locus)}, which is not in this cross (${gate.why}).`,
        );
      }
    }
    if (!locus.testable && locus.whyNotTestable)
      notes.push(`${locus.name}: ${locus.whyNotTestable}`);
  }
  const uncertain = loci.filter((locus) =>
    [parents.sire, parents.dam].some((set) => {
      const input = set[locus.id];
      return input !== undefined && typeof input !== 'string' && typeof input[0] !== 'string';
    }),
  );
  if (uncertain.length > 0) {
    notes.push(
      `Genotypes at ${uncertain.map((locus) => locus.name).join(', ')} are uncertain: the classes are averages over what the parents may be.`,
    );
  }
  return notes;
}
