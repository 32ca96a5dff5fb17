import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { OtherTrait } from '../../panels/other-trait.js';

/** How a trait goes together with another one. */
export function TogetherSection({ trait }: { trait: Trait }) {
  const read = useRead(TRAITS, { includeWithdrawn: false });
  return (
    <Section title="Together with another trait">
      <p className="lw-quiet">
        Selecting on one trait can move another. Choose one to see whether the two are inherited
        together in your fish.
      </p>
      <Shown read={read} what="the traits">
        {({ traits }) =>
          traits.length < 2 ? (
            <Empty>There is no other trait yet.</Empty>
          ) : (
            <OtherTrait trait={trait} traits={traits} />
          )
        }
      </Shown>
    </Section>
  );
}
