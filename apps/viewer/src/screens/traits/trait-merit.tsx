import { Button } from '@mantine/core';
import { useState } from 'react';
import { TRAIT_MERIT, type TraitMerit } from '../../api/merit.js';
import type { Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { untilThen } from '../../wording/merit-advice.js';
import { besideText, partWords, priorWords } from '../../wording/merit-model-words.js';
import { HeritabilitySection } from './heritability-section.js';
import { ModelForm } from './model-form.js';
import { TogetherSection } from './together-section.js';
import { TrendSection } from './trend-section.js';
import { WhatToScoreSection } from './what-to-score-section.js';

/** What the scores of a trait say of what is inherited. */
export function TraitMeritSections({ trait }: { trait: Trait }) {
  const read = useRead(TRAIT_MERIT, { traitId: trait.id });
  return (
    <Shown read={read} what="what is inherited">
      {({ traitMerit: merit }) => (
        <>
          {merit.waiting !== null && (
            <Section
              title={merit.result === null ? 'How much is inherited' : 'Being worked out again'}
            >
              <WaitingComputation
                key={merit.waiting.id}
                computation={merit.waiting}
                what={`what is inherited of ${trait.name}`}
                {...untilThen(merit)}
                onDone={read.reload}
              />
            </Section>
          )}
          {merit.result !== null && (
            <HeritabilitySection trait={trait} merit={merit} result={merit.result} />
          )}
          {merit.counts.fish > 0 && merit.waiting === null && (
            <TrendSection trait={trait} cautioned={isCautionedAbove(merit)} />
          )}
          {merit.counts.fish > 0 && <TogetherSection trait={trait} />}
          <div className="lw-columns">
            <WhatToScoreSection trait={trait} merit={merit} />
            <ModelSection trait={trait} merit={merit} />
          </div>
        </>
      )}
    </Shown>
  );
}

/** Whether the heritability stands above with its caution about chosen fish. */
const isCautionedAbove = ({ result }: TraitMerit): boolean =>
  result !== null && (result.shown === 'THRESHOLD' ? result.threshold : result.linear) !== null;

function ModelSection({ trait, merit }: { trait: Trait; merit: TraitMerit }) {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  const { parts, prior } = merit.settings;
  const names = parts.map((part) => partWords[part].label.toLowerCase());
  return (
    <Section
      title="How it is worked out"
      actions={
        <Button size="xs" onClick={() => setOpen(true)}>
          Change settings
        </Button>
      }
    >
      <p className="lw-words">
        {names.length === 0
          ? 'Nothing is set apart from what is inherited.'
          : `Set apart from what is inherited, where the scores can show it: ${names.join(', ')}.`}
      </p>
      {merit.besideTraits.map((one) => (
        <p key={one.traitId} className="lw-words">
          {besideText(one)}
        </p>
      ))}
      <p className="lw-words">Assumed before any score? {priorWords[prior].label}.</p>
      <Sheet title={`Settings for ${trait.name}`} opened={open} onClose={close} size={640}>
        <ModelForm traitId={trait.id} settings={merit.settings} onSaved={close} onCancel={close} />
      </Sheet>
    </Section>
  );
}
