import {
  electricityCaution,
  neverAcidCaution,
  standingPHCaution,
  tapWaterCaution,
} from '@linewright/care';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';

const cautions: readonly { title: string; paragraphs: readonly string[] }[] = [
  {
    title: 'Culling',
    paragraphs: [
      'To cull is to take a fish out of the breeding line. Most culls need not die: a fish that will not be bred from can be placed in a home, or kept apart. Choose pairs and brood sizes so that there are homes or room for what you raise.',
      'Where a fish suffers or has to be killed, ask a vet which way is humane for its size and lawful where you live. Veterinary bodies publish guidance, such as the AVMA Guidelines for the Euthanasia of Animals (2020), which has a chapter on fish; your own country’s comes first. Bettas breathe air, so ways meant for other fish may work slowly or not at all on them. Flushing, slow freezing, leaving a fish in air and caustic liquids are cruel.',
      'Linewright records a cull with its reason. It gives no method and no dose.',
    ],
  },
  {
    title: 'Fighting',
    paragraphs: [
      'Adult males, and some females, wound or kill one another. Jar them when nipping begins, keep a lid and a visual barrier between neighbours, and stay near when a pair is put together: take the female out when she is chased or torn.',
      'Staging fights is cruel and a crime in many places. Linewright keeps no record of fights and no score for aggression towards another fish.',
    ],
  },
  {
    title: 'Selling and giving away',
    paragraphs: [
      'In many places the law says who may sell animals, whether a licence or a register is needed, how fish may be kept for sale, packed and sent, and what papers go with them; in some it holds for gifts, swaps and online offers too, and taxes may follow. Ask your authority before you sell, give away or post a fish.',
      'Tell the next owner what the fish is, its age and parents, what water and warmth it is used to, and what illness was in your tanks. Send nothing that is ill, and nothing in weather that the parcel does not stand. Some carriers refuse live animals.',
    ],
  },
  {
    title: 'Water',
    paragraphs: [
      `${tapWaterCaution} ${standingPHCaution}`,
      `Ammonia does most harm at a high pH. Before you change or top up water, compare the pH of both waters: new water of a higher pH can make harmless ammonia poisonous. ${neverAcidCaution}`,
      'Salt, and chloride in it, is no remedy that was tested in bettas. A fish that gasps or lies on its side needs a vet as well as better water.',
    ],
  },
  {
    title: 'Electricity beside water',
    paragraphs: [
      `${electricityCaution} Let each cable hang in a loop lower than its socket, so that drops do not run into it, keep sockets above and away from tanks, and use a residual-current device (RCD, GFCI): it can save a life.`,
      'A heater out of the water overheats and can burst: unplug it before the water goes down and let it cool. Do not use a heater, pump or lamp with a cracked glass or a bare wire. If water has reached a plug, switch off at the fuse box first; wiring is work for an electrician.',
    ],
  },
  {
    title: 'Release',
    paragraphs: [
      'Never release a fish, fry, eggs, a plant or tank water into open water or a drain that leads there. Kept fish carry disease, and genes of domestic bettas have been found in wild populations. A fish you cannot keep can be placed, or a vet can help.',
    ],
  },
  {
    title: 'Snails and other helpers',
    paragraphs: [
      'Some snails sold to clean fry tanks are plant pests, and keeping, moving or selling them is restricted in many countries; the rules have changed more than once. Ask your plant-health authority before you get, move or pass on any apple snail, and destroy the eggs; the bin alone is not enough.',
    ],
  },
  {
    title: 'Drugs',
    paragraphs: [
      'What may be given to fish, by whom, and how, differs from country to country. Wrong use harms fish, people and water, and breeds resistance. Have a vet name the disease and the treatment first. Hormones change the sex and fertility of fry; a fish so treated spoils the record of a line. Linewright gives no doses.',
    ],
  },
  {
    title: 'Infection from fish to people',
    paragraphs: [
      'Bacteria that live in tanks, Mycobacterium marinum above all, can infect a cut: a sore or lump may show weeks later and lasts. Cover cuts, wear gloves for work in tanks, wash afterwards, and never start a siphon by mouth. See a doctor about a sore that does not heal, and say that you keep fish. People with weak immunity should leave tank work to others.',
    ],
  },
  {
    title: 'Quarantine',
    paragraphs: [
      'Keep every newcomer in its own water with its own net, and tend it last. Three to four weeks is common practice; there is little evidence for an exact number. A sign of disease starts the count again, and is a question for a vet.',
      'Moving fish across a border may need papers and a set quarantine: ask the authority on both sides.',
    ],
  },
  {
    title: 'Inbreeding',
    paragraphs: [
      'F tells what the recorded pedigree makes likely, not what a brood will be. No measured figures for inbreeding depression in bettas were found; in trout and zebrafish, closer mating gave fewer and weaker young. An outcross is not a sure gain either. Count your spawns and let the counts decide.',
    ],
  },
];

export function CautionsScreen() {
  return (
    <Screen
      title="Cautions"
      lead="Where the records touch animal welfare, the law and your health. Local law and your vet come first."
    >
      <div className="lw-words">
        {cautions.map(({ title, paragraphs }) => (
          <Section key={title} title={title}>
            {paragraphs.map((paragraph) => (
              <p key={paragraph}>{paragraph}</p>
            ))}
          </Section>
        ))}
      </div>
    </Screen>
  );
}
