import type { Source } from '../locus.js';

const READ = 'read in the source' as const;
const CITED = 'citation only, from memory' as const;
const PRACTICE = 'common practice, no source' as const;

/**
 * What the catalogue rests on. No segregation table of *Betta splendens* could be read, so no locus carries counts: where a
 * source is marked as read, it was its abstract or opening unless the note says otherwise.
 */
export const sources: readonly Source[] = Object.freeze([
  {
    id: 'wallbrunn-thesis',
    citation:
      'Wallbrunn HM. Genetics of the Siamese fighting fish, Betta splendens. PhD thesis, University of Chicago (year not seen; title from memory).',
    basis: READ,
    note: 'Abstract only, cut off in its eleventh point.',
  },
  {
    id: 'wallbrunn-1958',
    citation:
      'Wallbrunn HM (1958) Genetics of the Siamese fighting fish, Betta splendens. Genetics 43:289-298 (title from memory).',
    basis: READ,
    note: 'First page only; the tables were not seen.',
  },
  {
    id: 'goodrich-mercer-1934',
    citation:
      'Goodrich HB, Mercer RN (1934) Genetics and colors of the Siamese fighting fish, Betta splendens. Science 79:318-319 (from memory).',
    basis: CITED,
  },
  {
    id: 'lucas-1968',
    citation:
      'Lucas GA (1968) A study of variation in the Siamese fighting fish, Betta splendens, with emphasis on color mutants and the problem of sex determination. PhD thesis, Iowa State University, no. 3489 (title from memory).',
    basis: READ,
    note: 'Title page only.',
  },
  {
    id: 'wang-2021',
    citation:
      'Wang L et al. (2021) Genomic basis of striking fin shapes and colors in the fighting fish (title from memory). Molecular Biology and Evolution 38(8):3383-3396. doi:10.1093/molbev/msab110',
    basis: READ,
    note: 'Abstract.',
  },
  {
    id: 'zhang-2022',
    citation:
      'Zhang W et al. (2022) The genetic architecture of phenotypic diversity in the betta fish (title from memory). Science Advances 8(38):eabm4955.',
    basis: READ,
    note: 'Abstract.',
  },
  {
    id: 'kwon-2022',
    citation:
      'Kwon YM et al. (2022) Genomic consequences of domestication of the Siamese fighting fish (title from memory). Science Advances 8:eabm4950.',
    basis: READ,
    note: 'Abstract and opening.',
  },
  {
    id: 'lowe-larkin-1975',
    citation:
      'Lowe TP, Larkin JR (1975) Sex reversal in Betta splendens Regan with emphasis on the problem of sex determination (title from memory). Journal of Experimental Zoology 191:25-32.',
    basis: READ,
    note: 'Abstract.',
  },
  {
    id: 'kavumpurath-pandian-1994',
    citation:
      'Kavumpurath S, Pandian TJ (1994) Masculinization of fighting fish, Betta splendens Regan, using synthetic or natural androgens. Aquaculture and Fisheries Management 25:373-381 (title, journal and volume from memory). doi:10.1111/j.1365-2109.1994.tb00702.x',
    basis: READ,
    note: 'Abstract.',
  },
  {
    id: 'thai-student-project',
    citation:
      'School science project on the inheritance of body colour in B. splendens, Thailand (no author or year shown; title put in our own words, from memory).',
    basis: READ,
    note: 'Abstract in Thai; no counts shown.',
  },
  {
    id: 'alfred-thesis',
    citation:
      'Honours thesis on the blues of B. splendens, Alfred University (author, year and title not noted: from memory).',
    basis: READ,
    note: 'Abstract; its crosses failed and gave no data.',
  },
  {
    id: 'imbellis-cross',
    citation:
      'Study of the first generation of B. imbellis x red halfmoon B. splendens, Indonesian proceedings (author, year and title not noted: from memory).',
    basis: READ,
    note: 'Abstract in Indonesian; descriptive.',
  },
  {
    id: 'practice-iridescence',
    citation: 'Hobby practice: crosses of green, blue and steel; colour layers.',
    basis: PRACTICE,
  },
  { id: 'practice-double-tail', citation: 'Hobby practice: double tail.', basis: PRACTICE },
  {
    id: 'practice-melano',
    citation: 'Hobby practice: melano and the older blacks.',
    basis: PRACTICE,
  },
  { id: 'practice-red-yellow', citation: 'Hobby practice: red and yellow.', basis: PRACTICE },
  { id: 'practice-opaque', citation: 'Hobby practice: opaque and pastel.', basis: PRACTICE },
  { id: 'practice-metallic', citation: 'Hobby practice: metallic and copper.', basis: PRACTICE },
  { id: 'practice-crowntail', citation: 'Hobby practice: crowntail.', basis: PRACTICE },
  { id: 'practice-halfmoon', citation: 'Hobby practice: halfmoon and rosetail.', basis: PRACTICE },
  {
    id: 'practice-marble',
    citation:
      'Hobby report of a student project on marble (an immune, vitiligo-like mechanism; a retrotransposon near CTLA-4).',
    basis: PRACTICE,
  },
  {
    id: 'practice-giant',
    citation: 'Hobby practice: giants (three pairs of alleles; lengths).',
    basis: PRACTICE,
  },
  {
    id: 'compiler',
    citation: 'General breeding knowledge of whoever compiled the list.',
    basis: 'from memory',
  },
]);
