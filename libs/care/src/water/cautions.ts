/**
 * What is told wherever new water is asked for. Common practice, no source: conditioners, standing and airing are what
 * their makers and those who use them say of them; that chloramine, unlike chlorine, does not leave standing water is textbook
 * knowledge of water treatment (from memory).
 */
export const tapWaterCaution =
  'Treat tap water against chlorine and chloramine first: standing drives out chlorine, but not chloramine. Bring it to the temperature of the fish’s own water.';

/** Why a pH read at the tap says little (from memory: carbon dioxide leaves water that stands in air). */
export const standingPHCaution =
  'The pH of tap water often rises as it stands, because carbon dioxide leaves it: measure it after a day of standing or airing.';

export const neverAcidCaution =
  'Never pour in acid or a product that lowers pH: a sudden change of pH harms fish, and buffered water climbs back.';

/** Beside water and electricity: common practice, no source. */
export const electricityCaution =
  'Unplug heaters, pumps and lamps before hands or a siphon go into the water, and touch plugs with dry hands only.';
