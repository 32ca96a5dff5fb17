import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ResultOf } from '../../api/graphql.js';
import type { KnownLocus } from '../../api/crosses.js';
import { LOCUS_SETTINGS, WITHDRAW_LOCUS_SETTING, type LocusSetting } from '../../api/own-loci.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { SettingForm } from './setting-form.js';
import type { Column } from '../../components/data-table.js';

/** Names of loci and symbols of their alleles, as the catalogue has them now; an id that it no longer has stays one. */
function namesIn(loci: readonly KnownLocus[]) {
  const locusOf = (id: string) => loci.find((one) => one.id === id);
  return {
    nameOf: (locusId: string) => locusOf(locusId)?.name ?? locusId,
    symbolOf: (locusId: string, alleleId: string) =>
      locusOf(locusId)?.alleles.find(({ id }) => id === alleleId)?.symbol ?? alleleId,
  };
}

type Names = ReturnType<typeof namesIn>;
type Line = ResultOf<typeof LOCUS_SETTINGS>['lines'][number];

/** How common alleles are among founders and how often a look is wrong, by line: what carrier probabilities start from. */
export function SettingsSection({ loci }: { loci: readonly KnownLocus[] }) {
  const read = useRead(LOCUS_SETTINGS, {});
  const [open, setOpen] = useState<LocusSetting | 'new' | null>(null);
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
            <Settings settings={locusSettings} lines={lines} loci={loci} onChange={setOpen} />
            <SettingSheet open={open} lines={lines} loci={loci} onClose={() => setOpen(null)} />
          </>
        )}
      </Shown>
    </Section>
  );
}

interface SettingSheetProps {
  open: LocusSetting | 'new' | null;
  lines: Line[];
  loci: readonly KnownLocus[];
  onClose: () => void;
}

function SettingSheet({ open, lines, loci, onClose }: SettingSheetProps) {
  return (
    <Sheet title="Assumptions for a locus" opened={open !== null} onClose={onClose}>
      <SettingForm
        loci={loci.filter((one) => one.computable && !one.isWithdrawn)}
        lines={lines}
        setting={open === 'new' ? null : open}
        onClose={onClose}
      />
    </Sheet>
  );
}

interface SettingsProps {
  settings: readonly LocusSetting[];
  lines: Line[];
  loci: readonly KnownLocus[];
  onChange: (setting: LocusSetting) => void;
}

function Settings({ settings, lines, loci, onChange }: SettingsProps) {
  const [leaving, setLeaving] = useState<LocusSetting | null>(null);
  const names = namesIn(loci);
  return (
    <>
      {settings.length > 0 && (
        <DataTable
          caption="Settings by line and locus"
          rows={settings}
          rowKey={(one) => one.id}
          columns={[
            ...settingColumns(names, lines),
            {
              key: 'do',
              title: <span className="lw-heard">Actions</span>,
              cell: (one) => (
                <SettingButtons
                  of={names.nameOf(one.locusId)}
                  onChange={() => onChange(one)}
                  onWithdraw={() => setLeaving(one)}
                />
              ),
            },
          ]}
        />
      )}
      {leaving !== null && (
        <WithdrawRecord
          mutation={WITHDRAW_LOCUS_SETTING}
          record={leaving}
          title="Go back to the default"
          what={`the setting of ${names.nameOf(leaving.locusId)}`}
          onClose={() => setLeaving(null)}
        />
      )}
    </>
  );
}

function settingColumns({ nameOf, symbolOf }: Names, lines: Line[]): Column<LocusSetting>[] {
  return [
    { key: 'locus', title: 'Locus', cell: (one) => nameOf(one.locusId) },
    {
      key: 'line',
      title: 'Line',
      cell: ({ lineId }) =>
        lineId === null
          ? 'all other lines'
          : (lines.find(({ id }) => id === lineId)?.code ?? lineId),
    },
    {
      key: 'alleles',
      title: 'Founders’ alleles',
      cell: ({ locusId, frequencies }) =>
        frequencies.length === 0
          ? 'equally common'
          : frequencies
              .map(({ alleleId, frequency }) => `${symbolOf(locusId, alleleId)} ${frequency}`)
              .join(', '),
    },
    {
      key: 'wrong',
      title: 'Misread',
      number: true,
      cell: (one) => `${((one.misScoring ?? 0.01) * 100).toFixed(1)} %`,
    },
  ];
}

interface SettingButtonsProps {
  of: string;
  onChange: () => void;
  onWithdraw: () => void;
}

function SettingButtons({ of, onChange, onWithdraw }: SettingButtonsProps) {
  return (
    <span className="lw-row-buttons">
      <button type="button" aria-label={`Change the setting of ${of}`} onClick={onChange}>
        Change
      </button>
      <button type="button" aria-label={`Withdraw the setting of ${of}`} onClick={onWithdraw}>
        Withdraw
      </button>
    </span>
  );
}
