export interface ScoredFish {
  id: string;
  tag: string;
  hatchDate: string | null;
}
