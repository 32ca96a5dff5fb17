/** One published figure on the development of *Betta splendens*, as printed, with what it holds for. */
export interface PublishedFigure {
  /** Step it stands beside. */
  readonly step: string;
  /** Event it is counted from. */
  readonly after: 'spawned' | 'hatched' | 'conditioning';
  readonly from: number;
  readonly to: number;
  readonly unit: 'hours' | 'days';
  readonly what: string;
  readonly conditions: string;
  readonly citation: string;
}

const valentin =
  'Valentin et al. 2013, Early development of Betta splendens under stereomicroscopy and scanning electron microscopy, Zygote (published online; volume not seen), abstract';
const celik =
  'Celik, Celik & Akalin 2022, Larval development of Siamese fighting fish (Betta splendens Regan, 1910), Acta Natura et Scientia 3(2):137-147, abstract';

/**
 * Figures to be shown beside the calendar, each with its conditions. They are single observations at single temperatures:
 * no series over several temperatures was found for this species, so nothing is interpolated between them.
 *
 * Basis: read in the abstracts named.
 */
export const publishedFigures: readonly PublishedFigure[] = [
  {
    step: 'side_by_side',
    after: 'conditioning',
    from: 15,
    to: 15,
    unit: 'days',
    what: 'pair fed apart behind glass before spawning',
    conditions: 'design of one feeding trial, not a recommendation',
    citation:
      'Biokani, Jamili, Amini & Sarkhosh 2014, The study of different foods on spawning efficiency of Siamese fighting fish, Marine Science 4(2):33-37, abstract',
  },
  {
    step: 'hatched',
    after: 'spawned',
    from: 29,
    to: 29,
    unit: 'hours',
    what: 'most hatched',
    conditions:
      '28.4 ± 0.2 °C; counted from the first eggs gathered, not exactly from fertilisation',
    citation: valentin,
  },
  {
    step: 'hatched',
    after: 'spawned',
    from: 28,
    to: 32,
    unit: 'hours',
    what: 'hatched',
    conditions: '28.0 ± 0.5 °C; counted from fertilisation',
    citation: celik,
  },
  {
    step: 'hatched',
    after: 'spawned',
    from: 38,
    to: 38,
    unit: 'hours',
    what: 'hatched',
    conditions: 'temperature not given in the abstract; counted from fertilisation',
    citation:
      'Ontogeny and embryonic description of Betta splendens, Perciformes (Regan, 1910), 2012, abstract on SciELO; authors not given there; journal and volume from memory: Rev. Bras. Saúde Prod. Anim. 13(3)',
  },
  {
    step: 'free_swimming',
    after: 'hatched',
    from: 4,
    to: 4,
    unit: 'days',
    what: 'yolk gone and swimming freely (swim bladder filled at 2 to 3 days)',
    conditions: '28.0 ± 0.5 °C; breeders call fry free-swimming earlier, when they hold level',
    citation: celik,
  },
  {
    step: 'first_food',
    after: 'hatched',
    from: 23,
    to: 23,
    unit: 'hours',
    what: 'mouth open',
    conditions: '28.4 ± 0.2 °C; disagrees with the next figure',
    citation: valentin,
  },
  {
    step: 'first_food',
    after: 'hatched',
    from: 2,
    to: 2,
    unit: 'days',
    what: 'mouth open',
    conditions: '28.0 ± 0.5 °C; disagrees with the figure before',
    citation: celik,
  },
  {
    step: 'first_food',
    after: 'hatched',
    from: 3,
    to: 3,
    unit: 'days',
    what: 'takes food',
    conditions: '28.0 ± 0.5 °C',
    citation: celik,
  },
  {
    step: 'first_food',
    after: 'hatched',
    from: 73,
    to: 73,
    unit: 'hours',
    what: 'yolk gone',
    conditions: '28.4 ± 0.2 °C',
    citation: valentin,
  },
  {
    step: 'topped_up',
    after: 'hatched',
    from: 9,
    to: 9,
    unit: 'days',
    what: 'labyrinth organ visible',
    conditions:
      'temperature not given in the abstract; when fry come to depend on it is not known, so the cover stays on from the start',
    citation:
      'Chinabut, Chanrat & Laohavisuti 1991, Study on organogenesis and histology of Siamese fighting fish, Betta splendens Regan, Agriculture and Natural Resources 25(4):421-429, abstract',
  },
  {
    step: 'jarred',
    after: 'hatched',
    from: 32,
    to: 32,
    unit: 'days',
    what: 'metamorphosis done',
    conditions: '28.4 ± 0.2 °C; tells when they look like adults, not when they fight',
    citation: valentin,
  },
];

export const figuresBeside = (stepId: string): readonly PublishedFigure[] =>
  publishedFigures.filter((figure) => figure.step === stepId);

/** Hours after its event at which a figure begins and ends. */
export const figureHours = (figure: PublishedFigure): { from: number; to: number } => {
  const hours = figure.unit === 'days' ? 24 : 1;
  return { from: figure.from * hours, to: figure.to * hours };
};
