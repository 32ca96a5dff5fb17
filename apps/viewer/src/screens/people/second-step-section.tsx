import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import {
  CONFIRM_SECOND_STEP,
  END_SECOND_STEP,
  OFFER_SECOND_STEP,
  RENEW_SPARE_CODES,
  type SecondStepOffer,
  type WaysIn,
} from '../../api/ways-in.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { QrCode } from '../../components/qr-code.js';
import { RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { ShownOnce } from '../../components/shown-once.js';
import { showTime } from '../../wording/figures.js';
import { OwnPasswordField, OwnPasswordForm, ownPassword } from './password-field.js';
import styles from './second-step-section.module.css';

type Doing = 'set-up' | 'renew' | 'end' | null;

const code = { code: requiredText('Type the six digits that the phone shows.') };

/** A code from a phone that is asked for beside the password. */
export function SecondStepSection({ secondStep }: { secondStep: WaysIn['secondStep'] }) {
  const [doing, setDoing] = useState<Doing>(null);
  const [codes, setCodes] = useState<readonly string[] | null>(null);
  const close = () => setDoing(null);
  const show = (made: readonly string[]) => {
    close();
    setCodes(made);
  };
  const begin = (what: Doing) => {
    setCodes(null);
    setDoing(what);
  };
  return (
    <Section
      title="A second step"
      actions={
        secondStep === null ? (
          <Button onClick={() => begin('set-up')}>Set up codes</Button>
        ) : (
          <>
            <Button onClick={() => begin('renew')}>New spare codes</Button>
            <Button onClick={() => begin('end')}>End codes</Button>
          </>
        )
      }
    >
      <p className="lw-words">
        {secondStep === null
          ? 'Whoever learns your password can sign in. With a second step they also need a code of six digits that a program on your phone shows, any that makes one-time codes.'
          : `Since ${showTime(secondStep.since)} signing in takes a code from your phone as well. ${spareWords(secondStep.spareCodes)}`}
      </p>
      {codes !== null && (
        <ShownOnce secrets={codes}>
          Spare codes, shown this once. Each works one time in place of the phone: write them down
          and keep them where the phone is not.
        </ShownOnce>
      )}
      <Sheet title="Set up codes" opened={doing === 'set-up'} onClose={close}>
        <SetUpCodes onDone={show} onCancel={close} />
      </Sheet>
      <Sheet title="New spare codes" opened={doing === 'renew'} onClose={close}>
        <RenewSpareCodes onDone={show} onCancel={close} />
      </Sheet>
      <Sheet title="End codes" opened={doing === 'end'} onClose={close}>
        <EndCodes onDone={close} />
      </Sheet>
    </Section>
  );
}

const spareWords = (left: number): string =>
  left === 0
    ? 'No spare code is left: make new ones.'
    : `${left} spare ${left === 1 ? 'code is' : 'codes are'} left.`;

interface DoingProps {
  onDone: (codes: readonly string[]) => void;
  onCancel: () => void;
}

function SetUpCodes(props: DoingProps) {
  const [offer, setOffer] = useState<SecondStepOffer | null>(null);
  if (offer !== null) return <ConfirmCodes {...props} offer={offer} />;
  return (
    <OwnPasswordForm
      mutation={OFFER_SECOND_STEP}
      submit="Go on"
      onSaved={({ offerSecondStep }) => setOffer(offerSecondStep)}
      onCancel={props.onCancel}
    />
  );
}

/** Easier to type from the screen; programs for codes leave the spaces out. */
const inFours = (secret: string): string => secret.replaceAll(/.{4}(?=.)/g, '$& ');

function ConfirmCodes({ offer, onDone, onCancel }: DoingProps & { offer: SecondStepOffer }) {
  const form = useForm({ resolver: zodResolver(z.object(code)), defaultValues: { code: '' } });
  const { save, saving, problem } = useSave(CONFIRM_SECOND_STEP);
  return (
    <RecordForm
      fleeting
      form={form}
      submit="Ask for codes from now on"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (given) => {
        const saved = await save(given);
        if (saved !== null) onDone(saved.confirmSecondStep);
      }}
    >
      <p>Point the program on your phone at this picture, or type the letters below it.</p>
      <QrCode
        qr={offer.qr}
        label="QR code for the program on your phone; the letters below it say the same."
      />
      <p>
        <code className={styles['secret']}>{inFours(offer.secret)}</code>
      </p>
      <TextField
        name="code"
        label="Code that the phone shows now"
        autoComplete="one-time-code"
        required
      />
    </RecordForm>
  );
}

function RenewSpareCodes({ onDone, onCancel }: DoingProps) {
  return (
    <OwnPasswordForm
      mutation={RENEW_SPARE_CODES}
      submit="Make new ones"
      onSaved={({ renewSpareCodes }) => onDone(renewSpareCodes)}
      onCancel={onCancel}
    >
      <p>The spare codes that you have work no more.</p>
    </OwnPasswordForm>
  );
}

function EndCodes({ onDone }: { onDone: () => void }) {
  const form = useForm({
    resolver: zodResolver(z.object({ ...ownPassword, ...code })),
    defaultValues: { password: '', code: '' },
  });
  const { save, saving, problem } = useSave(END_SECOND_STEP);
  return (
    <RecordForm
      fleeting
      danger
      form={form}
      submit="End codes"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (given) => {
        if ((await save(given)) !== null) onDone();
      }}
    >
      <p>From then on your password alone signs in. To use another phone, set codes up again.</p>
      <OwnPasswordField />
      <TextField
        name="code"
        label="Code of the phone, or a spare code"
        autoComplete="one-time-code"
        required
      />
    </RecordForm>
  );
}
