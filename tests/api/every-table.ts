import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { writePairingCode } from '../../apps/api/src/sharing/partners/pairing-code.js';
import { today } from '../clock.js';
import { mottled } from '../mottled-locus.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi } from './harness.js';
import { lineJson, otherKeys, sentText } from './line-files.js';

const CHANGE =
  'mutation ($input: ChangeFishTogetherInput!) { changeFishTogether(input: $input) { id } }';
const DECIDE = 'mutation ($input: DecideFishInput!) { decideFish(input: $input) { place } }';

interface Stock {
  fishList: { edges: { node: { id: string; tag: string; revision: number } }[] };
  partners: { edges: { node: { person: { id: string; here: boolean } } }[] };
  lines: { id: string; person: { here: boolean } }[];
}

interface Scored {
  traits: { id: string }[];
  spawnList: { edges: { node: { id: string; fish: { disposition: string }[] } }[] };
}

/** On the demo, what a person does that the demo itself does not hold, so that no table of the records stays empty. */
export const fillEveryTable = async (api: RunningApi): Promise<void> => {
  const { fishList, partners, lines } = await api.graphql<Stock>(`{
    fishList(first: 4, filter: { place: HERE }) { edges { node { id tag revision } } }
    partners: fishList(first: 1, filter: { place: PARTNER }) { edges { node { person { id here } } } }
    lines { id person { here } } }`);
  const [first, second, third] = fishList.edges.map(({ node }) => node);
  const own = lines.find(({ person }) => person.here);
  const partner = partners.edges[0]?.node.person;
  if (partner?.here !== false) throw new Error('The demo has no partner.');
  // No screen grants one yet.
  const records = await recordsOf(api);
  await records.query(
    `INSERT INTO passkey (id, credential_id, person_id, name, public_key, counter, transports)
     SELECT gen_random_uuid(), 'a-key', id, 'Blue phone', '\\x0102', 7, '{internal}' FROM person WHERE here`,
  );
  await records.query(
    'INSERT INTO line_grant (account_id, line_id) SELECT id, $1 FROM person WHERE here',
    [own?.id],
  );
  await records.query('INSERT INTO erased_record (record_id) VALUES (gen_random_uuid())');
  await api.graphql('mutation { renewCalendarAddress { path } }');
  await api.graphql(
    'mutation { saveSearch(input: { name: "Males in use", filter: "sex=MALE&use=yes" }) { id } }',
  );
  const step = { id: 'cover', title: 'Cover', kind: 'DO', basis: 'OWN' };
  await api.graphql(
    'mutation ($input: SaveCareTemplateInput!) { saveCareTemplate(input: $input) { id } }',
    {
      input: {
        lineId: own?.id,
        name: 'Short',
        steps: [{ ...step, after: [{ after: 'spawned', hours: 6 }] }],
      },
    },
  );
  await newRecords(api).defineLocus(mottled);
  await api.graphql(
    'mutation ($input: WaterRuleInput!) { setWaterRule(input: $input) { limit } }',
    {
      input: { limit: 0.03, limitUnit: 'NH3', trustHours: 24 },
    },
  );
  await api.graphql(
    'mutation { confirmImport(fileName: "more.csv", text: "tag,sex\\nMORE-1,male\\n", columns: []) { fish } }',
  );
  await api.graphql(CHANGE, {
    input: {
      fish: [first, second].map((fish) => ({ id: fish?.id, revision: fish?.revision })),
      line: { lineId: null },
    },
  });
  // Where a fish swims and whose record it is are two things.
  await api.graphql(DECIDE, {
    input: {
      id: third?.id,
      disposition: 'PLACED',
      on: '2026-01-02',
      reason: 'to keep the line apart',
      swimsWithId: partner.id,
    },
  });
  const { traits, spawnList } = await api.graphql<Scored>(
    '{ traits { id } spawnList(first: 100) { edges { node { id fish { disposition } } } } }',
  );
  await api.graphql(
    'mutation ($input: SetTraitModelInput!) { setTraitModel(input: $input) { trait { id } } }',
    { input: { traitId: traits[0]?.id, revision: 0, season: false } },
  );
  const unsorted = spawnList.edges.find(
    ({ node }) =>
      node.fish.length > 0 && node.fish.every(({ disposition }) => disposition === 'UNSORTED'),
  );
  await api.graphql(
    'mutation ($input: DrawForScoringInput!) { drawForScoring(input: $input) { id } }',
    { input: { spawnId: unsorted?.node.id, number: 1 } },
  );
  const { line } = await api.graphql<{ line: { purpose: { version: number } } }>(
    'query ($id: ID!) { line(id: $id) { purpose { version } } }',
    { id: own?.id },
  );
  const pairingCandidates = await firstPair(api, own?.id);
  const pairs = pairingCandidates.edges.map(({ node: { sire, dam } }) => ({
    sireId: sire.id,
    damId: dam.id,
  }));
  const expectedPurposeVersion = line.purpose.version;
  await api.graphql('mutation ($input: AdoptRoundInput!) { adoptRound(input: $input) { id } }', {
    input: { lineId: own?.id, expectedPurposeVersion, plannedOn: today(), confirmed: true, pairs },
  });
  const search = {
    lineId: own?.id,
    share: 0.1,
    generations: 1,
    fryPerBrood: 4,
    withOutcross: false,
  };
  const found = await firstRoute(api, search);
  await api.graphql('mutation ($input: AdoptRouteInput!) { adoptRoute(input: $input) { id } }', {
    input: { search, key: found, expectedPurposeVersion, adoptedOn: today() },
  });
  await takeBack(api, own?.id ?? '');
  await pairWithSomebody(api);
  const goes = await newRecords(api).createFish({ tag: 'GOES-1', sex: 'MALE' });
  await api.graphql('mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }', {
    input: { fishIds: [goes], toName: ELSEWHERE, kind: 'GIFT', word: 'For your line' },
  });
  await joinClub(records, own?.id, first?.id);
};

