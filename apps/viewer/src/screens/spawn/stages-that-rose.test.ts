import { describe, expect, it } from 'vitest';
import { stagesThatRose } from './stages-that-rose.js';

const stage = (label: string, count: number | null) => ({ label, count });

describe('stages that count more than the one before', () => {
  it('are named, over a stage that was not counted', () => {
    const stages = [stage('Hatched', 100), stage('Free-swimming', null), stage('Two weeks', 150)];
    expect(stagesThatRose(stages)).toEqual([
      '150 two weeks of 100 hatched: one of the two counts is wrong; withdraw it and record it again.',
    ]);
  });

  it('are none while the numbers fall or stay, or nothing is counted', () => {
    expect(stagesThatRose([stage('Hatched', 100), stage('Jarred', 100)])).toEqual([]);
    expect(stagesThatRose([stage('Hatched', null), stage('Jarred', null)])).toEqual([]);
  });
});
