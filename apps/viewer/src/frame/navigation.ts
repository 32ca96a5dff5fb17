export interface Place {
  to: string;
  label: string;
  /** For whoever keeps records of their own here: a partner finds nothing there. `house`: for the owner and the household. */
  ours?: boolean | 'house';
}

export interface PlaceGroup {
  title: string;
  places: readonly Place[];
}

/** What every day needs: always in sight, and in the bar at the bottom of a phone. */
export const dailyPlaces: readonly Place[] = [
  { to: '/today', label: 'Today' },
  { to: '/fish', label: 'Fish' },
  { to: '/spawns', label: 'Spawns' },
  { to: '/next-pairing', label: 'Next pairing' },
  { to: '/lines', label: 'Lines' },
];

/** Everything else, in groups that open. Routes are in routes.tsx. */
export const placeGroups: readonly PlaceGroup[] = [
  {
    title: 'Breeding',
    places: [
      { to: '/planned', label: 'Planned pairings' },
      { to: '/relationship', label: 'Relationship map' },
      { to: '/crosses', label: 'Crosses' },
      { to: '/loci', ours: true, label: 'Loci and carriers' },
      { to: '/inheritance', ours: true, label: 'How a look is inherited' },
      { to: '/contradictions', ours: true, label: 'Contradictions' },
    ],
  },
  {
    title: 'Scoring and care',
    places: [
      { to: '/traits', label: 'Traits' },
      { to: '/score-sheets', label: 'Score sheets' },
      { to: '/care-plans', ours: true, label: 'Care plans' },
      { to: '/water', label: 'Water' },
    ],
  },
  {
    title: 'With others',
    places: [
      { to: '/hand-overs', label: 'Hand-overs' },
      { to: '/club', label: 'Club' },
      { to: '/sharing', ours: 'house', label: 'Share a line' },
      { to: '/people', label: 'People' },
    ],
  },
  {
    title: 'Files and labels',
    places: [
      { to: '/import', ours: true, label: 'Import' },
      { to: '/export-and-backup', ours: true, label: 'Export and backup' },
      { to: '/print', label: 'Labels and cards' },
      { to: '/entries', label: 'On this device' },
      { to: '/cautions', label: 'Cautions' },
    ],
  },
];

/** Those of the house, of somebody else who keeps records here, or of a partner; no group is empty. */
export const placesFor = (keepsRecords: boolean, ofTheHouse: boolean): readonly PlaceGroup[] =>
  placeGroups
    .map(({ title, places }) => ({
      title,
      places: places.filter(
        ({ ours = false }) => !ours || (keepsRecords && (ours !== 'house' || ofTheHouse)),
      ),
    }))
    .filter(({ places }) => places.length > 0);

/** The group in which somebody at an address is; null at a place of every day. */
export const groupAt = (groups: readonly PlaceGroup[], pathname: string): string | null =>
  groups.find(({ places }) =>
    places.some(({ to }) => pathname === to || pathname.startsWith(`${to}/`)),
  )?.title ?? null;
