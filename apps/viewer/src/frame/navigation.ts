export interface Place {
  to: string;
  label: string;
  /** Other words by which the search finds it. */
  also?: string;
  /** For whoever keeps records of their own here: a partner finds nothing there. `house`: for the owner and the household. */
  ours?: boolean | 'house';
}

export interface PlaceGroup {
  title: string;
  places: readonly Place[];
}

/** So many of the places of every day have room in the bar at the bottom of a phone, beside “Search” and “More”. */
export const IN_BAR = 4;

/** What every day needs: always in sight. */
export const dailyPlaces: readonly Place[] = [
  { to: '/today', label: 'Today', also: 'tasks due feed' },
  { to: '/fish', label: 'Fish', also: 'tags stock' },
  { to: '/spawns', label: 'Spawns', also: 'broods' },
  { to: '/next-pairing', label: 'Next pairing', also: 'pairs outcross proposal mates' },
  { to: '/lines', label: 'Lines', also: 'purpose health routes forecast' },
];

/** Everything else, in groups that open. Routes are in routes.tsx. */
export const placeGroups: readonly PlaceGroup[] = [
  {
    title: 'Breeding',
    places: [
      { to: '/planned', label: 'Planned pairings', also: 'pairs rounds' },
      { to: '/relationship', label: 'Relationship map', also: 'kinship coancestry' },
      { to: '/crosses', label: 'Crosses', also: 'punnett genotypes' },
      { to: '/loci', ours: true, label: 'Loci and carriers', also: 'genes alleles who carries' },
      {
        to: '/inheritance',
        ours: true,
        label: 'How a look is inherited',
        also: 'segregation linkage',
      },
      { to: '/contradictions', ours: true, label: 'Contradictions', also: 'faults wrong records' },
    ],
  },
  {
    title: 'Scoring and care',
    places: [
      { to: '/traits', label: 'Traits', also: 'heritability breeding values' },
      { to: '/score-sheets', label: 'Score sheets', also: 'scoring points' },
      { to: '/care-plans', ours: true, label: 'Care plans', also: 'calendar tasks' },
      { to: '/rack', ours: true, label: 'Rack', also: 'vessels jars tanks tubs shelves where' },
      { to: '/water', label: 'Water', also: 'ammonia nitrite ph hardness' },
    ],
  },
  {
    title: 'With others',
    places: [
      { to: '/hand-overs', label: 'Hand-overs', also: 'gift sale loan' },
      { to: '/club', label: 'Club', also: 'keepers' },
      { to: '/sharing', ours: 'house', label: 'Share a line', also: 'partners exchange file' },
      {
        to: '/people',
        label: 'People',
        also: 'accounts password passkeys tokens household partner',
      },
    ],
  },
  {
    title: 'Files and labels',
    places: [
      { to: '/import', ours: true, label: 'Import', also: 'spreadsheet csv xlsx ods' },
      { to: '/export-and-backup', ours: true, label: 'Export and backup', also: 'csv restore' },
      { to: '/print', label: 'Labels and cards', also: 'jar labels qr codes spawn cards' },
      { to: '/phone', label: 'Phone', also: 'mobile wifi network https certificate address qr' },
      { to: '/entries', label: 'On this device', also: 'waiting not sent offline' },
      { to: '/cautions', label: 'Cautions', also: 'welfare law culling safety' },
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

/** Pages that the menu leaves to the screens they serve, for the search. */
const servingPlaces: readonly Place[] = [
  { to: '/pair', label: 'Choose two fish', also: 'pair judge' },
  { to: '/fish-acts', ours: true, label: 'Done for several fish', also: 'take back undo' },
  { to: '/founders', ours: true, label: 'Several founders', also: 'new fish bought shop' },
  { to: '/start', ours: true, label: 'Begin your book', also: 'first steps' },
];

/** Every page that somebody may open, for the search. */
export const everyPlaceFor = (keepsRecords: boolean, ofTheHouse: boolean): readonly Place[] => [
  ...dailyPlaces,
  ...placesFor(keepsRecords, ofTheHouse).flatMap(({ places }) => places),
  ...servingPlaces.filter(({ ours = false }) => !ours || keepsRecords),
];

/** The group in which somebody at an address is; null at a place of every day. */
export const groupAt = (groups: readonly PlaceGroup[], pathname: string): string | null =>
  groups.find(({ places }) =>
    places.some(({ to }) => pathname === to || pathname.startsWith(`${to}/`)),
  )?.title ?? null;
