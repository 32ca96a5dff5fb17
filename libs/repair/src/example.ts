/** A file to start from: two founders, a brood of a bag whose parents nobody knows, and young of the founders, with a trait. */
export const EXAMPLE_FILE = {
  name: 'example-fish.csv',
  text: [
    'tag,name,sire,dam,sex,hatch date,line,spawn,disposition,origin,keeper,note,tail spread',
    'R-01,,,,male,2025-01-10,RED,,keeper,a show in spring,,,165',
    'R-02,,,,female,2025-01-12,RED,,keeper,a show in spring,,,160',
    'R-03,,,,female,2025-02-20,RED,BAG-1,keeper,one bag,,,',
    'R-04,,,,female,2025-02-20,RED,BAG-1,died,one bag,,jumped,',
    'R-11,,R-01,R-02,male,2025-09-02,RED,,keeper,,,wide fins,172',
    'R-12,,R-01,R-02,female,2025-09-02,RED,,hold,,,,158',
    'R-13,,R-01,R-02,,2025-09-02,RED,,,,,,',
    '',
  ].join('\n'),
} as const;
