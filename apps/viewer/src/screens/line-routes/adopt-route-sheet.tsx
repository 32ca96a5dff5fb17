import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { ADOPT_ROUTE } from '../../api/line-plan.js';
import type { LineRoute } from '../../api/line-routes.js';
import { useSave } from '../../api/use-save.js';
import { given, optionalText, requiredDate } from '../../components/field-rules.js';
import { DateField, TextField } from '../../components/fields.js';
import { Cautions, Done } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { today } from '../../wording/figures.js';
import { triesText, routeDoubts, routeName, stepTexts } from '../../wording/route-words.js';
import type { Asked } from './asked.js';

const schema = z.object({ adoptedOn: requiredDate, note: optionalText });

interface AdoptRouteSheetProps {
  lineId: string;
  asked: Asked;
  route: LineRoute;
  purposeVersion: number;
  onClose: () => void;
}

/** Adopts a route as the plan of the line. */
export function AdoptRouteSheet(props: AdoptRouteSheetProps) {
  const { lineId, asked, purposeVersion, onClose } = props;
  // What was chosen stays, whatever is found then.
  const [route] = useState(props.route);
  const [adopted, setAdopted] = useState(false);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { adoptedOn: today(), note: '' },
  });
  const { save, saving, problem } = useSave(ADOPT_ROUTE);
  if (adopted)
    return (
      <Sheet title="Adopt as the line’s plan" opened onClose={onClose}>
        <Done>
          <p>This route is the line’s plan now. Spawns that fit it are found by their parents.</p>
        </Done>
        <div className="lw-form-buttons">
          <Link to={`/lines/${lineId}`}>The line’s page</Link>
          <Button onClick={onClose}>Done</Button>
        </div>
      </Sheet>
    );
  return (
    <Sheet title="Adopt as the line’s plan" opened onClose={onClose}>
      <RecordForm
        form={form}
        submit="Adopt this plan"
        saving={saving}
        problem={problem}
        onCancel={onClose}
        onSubmit={async ({ adoptedOn, ...words }) => {
          const input = {
            ...{ search: { lineId, ...asked }, key: route.key, adoptedOn },
            ...{ expectedPurposeVersion: purposeVersion, ...given(words) },
          };
          if ((await save({ input })) !== null) setAdopted(true);
        }}
      >
        <p>
          <strong>{routeName(route)}</strong>: {triesText(route.chance, route.simulations)}.
        </p>
        <ol>
          {stepTexts(route).map((text, k) => (
            <li key={`${k} ${text}`}>{text}</li>
          ))}
        </ol>
        <Cautions of={routeDoubts(route)} />
        <p className="lw-quiet">
          A plan that the line has already is taken back; it stays in the history. No pair is
          planned by this: plan each pair when its turn comes.
        </p>
        <DateField name="adoptedOn" label="From" required />
        <TextField name="note" label="Note" />
      </RecordForm>
    </Sheet>
  );
}
