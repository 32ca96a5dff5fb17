import type { PedigreeScene } from '@linewright/pedigree-layout';
import { roman } from '../figures.js';
import { KinLines, PathBadges, PathLines, PedigreeLines } from './pedigree-lines.js';
import { PedigreeNode } from './pedigree-node.js';
import type { ChosenNode } from './use-chosen-node.js';
import type { DrawnPedigree } from './use-drawn-pedigree.js';
import styles from './pedigree.module.css';

interface SceneProps {
  readonly drawn: DrawnPedigree;
  readonly chosen: ChosenNode;
  readonly pictures: ReadonlyMap<string, string>;
}

/** Everything drawn, from the back to the front: generations, lines, fish, numbers of a path. */
export function Scene({ drawn, chosen, pictures }: SceneProps) {
  const { scene, names, highlights, marks } = drawn;
  return (
    <>
      {scene.layers.map((layer) => (
        <Generation key={layer.index} scene={scene} index={layer.index} />
      ))}
      <PedigreeLines scene={scene} />
      {chosen.active && chosen.node !== undefined && <KinLines scene={scene} nodeId={chosen.id} />}
      <PathLines scene={scene} highlights={highlights} />
      {scene.nodes.map((node) => (
        <PedigreeNode
          key={node.id}
          node={node}
          down={scene.orientation === 'down'}
          name={names.of(node)}
          tabbable={node.id === chosen.id}
          onPath={marks.onPath.has(node.id)}
          commonAncestor={marks.commonAncestors.has(node.id)}
          dead={marks.dead.has(node.id)}
          unknownParent={marks.unknownParents.has(node.id)}
          picture={pictures.get(node.id)}
        />
      ))}
      <PathBadges scene={scene} highlights={highlights} />
    </>
  );
}

function Generation({ scene, index }: { readonly scene: PedigreeScene; readonly index: number }) {
  const layer = scene.layers[index]!;
  const { x, y, width, height } = scene.bounds;
  const down = scene.orientation === 'down';
  const band = down
    ? { x: x - 44, y: layer.from - 6, width: width + 60, height: layer.to - layer.from + 10 }
    : { x: layer.from - 6, y: y - 30, width: layer.to - layer.from + 12, height: height + 44 };
  const place = down ? { x: x - 36, y: layer.from + 19 } : { x: layer.from + 14, y: y - 14 };
  return (
    <g aria-hidden="true">
      <rect className={styles['band']} {...band} rx={8} />
      <text className={styles['generation']} {...place} textAnchor={down ? 'start' : 'middle'}>
        {roman(index + 1)}
      </text>
    </g>
  );
}
