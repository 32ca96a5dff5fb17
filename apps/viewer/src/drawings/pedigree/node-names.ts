import type { Navigator, PedigreeScene, SceneNode } from '@linewright/pedigree-layout';
import { roman, sexName } from '../figures.js';

export interface NodeNames {
  /** Full name for screen readers. */
  of(node: SceneNode): string;
  tag(id: string | null): string;
}

export function nameNodes(scene: PedigreeScene, steps: Navigator): NodeNames {
  const byId = new Map(scene.nodes.map((node) => [node.id, node] as const));
  const tag = (id: string | null): string => {
    const node = id === null ? undefined : byId.get(id);
    if (node === undefined) return 'not shown';
    return node.kind === 'fish' ? node.tag : `${node.count} sibs`;
  };
  const of = (node: SceneNode): string => {
    const kin = steps.kinOf(node.id);
    const parents =
      kin.sireId === null && kin.damId === null
        ? 'parents not shown'
        : `sire ${tag(kin.sireId)}, dam ${tag(kin.damId)}`;
    const row = `generation ${roman(node.layer + 1)}`;
    if (node.kind === 'fold')
      return `${node.count} sibs without young, ${row}, ${parents}. Show each`;
    const parts = [
      node.planned ? `${node.tag}, planned brood` : `${node.tag}, ${sexName(node.sex)}`,
    ];
    parts.push(...node.label, row, parents);
    if (kin.offspringIds.length > 0) parts.push(`${kin.offspringIds.length} young drawn`);
    return parts.join(', ');
  };
  // Asked for at every draw of every fish; worked out once.
  const known = new Map<string, string>();
  const cached = (node: SceneNode): string => {
    const name = known.get(node.id) ?? of(node);
    known.set(node.id, name);
    return name;
  };
  return { of: cached, tag };
}
