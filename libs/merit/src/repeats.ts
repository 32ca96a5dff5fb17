/** A dated score, its day as a day number (days since any fixed day). */
export interface DatedScore {
  readonly fish: string;
  readonly day: number;
}

/**
 * Picks, for each fish, the scores that count as repeats of one another: those within `windowDays` of an earlier one that
 * begins the group. Fish change as they grow (the spread of the tail until five to six months), so scores months
 * apart tell of growth and not of repeatability. Of several groups of a fish the largest is taken, the latest of equals.
 *
 * @param scores any order. @param windowDays 0 or more.
 * @returns one group a fish, fish scored only once included; cost n log n.
 * @example repeatGroups([{ fish: 'a', day: 0 }, { fish: 'a', day: 9 }, { fish: 'a', day: 60 }], 14) // one group of two
 */
export const repeatGroups = <Score extends DatedScore>(
  scores: readonly Score[],
  windowDays: number,
): Score[][] => {
  const byFish = new Map<string, Score[]>();
  for (const score of [...scores].sort((a, b) => a.day - b.day)) {
    const list = byFish.get(score.fish);
    if (list === undefined) byFish.set(score.fish, [score]);
    else list.push(score);
  }
  return [...byFish.values()].map((ofFish) => {
    let best: Score[] = [];
    let group: Score[] = [];
    for (const score of ofFish) {
      const begins = group[0];
      if (begins === undefined || score.day - begins.day > windowDays) group = [score];
      else group.push(score);
      if (group.length >= best.length) best = group;
    }
    return [...best];
  });
};
