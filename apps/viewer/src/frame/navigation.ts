export interface Place {
  to: string;
  label: string;
  /** In the bar at the bottom of a phone. */
  inBar?: boolean;
}

export interface PlaceGroup {
  title: string;
  places: readonly Place[];
}

/** Every place reachable from the navigation, in order. Routes are in routes.tsx. */
export const placeGroups: readonly PlaceGroup[] = [
  {
    title: 'Day',
    places: [
      { to: '/today', label: 'Today', inBar: true },
      { to: '/care-plans', label: 'Care plans' },
    ],
  },
  {
    title: 'Stock',
    places: [
      { to: '/fish', label: 'Fish', inBar: true },
      { to: '/spawns', label: 'Spawns', inBar: true },
      { to: '/lines', label: 'Lines' },
      { to: '/water', label: 'Water' },
    ],
  },
  {
    title: 'Pairing',
    places: [
      { to: '/next-pairing', label: 'Next pairing', inBar: true },
      { to: '/planned', label: 'Planned', inBar: true },
      { to: '/relationship', label: 'Relationship map' },
    ],
  },
  {
    title: 'Heredity',
    places: [
      { to: '/crosses', label: 'Crosses' },
      { to: '/loci', label: 'Loci' },
      { to: '/inheritance', label: 'How a look is inherited' },
      { to: '/contradictions', label: 'Contradictions' },
      { to: '/traits', label: 'Traits' },
      { to: '/score-sheets', label: 'Score sheets' },
    ],
  },
  {
    title: 'Files and labels',
    places: [
      { to: '/import', label: 'Import' },
      { to: '/export-and-backup', label: 'Export and backup' },
      { to: '/sharing', label: 'Share a line' },
      { to: '/print', label: 'Labels and cards' },
    ],
  },
  {
    title: 'General',
    places: [
      { to: '/entries', label: 'On this device' },
      { to: '/people', label: 'People' },
      { to: '/cautions', label: 'Cautions' },
    ],
  },
];
