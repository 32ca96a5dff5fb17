import { Button } from '@mantine/core';
import { useState } from 'react';
import { FISH_DEALS, type FishDeal, WITHDRAW_FISH_DEAL } from '../../api/deals.js';
import type { FishFacts } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { EmptyPart } from '../../components/empty-part.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { useMayAdd } from '../../session/may.js';
import { PriceForm } from './price-form.js';
import { DEAL_WORDS, priceText } from './price-words.js';

type Opened =
  | { readonly what: 'record' }
  | { readonly what: 'correct' | 'withdraw'; readonly deal: FishDeal };

/** What was paid, asked and got for a fish. It stays with whoever recorded it, wherever the fish goes. */
export function PricesSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_DEALS, { id: fish.id });
  const [opened, setOpened] = useState<Opened | null>(null);
  const mayAdd = useMayAdd();
  const close = () => setOpened(null);
  return (
    <Section
      title="Prices"
      act={mayAdd}
      actions={
        <Button size="xs" onClick={() => setOpened({ what: 'record' })}>
          Record a price
        </Button>
      }
    >
      <Shown read={read} what="the prices">
        {({ fish: { deals } }) => (
          <>
            <PriceList deals={deals} onOpen={setOpened} />
            <PriceSheets fish={fish} deals={deals} opened={opened} onClose={close} />
          </>
        )}
      </Shown>
    </Section>
  );
}

interface PriceListProps {
  deals: readonly FishDeal[];
  onOpen: (opened: Opened) => void;
}

function PriceList({ deals, onOpen }: PriceListProps) {
  if (deals.length === 0)
    return (
      <EmptyPart part="PRICES">
        None recorded. A price is seen by you and your household, and by whom you tick it for when
        you share the line.
      </EmptyPart>
    );
  return (
    <DataTable
      caption="Prices"
      rows={deals}
      rowKey={({ id }) => id}
      columns={[...columns, { ...actions(onOpen) }]}
    />
  );
}

const columns: readonly Column<FishDeal>[] = [
  { key: 'on', title: 'Day', unbroken: true, cell: ({ onDate }) => onDate },
  {
    key: 'what',
    title: 'What',
    cell: ({ kind, withWhom, note, mine }) => (
      <>
        <strong>{DEAL_WORDS[kind]}</strong>
        {withWhom !== null && <span className="lw-small">{withWhom}</span>}
        {note !== null && <span className="lw-small">{note}</span>}
        {!mine && <span className="lw-small">Of whoever shares the line</span>}
      </>
    ),
  },
  { key: 'price', title: 'Price', number: true, unbroken: true, cell: priceText },
];

const actions = (onOpen: (opened: Opened) => void): Column<FishDeal> => ({
  key: 'do',
  changes: true,
  title: <span className="lw-heard">Actions</span>,
  cell: (deal) => {
    const name = `${DEAL_WORDS[deal.kind].toLowerCase()} on ${deal.onDate}`;
    return deal.mine ? (
      <span className="lw-row-buttons">
        <button
          type="button"
          aria-label={`Correct ${name}`}
          onClick={() => onOpen({ what: 'correct', deal })}
        >
          Correct
        </button>
        <button
          type="button"
          aria-label={`Withdraw ${name}`}
          onClick={() => onOpen({ what: 'withdraw', deal })}
        >
          Withdraw
        </button>
      </span>
    ) : null;
  },
});

interface PriceSheetsProps {
  fish: FishFacts;
  deals: readonly FishDeal[];
  opened: Opened | null;
  onClose: () => void;
}

function PriceSheets({ fish, deals, opened, onClose }: PriceSheetsProps) {
  const currency = deals.find((deal) => deal.currency !== null)?.currency ?? null;
  return (
    <>
      <Sheet
        title={
          opened?.what === 'correct' ? `Correct a price of ${fish.tag}` : `Price of ${fish.tag}`
        }
        opened={opened !== null && opened.what !== 'withdraw'}
        onClose={onClose}
      >
        {opened?.what === 'correct' ? (
          <PriceForm fishId={fish.id} deal={opened.deal} onDone={onClose} />
        ) : (
          <PriceForm fishId={fish.id} currency={currency} onDone={onClose} />
        )}
      </Sheet>
      {opened?.what === 'withdraw' && (
        <WithdrawRecord
          mutation={WITHDRAW_FISH_DEAL}
          record={opened.deal}
          title={`Withdraw a price of ${fish.tag}`}
          what="the price"
          onClose={onClose}
        />
      )}
    </>
  );
}
