export interface Place {
  to: string;
  label: string;
  /** In the bar at the bottom of a phone. */
  inBar?: boolean;
  /** For whoever keeps records of their own here: a partner finds nothing there. `house`: for the owner and the household. */
  ours?: boolean | 'house';
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
      { to: '/care-plans', ours: true, label: 'Care plans' },
    ],
  },
  {
    title: 'Stock',
    places: [
      { to: '/fish', label: 'Fish', inBar: true },
      { to: '/spawns', label: 'Spawns', inBar: true },
      { to: '/lines', label: 'Lines' },
      { to: '/hand-overs', label: 'Hand-overs' },
      { to: '/water', label: 'Water' },
    ],
  },
  {
    title: 'Pairing',
    places: [
      { to: '/next-pairing', label: 'Next pairing', inBar: true },
      { to: '/planned', label: 'Planned', inBar: true },
      { to: '/relationship', label: 'Relationship map' },
      { to: '/club', label: 'Club' },
    ],
  },
  {
    title: 'Heredity',
    places: [
      { to: '/crosses', label: 'Crosses' },
      { to: '/loci', ours: true, label: 'Loci' },
      { to: '/inheritance', ours: true, label: 'How a look is inherited' },
      { to: '/contradictions', ours: true, label: 'Contradictions' },
      { to: '/traits', label: 'Traits' },
      { to: '/score-sheets', label: 'Score sheets' },
    ],
  },
  {
    title: 'Files and labels',
    places: [
      { to: '/import', ours: true, label: 'Import' },
      { to: '/export-and-backup', ours: true, label: 'Export and backup' },
      { to: '/sharing', ours: 'house', label: 'Share a line' },
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

/** Those of the house, of somebody else who keeps records here, or of a partner. */
export const placesFor = (keepsRecords: boolean, ofTheHouse: boolean): readonly PlaceGroup[] =>
  placeGroups.map(({ title, places }) => ({
    title,
    places: places.filter(
      ({ ours = false }) => !ours || (keepsRecords && (ours !== 'house' || ofTheHouse)),
    ),
  }));
