import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { CARE_TEMPLATES, WITHDRAW_CARE_TEMPLATE, type CareTemplate } from '../../api/care.js';
import { useRead } from '../../api/use-read.js';
import { Caution } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { plural } from '../../wording/figures.js';
import { CalendarAddressSection } from './calendar-address-section.js';
import { PlanEditor } from './plan-editor.js';
import { StepList } from './step-list.js';

type Editing = { from: CareTemplate; copy: boolean } | null;

/** The built-in care plan, plans of single lines, and the address for calendar programs. */
export function CarePlansScreen() {
  const read = useRead(CARE_TEMPLATES, {});
  const [editing, setEditing] = useState<Editing>(null);
  if (editing !== null) {
    return (
      <Screen
        title={editing.copy ? `Care plan copied from ${editing.from.name}` : editing.from.name}
        lead="Change the steps, then save: spawns of the line follow the new version from then on."
      >
        <PlanEditor from={editing.from} copy={editing.copy} onClose={() => setEditing(null)} />
      </Screen>
    );
  }
  return (
    <Screen
      title="Care plans"
      lead="What a spawn needs and when, counted from what was recorded. A line can have a plan of its own."
    >
      <Shown read={read} what="the plans">
        {({ careTemplates }) =>
          careTemplates.map((template) => (
            <PlanSection
              key={template.id ?? 'built-in'}
              template={template}
              onEdit={(copy) => setEditing({ from: template, copy })}
            />
          ))
        }
      </Shown>
      <CalendarAddressSection />
      <Caution>
        A calendar does not see the tank: the fish decide. Fighting fish are kept apart, snails and
        their eggs are never released and are restricted in places, and the plans name no drugs or
        doses. More under <Link to="/cautions">Cautions</Link>.
      </Caution>
    </Screen>
  );
}

interface PlanSectionProps {
  template: CareTemplate;
  onEdit: (copy: boolean) => void;
}

function PlanSection({ template, onEdit }: PlanSectionProps) {
  const [open, setOpen] = useState(template.id !== null);
  const [withdrawing, setWithdrawing] = useState(false);
  const { id } = template;
  const mayChange = id !== null && template.line?.mayChange !== false;
  return (
    <Section
      title={template.line == null ? template.name : `${template.line.code} · ${template.name}`}
      aside={
        id === null
          ? `built in, ${plural(template.steps.length, 'step')}`
          : `version ${template.revision}, ${plural(template.steps.length, 'step')}`
      }
      actions={
        <>
          {mayChange && <Button onClick={() => onEdit(false)}>Change</Button>}
          <Button aria-label={`Copy ${template.name} for a line`} onClick={() => onEdit(true)}>
            Copy for a line
          </Button>
          {mayChange && <Button onClick={() => setWithdrawing(true)}>Withdraw</Button>}
        </>
      }
    >
      {id === null && (
        <p className="lw-words">
          Common practice of breeders; none of its steps has a published source. Published figures
          are shown beside a step with the conditions they hold for, and do not move it.
        </p>
      )}
      <Button size="xs" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Hide the steps' : 'Show the steps'}
      </Button>
      {open && <StepList steps={template.steps} />}
      {id !== null && (
        <WithdrawRecord
          mutation={WITHDRAW_CARE_TEMPLATE}
          record={{ id, revision: template.revision }}
          title={`Withdraw ${template.name}`}
          what={`the plan “${template.name}”`}
          opened={withdrawing}
          onClose={() => setWithdrawing(false)}
        />
      )}
    </Section>
  );
}