const ELSEWHERE = 'A partner elsewhere';

/** The install of a partner who is nowhere. */
async function pairWithSomebody(api: RunningApi): Promise<void> {
  const keys = await otherKeys();
  const code = writePairingCode({ ...keys, personId: randomUUID(), name: ELSEWHERE });
  await api.graphql('mutation ($input: PairInstallInput!) { pairInstall(input: $input) { id } }', {
    input: { code },
  });
}

/** What was given comes back by way of a partner, and in the form of older programs. */
async function takeBack(api: RunningApi, lineId: string): Promise<void> {
  const file = JSON.parse(await lineJson(api, lineId)) as object;
  for (const given of [file, { ...file, version: 3 }])
    await api.graphql('mutation ($file: ID!) { acceptShare(file: $file) { added } }', {
      file: await sentText(api, JSON.stringify(given)),
    });
}

interface Candidates {
  waiting: { id: string } | null;
  edges: { node: { sire: { id: string }; dam: { id: string } } }[];
}

/** The first pair of a line, once what its fish may carry and pass on is worked out. */
async function firstPair(api: RunningApi, lineId: string | undefined): Promise<Candidates> {
  for (;;) {
    const { pairingCandidates } = await api.graphql<{ pairingCandidates: Candidates }>(
      `query ($id: ID!) { pairingCandidates(input: { lineIds: [$id] }, first: 1) {
        waiting { id } edges { node { sire { id } dam { id } } } } }`,
      { id: lineId },
    );
    if (pairingCandidates.waiting === null) return pairingCandidates;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

interface FoundRoutes {
  waiting: { id: string } | null;
  routes: { key: string }[];
}

/** The first route of a search; of one that is done, so that it stays what it is. */
async function firstRoute(api: RunningApi, input: object): Promise<string | undefined> {
  for (;;) {
    const { lineRoutes } = await api.graphql<{ lineRoutes: FoundRoutes }>(
      'query ($input: RouteSearchInput!) { lineRoutes(input: $input) { waiting { id } routes { key } } }',
      { input },
    );
    if (lineRoutes.waiting === null) return lineRoutes.routes[0]?.key;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** A line that is shown, a wish for a fish of it, a comment on a fish, and a keeper with a line of their own. */
async function joinClub(records: DataSource, lineId?: string, fishId?: string): Promise<void> {
  const [keeper, kept] = [randomUUID(), randomUUID()];
  await records.query(`INSERT INTO person (id, name, role) VALUES ($1, 'Solveig', 'keeper')`, [
    keeper,
  ]);
  await records.query(
    `INSERT INTO line (id, person_id, code, name) VALUES ($1, $2, 'KEPT', 'Of a keeper')`,
    [kept, keeper],
  );
  await records.query('INSERT INTO kept_line (line_id, account_id) VALUES ($1, $2)', [
    kept,
    keeper,
  ]);
  const owner = '(SELECT id FROM person WHERE here)';
  for (const [row, given] of [
    [`club_line (line_id, keeper_id, shown, counted) VALUES ($1, ${owner}, true, true)`, lineId],
    [`club_figure (figure, line_ids) VALUES ('a figure', ARRAY[$1::uuid])`, lineId],
    [
      `club_request (id, line_id, line_name, from_id, to_id, what, words)
       VALUES (gen_random_uuid(), $1, 'A line', ${owner}, ${owner}, 'fish', 'A fish, please')`,
      lineId,
    ],
    [
      `fish_claim (id, fish_id, tag, by_id, to_id, claimed_on)
       SELECT gen_random_uuid(), f.id, f.tag, ${owner}, ${owner}, '${today()}' FROM fish f WHERE f.id = $1`,
      fishId,
    ],
    [
      `fish_deal (id, fish_id, person_id, kind, on_date, amount, currency)
       VALUES (gen_random_uuid(), $1, ${owner}, 'sold', '${today()}', 1250, 'EUR')`,
      fishId,
    ],
    [
      `show_result (id, fish_id, show, on_date, class)
       VALUES (gen_random_uuid(), $1, 'A show', '${today()}', 'Young males')`,
      fishId,
    ],
    [
      `comment (id, fish_id, person_id, words) VALUES (gen_random_uuid(), $1, ${owner}, 'Grows well')`,
      fishId,
    ],
  ] as const)
    await records.query(`INSERT INTO ${row}`, [given]);
}
