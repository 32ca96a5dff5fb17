import type { Navigator, PedigreeScene } from '@linewright/pedigree-layout';
import { roman, sexName } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import type { NodeNames } from './node-names.js';
import { opensPage } from './use-chosen-node.js';
import type { PedigreeMarks } from './use-drawn-pedigree.js';

export interface PedigreeTableProps {
  readonly scene: PedigreeScene;
  readonly steps: Navigator;
  readonly names: NodeNames;
  readonly title: string;
  readonly marks: PedigreeMarks;
  readonly onOpenFish: (id: string) => void;
}

/** Every fish drawn, oldest first, with its parents. */
export function PedigreeTable({
  scene,
  steps,
  names,
  title,
  marks,
  onOpenFish,
}: PedigreeTableProps) {
  const rows = () =>
    scene.nodes.map((node) => {
      const kin = steps.kinOf(node.id);
      const open =
        node.kind === 'fish' && opensPage(node, marks) ? (
          <button type="button" className="lw-text-button" onClick={() => onOpenFish(node.id)}>
            {node.tag}
          </button>
        ) : (
          names.tag(node.id)
        );
      return [
        open,
        roman(node.layer + 1),
        node.kind === 'fish' ? sexName(node.sex) : node.memberTags.join(', '),
        node.kind === 'fish' ? node.label.join(', ') : '',
        names.tag(kin.sireId),
        names.tag(kin.damId),
        String(kin.offspringIds.length),
      ];
    });
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Fish' },
        { heading: 'Generation' },
        { heading: 'Sex' },
        { heading: 'F and notes' },
        { heading: 'Sire' },
        { heading: 'Dam' },
        { heading: 'Young drawn', numeric: true },
      ]}
      rows={rows}
    />
  );
}
