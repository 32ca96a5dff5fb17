import type { ReactNode } from 'react';

/** States of one component by name, each drawn when the page shows it. */
export type States = Readonly<Record<string, () => ReactNode>>;

/** Components by their own name. */
export type Parts = Readonly<Record<string, States>>;
