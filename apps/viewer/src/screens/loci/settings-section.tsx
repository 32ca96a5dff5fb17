import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import type { LocusEntry } from '../../api/crosses.js';
import { LOCUS_SETTINGS, WITHDRAW_LOCUS_SETTING, type LocusSetting } from '../../api/own-loci.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';
import { SettingForm } from './setting-form.js';
import type { Column } from '../../components/data-table.js';
import type { Problem } from '../../api/problem.js';

/** How common alleles are among founders and how often a look is wrong, by line: what carrier probabilities start from. */
export function SettingsSection({ loci }: { loci: readonly LocusEntry[] }) {
  const read = useRead(LOCUS_SETTINGS, {});
  const [open, setOpen] = useState<LocusSetting | 'new' | null>(null);
  const [leaving, setLeaving] = useState<LocusSetting | null>(null);
  const { save, saving, problem } = useSave(WITHDRAW_LOCUS_SETTING);
  const symbol = (locusId: string, alleleId: string) =>
    loci.find((one) => one.id === locusId)?.alleles.find((one) => one.id === alleleId)?.symbol ??
    alleleId;
  const nameOf = (locusId: string) => loci.find((one) => one.id === locusId)?.name ?? locusId;
  return (
    <Section
      title="Assumptions"
      actions={
        <Button size="xs" onClick={() => setOpen('new')}>
          Change for a locus
        </Button>
      }
    >
      <p className="lw-words">
        Carrier probabilities start from how common each allele is among founders. Where nothing is
        set, every allele is assumed to be equally common, and 1 appearance in 100 to be misread.
      </p>
      <Shown read={read} what="the settings">
        {({ locusSettings, lines }) => (
          <>
            {locusSettings.length > 0 && (
              <DataTable
                caption="Settings by line and locus"
                rows={locusSettings}
                rowKey={(one) => one.id}
                columns={settingColumns(nameOf, lines, symbol, setOpen, setLeaving)}
              />
            )}
            <Sheet
              title="Assumptions for a locus"
              opened={open !== null}
              onClose={() => setOpen(null)}
            >
              <SettingForm
                loci={loci.filter((one) => one.computable && !one.isWithdrawn)}
                lines={lines}
                setting={open === 'new' ? null : open}
                onClose={() => setOpen(null)}
              />
            </Sheet>
          </>
        )}
      </Shown>
      {leaving !== null && (
        <WithdrawSetting
          setLeaving={setLeaving}
          nameOf={nameOf}
          leaving={leaving}
          saving={saving}
          problem={problem}
          save={save}
        />
      )}
    </Section>
  );
}

function WithdrawSetting({
  setLeaving,
  nameOf,
  leaving,
  saving,
  problem,
  save,
}: {
  setLeaving: Dispatch<SetStateAction<LocusSetting | null>>;
  nameOf: (locusId: string) => string;
  leaving: LocusSetting;
  saving: boolean;
  problem: Problem | null;
  save: (variables: {
    input: { revision?: number | null; reason: string; id: string };
  }) => Promise<{ withdrawLocusSetting: { id: string } } | null>;
}) {
  return (
    <WithdrawSheet
      title="Go back to the default"
      opened
      onClose={() => setLeaving(null)}
      what={`the setting of ${nameOf(leaving.locusId)}`}
      saving={saving}
      problem={problem}
      onSubmit={async (reason) => {
        const input = { id: leaving.id, reason, revision: leaving.revision };
        if ((await save({ input })) !== null) setLeaving(null);
      }}
    />
  );
}

function settingColumns(
  nameOf: (locusId: string) => string,
  lines: { id: string; code: string; name: string }[],
  symbol: (locusId: string, alleleId: string) => string,
  setOpen: Dispatch<SetStateAction<LocusSetting | 'new' | null>>,
  setLeaving: Dispatch<SetStateAction<LocusSetting | null>>,
): readonly Column<LocusSetting>[] {
  return [
    {
      key: 'locus',
      title: 'Locus',
      cell: (one) => nameOf(one.locusId),
    },
    {
      key: 'line',
      title: 'Line',
      cell: (one) =>
        one.lineId === null
          ? 'all other lines'
          : (lines.find((line) => line.id === one.lineId)?.code ?? one.lineId),
    },
    {
      key: 'alleles',
      title: 'Founders’ alleles',
      cell: (one) =>
        one.frequencies.length === 0
          ? 'equally common'
          : one.frequencies
              .map((each) => `${symbol(one.locusId, each.alleleId)} ${each.frequency}`)
              .join(', '),
    },
    {
      key: 'wrong',
      title: 'Misread',
      number: true,
      cell: (one) => `${((one.misScoring ?? 0.01) * 100).toFixed(1)} %`,
    },
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (one) => (
        <span className="lw-row-buttons">
          <button
            type="button"
            aria-label={`Change the setting of ${nameOf(one.locusId)}`}
            onClick={() => setOpen(one)}
          >
            Change
          </button>
          <button
            type="button"
            aria-label={`Withdraw the setting of ${nameOf(one.locusId)}`}
            onClick={() => setLeaving(one)}
          >
            Withdraw
          </button>
        </span>
      ),
    },
  ];
}
