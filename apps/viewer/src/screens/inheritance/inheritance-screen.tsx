import { Link } from 'react-router';
import { Screen } from '../../components/screen.js';
import { LinkageSection } from './linkage-section.js';
import { WeighSection } from './weigh-section.js';

/** How looks are inherited: one of them by how many loci, and two of them together or not. */
export function InheritanceScreen() {
  return (
    <Screen
      title="How a look is inherited"
      lead="By one locus, two or many; and whether two looks are inherited together."
      actions={<Link to="/loci">Loci</Link>}
    >
      <WeighSection />
      <LinkageSection />
    </Screen>
  );
}
