import type { ComponentType } from 'react';
import { createBrowserRouter, Navigate, type RouteObject } from 'react-router';
import { Loading } from '../components/states.js';
import { LeaveGuard } from './leave-guard.js';
import { RouteError } from './route-error.js';
import { SessionGate } from './session-gate.js';
import { Frame } from './frame.js';

function at(path: string, load: () => Promise<ComponentType>): RouteObject {
  return { path, lazy: async () => ({ Component: await load() }), errorElement: <RouteError /> };
}

/** An address of before, which bookmarks still have. */
function movedTo(address: string, before: string): RouteObject {
  return { path: before, element: <Navigate to={address} replace /> };
}

const screens: RouteObject[] = [
  at('', () => import('../screens/start/home.js').then((m) => m.Home)),
  at('start', () => import('../screens/start/start-screen.js').then((m) => m.StartScreen)),
  at('founders', () =>
    import('../screens/founders/founders-screen.js').then((m) => m.FoundersScreen),
  ),
  at('today', () => import('../screens/today/today-screen.js').then((m) => m.TodayScreen)),
  at('care-plans', () =>
    import('../screens/care-plans/care-plans-screen.js').then((m) => m.CarePlansScreen),
  ),
  at('fish', () =>
    import('../screens/fish-list/fish-list-screen.js').then((m) => m.FishListScreen),
  ),
  at('fish/:id', () => import('../screens/fish/fish-screen.js').then((m) => m.FishScreen)),
  at('fish/:id/life', () =>
    import('../screens/fish-life/fish-life-screen.js').then((m) => m.FishLifeScreen),
  ),
  at('fish/:id/pedigree', () =>
    import('../screens/pedigree/pedigree-screen.js').then((m) => m.PedigreeScreen),
  ),
  at('fish/:id/hand-over', () =>
    import('../screens/hand-over/offer-screen.js').then((m) => m.OfferScreen),
  ),
  at('hand-overs', () =>
    import('../screens/hand-over/hand-overs-screen.js').then((m) => m.HandOversScreen),
  ),
  at('fish-acts', () =>
    import('../screens/fish-acts/fish-acts-screen.js').then((m) => m.FishActsScreen),
  ),
  at('fish-acts/:id', () =>
    import('../screens/fish-acts/fish-act-screen.js').then((m) => m.FishActScreen),
  ),
  at('spawns', () =>
    import('../screens/spawn-list/spawn-list-screen.js').then((m) => m.SpawnListScreen),
  ),
  at('spawns/:id', () => import('../screens/spawn/spawn-screen.js').then((m) => m.SpawnScreen)),
  at('spawns/:id/contact-sheet', () =>
    import('../screens/spawn/contact-sheet-screen.js').then((m) => m.ContactSheetScreen),
  ),
  at('spawns/:id/sort', () =>
    import('../screens/sorting/sorting-screen.js').then((m) => m.SortingScreen),
  ),
  at('club', () => import('../screens/club/club-screen.js').then((m) => m.ClubScreen)),
  at('lines', () => import('../screens/lines/line-list-screen.js').then((m) => m.LineListScreen)),
  at('lines/:id', () => import('../screens/lines/line-screen.js').then((m) => m.LineScreen)),
  at('lines/:id/health', () =>
    import('../screens/line-health/line-health-screen.js').then((m) => m.LineHealthScreen),
  ),
  at('lines/:id/routes', () =>
    import('../screens/line-routes/line-routes-screen.js').then((m) => m.LineRoutesScreen),
  ),
  at('lines/:id/outcross', () =>
    import('../screens/outcross/outcross-screen.js').then((m) => m.OutcrossScreen),
  ),
  at('lines/:id/purpose', () =>
    import('../screens/line-purpose/line-purpose-screen.js').then((m) => m.LinePurposeScreen),
  ),
  at('lines/:id/relationship', () =>
    import('../screens/relationship/relationship-screen.js').then((m) => m.RelationshipScreen),
  ),
  at('relationship', () =>
    import('../screens/relationship/relationship-screen.js').then((m) => m.RelationshipScreen),
  ),
  movedTo('/next-pairing', 'pairing'),
  at('next-pairing', () =>
    import('../screens/next-pairing/next-pairing-screen.js').then((m) => m.NextPairingScreen),
  ),
  at('pair', () => import('../screens/pair/pair-choice-screen.js').then((m) => m.PairChoiceScreen)),
  at('pair/:sireId/:damId', () =>
    import('../screens/pair/pair-screen.js').then((m) => m.PairScreen),
  ),
  at('planned', () => import('../screens/planned/planned-screen.js').then((m) => m.PlannedScreen)),
  at('rounds/:id', () => import('../screens/round/round-screen.js').then((m) => m.RoundScreen)),
  at('crosses', () => import('../screens/crosses/crosses-screen.js').then((m) => m.CrossesScreen)),
  at('loci', () => import('../screens/loci/loci-screen.js').then((m) => m.LociScreen)),
  at('loci/:id/carriers', () =>
    import('../screens/loci/carriers-screen.js').then((m) => m.CarriersScreen),
  ),
  at('inheritance', () =>
    import('../screens/inheritance/inheritance-screen.js').then((m) => m.InheritanceScreen),
  ),
  at('contradictions', () =>
    import('../screens/contradictions/contradictions-screen.js').then(
      (m) => m.ContradictionsScreen,
    ),
  ),
  at('traits', () => import('../screens/traits/traits-screen.js').then((m) => m.TraitsScreen)),
  at('traits/:id', () => import('../screens/traits/trait-screen.js').then((m) => m.TraitScreen)),
  at('score-sheets', () =>
    import('../screens/score-sheets/score-sheets-screen.js').then((m) => m.ScoreSheetsScreen),
  ),
  at('score-sheets/:id', () =>
    import('../screens/score-sheets/score-sheet-screen.js').then((m) => m.ScoreSheetScreen),
  ),
  at('import', () => import('../screens/import/import-screen.js').then((m) => m.ImportScreen)),
  movedTo('/export-and-backup', 'files'),
  at('export-and-backup', () =>
    import('../screens/export-and-backup/export-and-backup-screen.js').then(
      (m) => m.ExportAndBackupScreen,
    ),
  ),
  movedTo('/sharing', 'share'),
  at('sharing', () => import('../screens/sharing/sharing-screen.js').then((m) => m.SharingScreen)),
  movedTo('/entries', 'waiting'),
  at('entries', () => import('../screens/entries/entries-screen.js').then((m) => m.EntriesScreen)),
  at('people', () => import('../screens/people/people-screen.js').then((m) => m.PeopleScreen)),
  at('rack', () => import('../screens/rack/rack-screen.js').then((m) => m.RackScreen)),
  at('vessels/:id', () => import('../screens/rack/rack-screen.js').then((m) => m.RackScreen)),
  at('water', () => import('../screens/water/water-screen.js').then((m) => m.WaterScreen)),
  at('print', () => import('../screens/print/print-screen.js').then((m) => m.PrintScreen)),
  at('phone', () => import('../screens/phone/phone-screen.js').then((m) => m.PhoneScreen)),
  at('cautions', () =>
    import('../screens/cautions/cautions-screen.js').then((m) => m.CautionsScreen),
  ),
];

export const router = createBrowserRouter([
  at('/join', () => import('../screens/session/join-screen.js').then((m) => m.JoinScreen)),
  {
    path: '/',
    element: (
      <LeaveGuard>
        <SessionGate>
          <Frame />
        </SessionGate>
      </LeaveGuard>
    ),
    errorElement: <RouteError />,
    hydrateFallbackElement: <Loading what="the screen" />,
    children: screens,
  },
]);
