import type { SheetVersion } from '../../api/score-sheets.js';
import { plural } from '../../wording/figures.js';
import { pointsText } from '../../wording/sheet-words.js';
import { totalSoFar } from './filled-sheet.js';

interface TotalLineProps {
  version: SheetVersion;
  values: ReadonlyMap<string, number>;
  faultIds: ReadonlySet<string>;
}

/** "76.3 of 100 by your weights, 1 counted trait to go". */
export function TotalLine({ version, values, faultIds }: TotalLineProps) {
  const { total, missing, disqualified } = totalSoFar(version, values, faultIds);
  return (
    <>
      <span className="lw-figure">
        {total === null ? 'No total yet' : `${pointsText(total)} of 100`}
      </span>
      <span className="lw-quiet">
        {' '}
        {version.lines.some((line) => line.weight !== null)
          ? 'by your weights'
          : 'all traits count equally'}
        {missing.length > 0 && `, ${plural(missing.length, 'counted trait')} to go`}
        {disqualified && ', disqualified by a fault'}
      </span>
    </>
  );
}
