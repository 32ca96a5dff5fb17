import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { Caution } from '../../components/notice.js';
import { Sheet } from '../../components/sheet.js';
import { companyWord } from '../../wording/vessel-words.js';
import type { Company, Moves } from './use-moves.js';

/** Asks before two are in one vessel: what they are together as, or not at all. */
export function AskCompany({ moves: { asking, answer, refuse, saving } }: { moves: Moves }) {
  return (
    <Sheet title="Two in one vessel?" opened={asking !== null} onClose={refuse}>
      {asking !== null && (
        <>
          <p>{asking.message}</p>
          <Caution>
            Males of <i>Betta splendens</i> fight until one is dead or wounded, and a male may kill
            a female that cannot get away. Watch them, and part them at the first chase or torn fin
            (common practice). <Link to="/cautions">All cautions</Link>
          </Caution>
          <p>In {asking.to.code} they are:</p>
          <div className="lw-form-buttons">
            {(Object.keys(companyWord) as Company[]).map((company) => (
              <Button key={company} disabled={saving} onClick={() => void answer(company)}>
                {companyWord[company]}
              </Button>
            ))}
            <Button className="lw-primary" onClick={refuse} disabled={saving}>
              Leave it where it is
            </Button>
          </div>
        </>
      )}
    </Sheet>
  );
}
