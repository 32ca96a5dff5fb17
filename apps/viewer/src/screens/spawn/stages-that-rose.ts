interface CountedStage {
  readonly label: string;
  readonly count: number | null;
}

/** A sentence for each stage that counts more than the stage counted before it: a brood does not grow. */
export function stagesThatRose(stages: readonly CountedStage[]): string[] {
  const counted = stages.filter((stage) => stage.count !== null);
  return counted.slice(1).flatMap((after, i) => {
    const before = counted[i];
    if (before === undefined || (after.count ?? 0) <= (before.count ?? 0)) return [];
    return `${after.count} ${after.label.toLowerCase()} of ${before.count} ${before.label.toLowerCase()}: one of the two counts is wrong; withdraw it and record it again.`;
  });
}
