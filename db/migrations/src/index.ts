import { Records1764068400000 } from './1764068400000-records.js';
import { Carriers1764070000000 } from './1764070000000-carriers.js';
import { CareCalendar1764071000000 } from './1764071000000-care-calendar.js';
import { ReceivedEntries1764072000000 } from './1764072000000-received-entries.js';
import { Water1764073000000 } from './1764073000000-water.js';
import { ScoreSheetsAndPhotos1764074000000 } from './1764074000000-score-sheets-and-photos.js';
import { RefusedAttempts1764078000000 } from './1764078000000-refused-attempts.js';
import { ImportRuns1764079000000 } from './1764079000000-import-runs.js';
import { Backups1764111000000 } from './1764111000000-backups.js';
import { UnknownParents1764112000000 } from './1764112000000-unknown-parents.js';
import { ImportRunZone1764113000000 } from './1764113000000-import-run-zone.js';
import { PlaceOfFish1764121000000 } from './1764121000000-place-of-fish.js';
import { PastImports1764123000000 } from './1764123000000-past-imports.js';
import { FishActs1764150000000 } from './1764150000000-fish-acts.js';
import { TheDoor1764151000000 } from './1764151000000-the-door.js';
import { StandingRecords1764155000000 } from './1764155000000-standing-records.js';
import { Merit1764160000000 } from './1764160000000-merit.js';
import { LinePurposes1764170000000 } from './1764170000000-line-purposes.js';
import { Rounds1764172000000 } from './1764172000000-rounds.js';
import { RecordMarks1764172500000 } from './1764172500000-record-marks.js';
import { LineRoutes1764173000000 } from './1764173000000-line-routes.js';
import { PeopleAndCareRecords1764174000000 } from './1764174000000-people-and-care-records.js';
import { BesideTraits1764175000000 } from './1764175000000-beside-traits.js';
import { RecordStamps1764176000000 } from './1764176000000-record-stamps.js';
import { PeopleWithAccounts1764180000000 } from './1764180000000-people-with-accounts.js';
import { LineGrants1764181000000 } from './1764181000000-line-grants.js';
import { WaysIn1764185000000 } from './1764185000000-ways-in.js';
import { KeysOfInstalls1764191000000 } from './1764191000000-keys-of-installs.js';
import { PartnerInstalls1764192000000 } from './1764192000000-partner-installs.js';
import { OwnData1764195000000 } from './1764195000000-own-data.js';
import { ExchangeTold1764196000000 } from './1764196000000-exchange-told.js';
import { HandOvers1764201000000 } from './1764201000000-hand-overs.js';
import { Keepers1764205000000 } from './1764205000000-keepers.js';
import { Club1764206000000 } from './1764206000000-club.js';
import { TagsOfHandOvers1764207000000 } from './1764207000000-tags-of-hand-overs.js';
import { MakersOfPairs1764208000000 } from './1764208000000-makers-of-pairs.js';
import { WhatCame1764209000000 } from './1764209000000-what-came.js';
import { FishClaims1764210000000 } from './1764210000000-fish-claims.js';
import { AnsweredRequests1764220000000 } from './1764220000000-answered-requests.js';
import { HouseholdOfKeepers1764221000000 } from './1764221000000-household-of-keepers.js';
import { ImportShapes1764240000000 } from './1764240000000-import-shapes.js';
import { HistoryByKind1764242000000 } from './1764242000000-history-by-kind.js';
import { NamedAncestors1764260000000 } from './1764260000000-named-ancestors.js';
import { ClaimsBetweenInstalls1764270000000 } from './1764270000000-claims-between-installs.js';
import { OrdersOfLists1764280000000 } from './1764280000000-orders-of-lists.js';
import { FishDeals1764290000000 } from './1764290000000-fish-deals.js';
import { HomeNetwork1764296000000 } from './1764296000000-home-network.js';
import { Vessels1764298000000 } from './1764298000000-vessels.js';
import { MarkingsOfPictures1764299000000 } from './1764299000000-markings-of-pictures.js';
import { SavedSearches1764300000000 } from './1764300000000-saved-searches.js';
import { ShowResults1764302000000 } from './1764302000000-show-results.js';

/** Frozen history of the schema, oldest first. A change is a new file, never an edit of an old one. */
export const migrations = [
  Records1764068400000,
  Carriers1764070000000,
  CareCalendar1764071000000,
  ReceivedEntries1764072000000,
  Water1764073000000,
  ScoreSheetsAndPhotos1764074000000,
  RefusedAttempts1764078000000,
  ImportRuns1764079000000,
  Backups1764111000000,
  UnknownParents1764112000000,
  ImportRunZone1764113000000,
  PlaceOfFish1764121000000,
  PastImports1764123000000,
  FishActs1764150000000,
  TheDoor1764151000000,
  StandingRecords1764155000000,
  Merit1764160000000,
  LinePurposes1764170000000,
  Rounds1764172000000,
  RecordMarks1764172500000,
  LineRoutes1764173000000,
  PeopleAndCareRecords1764174000000,
  BesideTraits1764175000000,
  RecordStamps1764176000000,
  PeopleWithAccounts1764180000000,
  LineGrants1764181000000,
  WaysIn1764185000000,
  KeysOfInstalls1764191000000,
  PartnerInstalls1764192000000,
  OwnData1764195000000,
  ExchangeTold1764196000000,
  HandOvers1764201000000,
  Keepers1764205000000,
  Club1764206000000,
  TagsOfHandOvers1764207000000,
  MakersOfPairs1764208000000,
  WhatCame1764209000000,
  FishClaims1764210000000,
  AnsweredRequests1764220000000,
  HouseholdOfKeepers1764221000000,
  ImportShapes1764240000000,
  HistoryByKind1764242000000,
  NamedAncestors1764260000000,
  ClaimsBetweenInstalls1764270000000,
  OrdersOfLists1764280000000,
  FishDeals1764290000000,
  HomeNetwork1764296000000,
  Vessels1764298000000,
  MarkingsOfPictures1764299000000,
  SavedSearches1764300000000,
  ShowResults1764302000000,
];
