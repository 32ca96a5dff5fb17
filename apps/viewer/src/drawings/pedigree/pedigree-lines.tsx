import { clsx } from 'clsx';
import { memo } from 'react';
import type { PathHighlight, PedigreeScene, ScenePoint } from '@linewright/pedigree-layout';
import { highlightLines, roundedPath } from './line-paths.js';
import styles from './pedigree.module.css';

const joinedPath = (lines: readonly (readonly ScenePoint[])[]): string =>
  lines.map((points) => roundedPath(points)).join('');

/** All lines of descent and relationship; double where the mates are related. One path each, so that shared runs are inked once. */
export const PedigreeLines = memo(function PedigreeLines({
  scene,
}: {
  readonly scene: PedigreeScene;
}) {
  return (
    <g aria-hidden="true">
      {[false, true].map((planned) => {
        const links = scene.links.filter((link) => link.planned === planned);
        const related = scene.matings.filter(
          (mating) => mating.related && mating.planned === planned,
        );
        const double = joinedPath(related.map((mating) => mating.line));
        return (
          <g key={String(planned)} className={planned ? styles['link-planned'] : undefined}>
            <path className={styles['link']} d={joinedPath(links.map((link) => link.points))} />
            <path className={styles['related-outer']} d={double} />
            <path className={styles['related-inner']} d={double} />
          </g>
        );
      })}
      {scene.matings.map((mating) => (
        <circle key={mating.id} className={styles['mating']} cx={mating.x} cy={mating.y} r={2.6} />
      ))}
    </g>
  );
});

/** The lines of one fish to its parents, mates and young, drawn stronger while it is selected. */
export function KinLines({
  scene,
  nodeId,
}: {
  readonly scene: PedigreeScene;
  readonly nodeId: string;
}) {
  const matings = new Map(scene.matings.map((mating) => [mating.id, mating] as const));
  const near = scene.links.filter((link) => {
    const mating = matings.get(link.matingId)!;
    const parent = mating.sireId === nodeId || mating.damId === nodeId;
    return (
      parent ||
      link.nodeId === nodeId ||
      (link.kind === 'parent' && mating.offspringIds.includes(nodeId))
    );
  });
  return (
    <g aria-hidden="true">
      {near.map((link) => (
        <path key={link.id} className={styles['link-kin']} d={roundedPath(link.points)} />
      ))}
    </g>
  );
}

/** How many ways of drawing a path there are before they repeat. */
export const PATH_STYLES = 4;

/** Highlighted paths: thick, each with its own dashes and colour, shifted a little from one another, steps numbered. */
export function PathLines({
  scene,
  highlights,
}: {
  readonly scene: PedigreeScene;
  readonly highlights: readonly PathHighlight[];
}) {
  const drawn = highlights.map((highlight) => highlightLines(scene, highlight));
  const shift = (i: number): number => 5 * (i - (highlights.length - 1) / 2);
  return (
    <g aria-hidden="true">
      {drawn.map((steps, i) => (
        <g
          key={i}
          className={styles[`path-${i % PATH_STYLES}`]}
          transform={`translate(${shift(i)} ${shift(i)})`}
        >
          {steps.map((step) => (
            <path key={`${step.key}-under`} className={styles['path-under']} d={step.path} />
          ))}
          {steps.map((step) => (
            <path key={step.key} className={styles['path-line']} d={step.path} />
          ))}
        </g>
      ))}
    </g>
  );
}

/** Numbers of the steps, above the fish so that nothing covers them. */
export function PathBadges({
  scene,
  highlights,
}: {
  readonly scene: PedigreeScene;
  readonly highlights: readonly PathHighlight[];
}) {
  const several = highlights.length > 1;
  return (
    <g aria-hidden="true">
      {highlights.map((highlight, i) => (
        <g key={i} className={clsx(styles['path-badges'], styles[`path-${i % PATH_STYLES}`])}>
          {highlightLines(scene, highlight).map((step) => {
            if (step.badge === null) return null;
            const text = several ? `${i + 1}.${step.number}` : String(step.number);
            const half = 5 + 3.4 * text.length;
            const x = step.badge.x + (several ? (i - (highlights.length - 1) / 2) * 30 : 0);
            return (
              <g key={step.key} transform={`translate(${x} ${step.badge.y})`}>
                <rect x={-half} y={-9} width={2 * half} height={18} rx={9} />
                <text y={4} textAnchor="middle">
                  {text}
                </text>
              </g>
            );
          })}
        </g>
      ))}
    </g>
  );
}
