import { Link } from 'react-router';
import type { LineOutcross } from '../../api/outcross.js';
import { Section } from '../../components/section.js';
import { OutcrossDrawing } from '../pedigree/outcross-drawing.js';
import { branchPath } from './chosen-partner.js';

const DRAWN_GENERATIONS = 2;

/** The outcross in the pedigree, as a dotted branch. */
export function BranchSection({ lineId, outcross }: { lineId: string; outcross: LineOutcross }) {
  const { partner, mate, back } = outcross;
  return (
    <Section
      title="In the pedigree"
      actions={
        partner !== null &&
        mate !== null &&
        back !== null && (
          <Link to={branchPath(mate.id, { lineId, partnerId: partner.id, backId: back.id })}>
            In the pedigree of {mate.tag}
          </Link>
        )
      }
    >
      <OutcrossDrawing outcross={outcross} up={DRAWN_GENERATIONS} />
    </Section>
  );
}
