import { Button } from '@mantine/core';
import { type ReactNode, useState } from 'react';

export interface PageOfList {
  readonly pageInfo: { readonly hasNextPage: boolean; readonly endCursor: string | null };
  readonly totalCount: number;
}

interface MorePagesProps {
  page: PageOfList;
  /** Rows in view, those of the pages before included. */
  listed: number;
  /** The rows in words, plural. */
  what: string;
  /** Which rows come first, and which follow, as in "the newest", "older". */
  order?: { readonly first: string; readonly next: string };
  /** Draws the next page; it asks for its own rows. */
  next: (after: string) => ReactNode;
}

const NEWEST = { first: 'newest', next: 'older' };

/** Under a page of a list: how many more there are, and a way to them. Nothing when all are in view. */
export function MorePages({ page, listed, what, order = NEWEST, next }: MorePagesProps) {
  const [open, setOpen] = useState(false);
  const { hasNextPage, endCursor } = page.pageInfo;
  if (!hasNextPage || endCursor === null) return null;
  if (open) return next(endCursor);
  return (
    <p className="lw-quiet">
      The {order.first} {listed.toLocaleString('en')} of {page.totalCount.toLocaleString('en')}{' '}
      {what} are listed.{' '}
      <Button size="xs" onClick={() => setOpen(true)}>
        Show {order.next} {what}
      </Button>
    </p>
  );
}
